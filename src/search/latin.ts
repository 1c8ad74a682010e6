/** A seeded first population that covers every gene evenly. */
import type { RandomStream } from '../numeric/index.ts';
import { GENE_KINDS } from './space.ts';
import type { GeneSpace } from './space.ts';

/**
 * Fills rows by Latin-hypercube sampling: along every gene each of `count` equal slices of its range
 * holds exactly one row. Integers and choices take each value in equal shares, to within one row.
 *
 * @param rows row-major [.. x d]; `count` rows are written from row `from` on.
 * Source: McKay, Beckman & Conover 1979, Technometrics 21:239.
 */
export function fillLatin(
  space: GeneSpace,
  stream: RandomStream,
  rows: Float64Array,
  from: number,
  count: number,
): void {
  const d = space.kinds.length;
  const slices = new Int32Array(count);
  for (let g = 0; g < d; g++) {
    for (let i = 0; i < count; i++) slices[i] = i;
    shuffle(slices, count, stream);
    const lower = space.lower[g];
    const upper = space.upper[g];
    for (let i = 0; i < count; i++) {
      const t = (slices[i] + stream.next()) / count;
      const x =
        space.kinds[g] === GENE_KINDS.real
          ? lower + t * (upper - lower)
          : lower + Math.floor(t * (upper - lower + 1));
      rows[(from + i) * d + g] = Math.min(Math.max(x, lower), upper) + 0;
    }
  }
}

/** Puts the first n entries in random order (Fisher & Yates). */
export function shuffle(ids: Int32Array, n: number, stream: RandomStream): void {
  for (let i = n - 1; i > 0; i--) {
    const j = Math.floor(stream.next() * (i + 1));
    const id = ids[i];
    ids[i] = ids[j];
    ids[j] = id;
  }
}
