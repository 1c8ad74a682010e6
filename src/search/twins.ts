/** Finds rows with exactly the same genes, through a hash of their bits. */

export interface TwinSpace {
  /** Row + 1 at each place of the table; 0 = empty. */
  readonly table: Int32Array;
  /** Hash of each row; kept along with the row. */
  readonly hashes: Int32Array;
  /** The genes' bits. */
  readonly bits: Int32Array;
}

/** @param pool genes of all rows [rows x d]; the table reads them in place. */
export function createTwinSpace(pool: Float64Array, rows: number): TwinSpace {
  let size = 16;
  while (size < rows * 2) size *= 2;
  return {
    table: new Int32Array(size),
    hashes: new Int32Array(rows),
    bits: new Int32Array(pool.buffer, pool.byteOffset, pool.length * 2),
  };
}

/** Hash of a row from its bits. It only finds candidates: equality is checked gene by gene. */
export function hashRow(space: TwinSpace, row: number, d: number): void {
  const { bits } = space;
  const from = row * d * 2;
  const to = from + d * 2;
  let hash = 0;
  for (let i = from; i < to; i += 2) {
    hash = Math.imul(hash ^ bits[i], 0x9e3779b1) ^ bits[i + 1];
    hash ^= hash >>> 15;
  }
  hash = Math.imul(hash, 0x85ebca6b);
  space.hashes[row] = hash ^ (hash >>> 13);
}

export function clearTwins(space: TwinSpace): void {
  space.table.fill(0);
}

/**
 * Enters a row whose hash is known.
 *
 * @returns false when the table already holds a row with the same genes; the row is then not entered.
 */
export function enterRow(space: TwinSpace, pool: Float64Array, row: number, d: number): boolean {
  const { table, hashes } = space;
  const mask = table.length - 1;
  let at = hashes[row] & mask;
  while (table[at] !== 0) {
    const other = table[at] - 1;
    if (hashes[other] === hashes[row] && isSameRow(pool, other, row, d)) return false;
    at = (at + 1) & mask;
  }
  table[at] = row + 1;
  return true;
}

function isSameRow(pool: Float64Array, a: number, b: number, d: number): boolean {
  for (let g = 0; g < d; g++) if (pool[a * d + g] !== pool[b * d + g]) return false;
  return true;
}
