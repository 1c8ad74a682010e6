/** Mutation of single genes: polynomial steps, at least one step for integers, another option for choices. */
import { log } from '../numeric/index.ts';
import type { RandomStream } from '../numeric/index.ts';
import { power, root } from './roots.ts';
import type { Exponent } from './roots.ts';
import { GENE_KINDS } from './space.ts';
import type { GeneSpace } from './space.ts';

/**
 * Bounded polynomial mutation of a real number.
 *
 *   u < 1/2: q = [2u + (1 - 2u)(1 - d1)^(eta+1)]^(1/(eta+1)) - 1
 *   else:    q = 1 - [2(1 - u) + 2(u - 1/2)(1 - d2)^(eta+1)]^(1/(eta+1))
 *   x + q (upper - lower)
 *
 * with d1, d2 the distances of x from its bounds in units of their range.
 *
 * @param u uniform number in 0 <= u < 1; 1/2 leaves x where it is.
 * @returns a number inside lower..upper.
 * @example mutateReal(0.3, 0, 1, 0.5, createExponent(20)) // 0.3
 * Source: Deb & Goyal 1996; bounded form of Deb's published program.
 */
export function mutateReal(
  x: number,
  lower: number,
  upper: number,
  u: number,
  exponent: Exponent,
): number {
  const range = upper - lower;
  let q: number;
  if (u < 0.5) {
    const rest = power(1 - (x - lower) / range, exponent);
    q = root(2 * u + (1 - 2 * u) * rest, exponent) - 1;
  } else {
    const rest = power(1 - (upper - x) / range, exponent);
    q = 1 - root(2 * (1 - u) + 2 * (u - 0.5) * rest, exponent);
  }
  const y = x + q * range;
  // Adding 0 turns -0 into 0, which JSON could not keep.
  return (y < lower ? lower : y > upper ? upper : y) + 0;
}

/** Rounds the polynomial step and takes a single step when rounding would lose it. */
function mutateInteger(
  x: number,
  lower: number,
  upper: number,
  u: number,
  exponent: Exponent,
): number {
  const y = Math.round(mutateReal(x, lower, upper, u, exponent)) + 0;
  if (y !== x) return y;
  if (u < 0.5) return x > lower ? x - 1 : x + 1;
  return x < upper ? x + 1 : x - 1;
}

/**
 * Mutates gene g of the row at `offset` in place. A gene whose bounds are equal stays.
 *
 * @param pool genes [rows x d].
 */
export function mutateGene(
  space: GeneSpace,
  exponent: Exponent,
  stream: RandomStream,
  pool: Float64Array,
  offset: number,
  g: number,
): void {
  const lower = space.lower[g];
  const upper = space.upper[g];
  if (lower === upper) return;
  const at = offset + g;
  const x = pool[at];
  const u = stream.next();
  if (space.kinds[g] === GENE_KINDS.real) {
    pool[at] = mutateReal(x, lower, upper, u, exponent);
  } else if (space.kinds[g] === GENE_KINDS.integer) {
    pool[at] = mutateInteger(x, lower, upper, u, exponent);
  } else {
    const other = Math.floor(u * upper);
    pool[at] = other < x ? other : other + 1;
  }
}

/**
 * Mutates each gene of `count` rows with chance `probability`, independently. The gap to the next
 * gene that mutates is drawn instead of one coin a gene: the same distribution, and of 30 genes at
 * 1/30 one number in place of thirty.
 */
export function mutateRows(
  space: GeneSpace,
  exponent: Exponent,
  probability: number,
  stream: RandomStream,
  pool: Float64Array,
  offset: number,
  count: number,
): void {
  if (probability <= 0) return;
  const d = space.kinds.length;
  const total = count * d;
  const scale = probability < 1 ? 1 / log(1 - probability) : 0;
  let at = Math.floor(log(1 - stream.next()) * scale) + 0;
  while (at < total) {
    const g = at % d;
    mutateGene(space, exponent, stream, pool, offset + at - g, g);
    at += 1 + Math.floor(log(1 - stream.next()) * scale);
  }
}
