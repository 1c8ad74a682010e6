/** Crossing two parents gene by gene: simulated binary crossover, rounded or exchanged as the kind asks. */
import type { RandomStream } from '../numeric/index.ts';
import { power, root } from './roots.ts';
import type { Exponent } from './roots.ts';
import { GENE_KINDS } from './space.ts';
import type { GeneSpace } from './space.ts';

/** Parents closer than this are one point to crossover (Deb's published program uses the same). */
const SAME = 1e-14;

/** Beyond this reach (reach^-n) is below half a unit in the last place of 2 for every n >= 16. */
const FAR = 11;

/**
 * Share of the spread distribution that a bound leaves.
 *
 *   alpha = 2 - reach^-(eta + 1),   reach = 1 + 2 d / (x2 - x1)
 *
 * with d the distance from the nearer parent to the bound. Without bounds alpha is 2.
 */
function spreadLimit(reach: number, exponent: Exponent): number {
  if (reach > FAR && exponent.whole >= 16) return 2;
  return 2 - 1 / power(reach, exponent);
}

/**
 * Spread of the children about the middle of their parents, in units of half the parents' distance.
 *
 *   u <= 1/alpha: (u alpha)^(1/(eta + 1)),   else (1 / (2 - u alpha))^(1/(eta + 1))
 *
 * @param u uniform number in 0 <= u < 1.
 * @param alpha from `spreadLimit`, 1..2.
 * @example spread(0.5, 2, createExponent(15)) // 1
 * Source: Deb & Agrawal 1995, Complex Systems 9:115; bounded form of Deb & Beyer's published program.
 */
export function spread(u: number, alpha: number, exponent: Exponent): number {
  const t = u * alpha;
  return root(t <= 1 ? t : 1 / (2 - t), exponent);
}

/**
 * Bounded simulated binary crossover of one gene, x1 < x2 both inside lower..upper.
 *
 * @param out children, nearer to x1 first [2].
 */
export function crossReals(
  x1: number,
  x2: number,
  lower: number,
  upper: number,
  u: number,
  exponent: Exponent,
  out: Float64Array,
): void {
  const gap = x2 - x1;
  const alpha1 = spreadLimit(1 + (2 * (x1 - lower)) / gap, exponent);
  const alpha2 = spreadLimit(1 + (2 * (upper - x2)) / gap, exponent);
  const spread1 = spread(u, alpha1, exponent);
  // Far from both bounds the two spreads are the same number: half of the roots are saved.
  const spread2 = alpha1 === alpha2 ? spread1 : spread(u, alpha2, exponent);
  const child1 = 0.5 * (x1 + x2 - spread1 * gap);
  const child2 = 0.5 * (x1 + x2 + spread2 * gap);
  // Adding 0 turns -0 into 0, which JSON could not keep.
  out[0] = (child1 < lower ? lower : child1 > upper ? upper : child1) + 0;
  out[1] = (child2 < lower ? lower : child2 > upper ? upper : child2) + 0;
}

const children = new Float64Array(2);

/**
 * Makes two children of two parents within one row-major pool. Each gene takes part with chance 1/2;
 * the children then swap the gene with chance 1/2. Real genes spread, integers spread and are
 * rounded, choices are exchanged.
 *
 * @param pool genes [rows x d].
 * @param a offset of the first parent in `pool`; b of the second; p and q of the children.
 */
export function crossRows(
  space: GeneSpace,
  exponent: Exponent,
  stream: RandomStream,
  pool: Float64Array,
  a: number,
  b: number,
  p: number,
  q: number,
): void {
  const { kinds, lower, upper } = space;
  const d = kinds.length;
  let bits = 0;
  let left = 0;
  for (let g = 0; g < d; g++) {
    const xa = pool[a + g];
    const xb = pool[b + g];
    pool[p + g] = xa;
    pool[q + g] = xb;
    // Two coins a gene, cut from one 32-bit number: a call for each would cost a fifth of the time.
    if (left === 0) {
      bits = Math.floor(stream.next() * 4294967296) | 0;
      left = 16;
    }
    const coins = bits & 3;
    bits >>>= 2;
    left--;
    if ((coins & 1) === 0) continue;
    const swap = (coins & 2) !== 0;
    let ya = xa;
    let yb = xb;
    if (kinds[g] !== GENE_KINDS.choice) {
      const low = xa < xb ? xa : xb;
      const high = xa < xb ? xb : xa;
      if (high - low <= SAME) continue;
      crossReals(low, high, lower[g], upper[g], stream.next(), exponent, children);
      ya = children[0];
      yb = children[1];
      if (kinds[g] === GENE_KINDS.integer) {
        ya = Math.round(ya) + 0;
        yb = Math.round(yb) + 0;
      }
    }
    pool[p + g] = swap ? yb : ya;
    pool[q + g] = swap ? ya : yb;
  }
}
