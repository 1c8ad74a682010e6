/** Summaries, rank correlation and rank tests. */
import { exp } from './exponential.ts';

/**
 * Quantile by linear interpolation between order statistics at (n - 1) p.
 *
 * @param values at least one number, in any order; left unchanged.
 * @param p share below, 0..1.
 * @example quantile([4, 1, 3, 2], 0.5) // 2.5
 * Source: Hyndman & Fan 1996, definition 7.
 */
export function quantile(values: ArrayLike<number>, p: number): number {
  if (values.length === 0) throw new RangeError('quantile() needs at least one value.');
  if (!(p >= 0 && p <= 1)) throw new RangeError(`quantile() needs 0 <= p <= 1, not ${p}.`);
  const sorted = Float64Array.from(values).toSorted();
  const position = (sorted.length - 1) * p;
  const below = Math.floor(position);
  const above = Math.min(below + 1, sorted.length - 1);
  return sorted[below] + (position - below) * (sorted[above] - sorted[below]);
}

/**
 * Middle value.
 *
 * @example median([5, 1, 2]) // 2
 */
export function median(values: ArrayLike<number>): number {
  return quantile(values, 0.5);
}

/**
 * Ranks from 1; equal values share the mean of their ranks.
 *
 * @example ranks([7, 3, 3])[0] // 3
 */
export function ranks(values: ArrayLike<number>): Float64Array {
  const n = values.length;
  const order = Array.from({ length: n }, (_, i) => i);
  order.sort((i, j) => values[i] - values[j] || i - j);
  const out = new Float64Array(n);
  for (let from = 0; from < n;) {
    let to = from + 1;
    while (to < n && values[order[to]] === values[order[from]]) to++;
    for (let k = from; k < to; k++) out[order[k]] = 0.5 * (from + 1 + to);
    from = to;
  }
  return out;
}

/**
 * Spearman's rank correlation, -1..1: the product-moment correlation of the ranks.
 *
 * @returns NaN when either list holds only one value.
 * @throws RangeError if the lists differ in length or hold fewer than two values.
 * @example rankCorrelation([1, 2, 3, 4], [10, 20, 40, 30]) // 0.8
 */
export function rankCorrelation(a: ArrayLike<number>, b: ArrayLike<number>): number {
  if (a.length !== b.length || a.length < 2) {
    throw new RangeError(
      `rankCorrelation() got ${a.length} and ${b.length} values; it needs two` +
        ' lists of one length, 2 or more.',
    );
  }
  const ra = ranks(a);
  const rb = ranks(b);
  const centre = 0.5 * (a.length + 1);
  let ab = 0;
  let aa = 0;
  let bb = 0;
  for (let i = 0; i < ra.length; i++) {
    ab += (ra[i] - centre) * (rb[i] - centre);
    aa += (ra[i] - centre) * (ra[i] - centre);
    bb += (rb[i] - centre) * (rb[i] - centre);
  }
  return aa === 0 || bb === 0 ? NaN : ab / Math.sqrt(aa * bb);
}

/** What the first sample is supposed to be against the second. */
export type Alternative = 'two-sided' | 'greater' | 'less';

export interface RankTest {
  /** Pairs (a, b) with a > b, ties counting one half. */
  readonly U: number;
  readonly p: number;
  /** Chance that a drawn a exceeds a drawn b, ties counting one half. */
  readonly A12: number;
  /** true: p from the exact distribution; false: normal approximation. */
  readonly isExact: boolean;
}

/** Up to this many pairs the exact distribution is counted. */
const EXACT_PAIRS = 2500;

/**
 * Mann-Whitney U test of two independent samples, with the effect size A12.
 *
 * Exact distribution of U without ties and up to 2500 pairs; otherwise normal approximation with
 * tie and continuity correction.
 *
 * @param a first sample, at least one value.
 * @param b second sample, at least one value.
 * @param alternative what is claimed of a.
 * @example mannWhitney([3, 4], [1, 2], 'greater').U // 4
 * Source: Mann & Whitney 1947; Vargha & Delaney 2000.
 */
export function mannWhitney(
  a: ArrayLike<number>,
  b: ArrayLike<number>,
  alternative: Alternative = 'two-sided',
): RankTest {
  const m = a.length;
  const n = b.length;
  if (m === 0 || n === 0)
    throw new RangeError('mannWhitney() needs two samples that are not empty.');
  const all = new Float64Array(m + n);
  all.set(Float64Array.from(a));
  all.set(Float64Array.from(b), m);
  const r = ranks(all);
  let U = (-m * (m + 1)) / 2;
  for (let i = 0; i < m; i++) U += r[i];
  const ties = tieTerm(all);
  const isExact = ties === 0 && m * n <= EXACT_PAIRS;
  const tail = isExact ? exactTail(m, n) : normalTail(m, n, ties);
  // tail(u) = P(U >= u); the distribution is symmetric about m n / 2.
  let p: number;
  if (alternative === 'greater') p = tail(U);
  else if (alternative === 'less') p = tail(m * n - U);
  else p = Math.min(1, 2 * tail(Math.max(U, m * n - U)));
  return { U, p, A12: U / (m * n), isExact };
}

/** Sum of t^3 - t over groups of t equal values. */
function tieTerm(values: Float64Array): number {
  const sorted = values.toSorted();
  let sum = 0;
  for (let from = 0; from < sorted.length;) {
    let to = from + 1;
    while (to < sorted.length && sorted[to] === sorted[from]) to++;
    const t = to - from;
    sum += t * t * t - t;
    from = to;
  }
  return sum;
}

function exactTail(m: number, n: number): (u: number) => number {
  // Number of subsets of m out of m + n ranks by their U: the product of (1 - q^(n+i))/(1 - q^i).
  const size = m * n + 1;
  const ways = new Float64Array(size);
  ways[0] = 1;
  for (let i = 1; i <= m; i++) {
    for (let u = size - 1; u >= n + i; u--) ways[u] -= ways[u - n - i];
    for (let u = i; u < size; u++) ways[u] += ways[u - i];
  }
  let total = 0;
  for (let u = 0; u < size; u++) total += ways[u];
  return (u) => {
    let sum = 0;
    for (let k = Math.max(0, Math.ceil(u)); k < size; k++) sum += ways[k];
    return sum / total;
  };
}

function normalTail(m: number, n: number, ties: number): (u: number) => number {
  const N = m + n;
  const sigma = Math.sqrt(((m * n) / 12) * (N + 1 - ties / (N * (N - 1))));
  return (u) => (sigma === 0 ? 1 : upperNormal((u - 0.5 * m * n - 0.5) / sigma));
}

/**
 * Upper tail of the standard normal distribution, absolute error below 7.5e-8.
 *
 * @example upperNormal(1.959964) // 0.025
 * Source: Abramowitz & Stegun 26.2.17 (Hastings).
 */
export function upperNormal(z: number): number {
  const a = Math.abs(z);
  const t = 1 / (1 + 0.2316419 * a);
  const series =
    t *
    (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  const tail = 0.3989422804014327 * exp(-0.5 * a * a) * series;
  return z >= 0 ? tail : 1 - tail;
}
