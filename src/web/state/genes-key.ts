/** A short text that stands for a row of genes. */

const bits = new DataView(new ArrayBuffer(8));

/**
 * Key of genes: 64 bits of their numbers mixed (FNV-1a, twice with different starts, from memory).
 * Far cheaper than writing the numbers out, and no two designs that one person ever meets share it.
 *
 * @example keyOfGenes([1, 2]) === keyOfGenes([2, 1]) // false
 */
export function keyOfGenes(genes: readonly number[]): string {
  let [a, b] = [0x811c9dc5, 0x9e3779b9];
  for (const gene of genes) {
    // Zero has two signs, and both are the same gene.
    bits.setFloat64(0, gene + 0);
    for (const word of [bits.getUint32(0), bits.getUint32(4)]) {
      a = Math.imul(a ^ word, 0x01000193);
      a ^= a >>> 15;
      b = Math.imul(b ^ word, 0x85ebca6b);
      b ^= b >>> 13;
    }
  }
  return `${(a >>> 0).toString(36)}.${(b >>> 0).toString(36)}`;
}
