/** Products with the matrix of a heat net, and its incomplete factors. */
import { effectiveness } from './exchanger.ts';
import { AIR_WAY } from './heat-net.ts';
import type { HeatNet } from './heat-net.ts';

/** Leak of every cell to the incoming air over its own conductances: gives loose crumbs a value. */
const LEAK = 1e-13;

/** Share of dropped fill that is taken off the diagonal. */
const DROPPED = 0.97;

/** What the loops read besides the net: ready sums, made once per net. */
export interface Prepared {
  readonly net: HeatNet;
  /** Diagonal of the solid's matrix, and of its incomplete factors (inverse) [count + 1]. */
  readonly diagonal: Float64Array;
  readonly inverse: Float64Array;
  /** Conductances to the upper neighbours over the factors' diagonal [3 x count]. */
  readonly handed: Float64Array;
  /** The factors' diagonal D itself, and what the matrix' own is above twice that [count + 1]. */
  readonly pivot: Float64Array;
  readonly excess: Float64Array;
  /** Conductance and warming of each ring. */
  readonly ring_W_per_K: Float64Array;
  readonly warming: Float64Array;
  readonly scratch: Float64Array;
}

export function prepare(net: HeatNet): Prepared {
  const { count: n, next, toNext_W_per_K: g, ringStart, patch_W_per_K: patch, patchCell } = net;
  const rings = ringStart.length - 1;
  const diagonal = new Float64Array(n + 1);
  const ring = new Float64Array(rings);
  const warming = new Float64Array(rings);
  for (let i = 0; i < n; i += 1) {
    for (let d = 3 * i; d < 3 * i + 3; d += 1) {
      diagonal[i] += g[d];
      diagonal[next[d]] += g[d];
    }
    diagonal[i] += net.toFace_W_per_K[i];
  }
  for (let p = 0; p < patchCell.length; p += 1) diagonal[patchCell[p]] += patch[p];
  for (let i = 0; i < n; i += 1) diagonal[i] = diagonal[i] > 0 ? diagonal[i] * (1 + LEAK) : 1;
  for (let s = 0; s < net.streams; s += 1) {
    for (let r = net.streamStart[s]; r < net.streamStart[s + 1]; r += 1) {
      for (let p = ringStart[r]; p < ringStart[r + 1]; p += 1) ring[r] += patch[p];
      warming[r] = effectiveness(ring[r] / net.capacity_W_per_K[s]);
    }
  }
  // Incomplete factors without fill; most of what falls away is taken off the diagonal, so that an
  // even temperature is nearly solved at once (halves the rounds against none of it).
  const inverse = Float64Array.from(diagonal);
  for (let i = 0, d = 0; i < n; i += 1, d += 3) {
    const own = 1 / inverse[i];
    inverse[i] = own;
    const all = DROPPED * (g[d] + g[d + 1] + g[d + 2]);
    for (let e = d; e < d + 3; e += 1) {
      inverse[next[e]] -= own * g[e] * (all + (1 - DROPPED) * g[e]);
    }
  }
  const pivot = new Float64Array(n + 1);
  const excess = new Float64Array(n + 1);
  const handed = new Float64Array(3 * n);
  for (let i = 0; i < n; i += 1) {
    pivot[i] = 1 / inverse[i];
    excess[i] = diagonal[i] - 2 * pivot[i];
    for (let d = 3 * i; d < 3 * i + 3; d += 1) handed[d] = g[d] * inverse[i];
  }
  const scratch = new Float64Array(n + 1);
  return { net, diagonal, inverse, handed, pivot, excess, ring_W_per_K: ring, warming, scratch };
}

/** out = A x: conduction, hot body, and the air, which each stream carries on from ring to ring. */
export function apply(work: Prepared, x: Float64Array, out: Float64Array): void {
  const { net, diagonal } = work;
  const { count: n, next, toNext_W_per_K: g } = net;
  for (let i = 0; i < n; i += 1) out[i] = diagonal[i] * x[i];
  x[n] = 0;
  for (let i = 0, d = 0; i < n; i += 1, d += 3) {
    const a = next[d];
    const b = next[d + 1];
    const c = next[d + 2];
    const own = x[i];
    out[i] -= g[d] * x[a] + g[d + 1] * x[b] + g[d + 2] * x[c];
    out[a] -= g[d] * own;
    out[b] -= g[d + 1] * own;
    out[c] -= g[d + 2] * own;
  }
  passAir(work, x, out);
}

/**
 * Carries the air of every stream past its rings and takes its warmth off `out`.
 *
 * A ring warms the air by e (wall - air), e = 1 - exp(-UA/(m' cp)); its patches see the air
 * temperature at which UA (wall - seen) is just that heat.
 *
 * @returns heat that the air carries away [W/K].
 */
export function passAir(work: Prepared, x: Float64Array, out: Float64Array | null): number {
  const { net, ring_W_per_K: ring, warming } = work;
  const { ringStart, streamStart, patchCell, patch_W_per_K: patch } = net;
  let carried = 0;
  let mixed = 0;
  let mixing = 0;
  for (let s = 0; s < net.streams; s += 1) {
    const capacity = net.capacity_W_per_K[s];
    let air = net.way[s] === AIR_WAY.shares && mixing > 0 ? mixed / mixing : 0;
    for (let r = streamStart[s]; r < streamStart[s + 1]; r += 1) {
      if (!(ring[r] > 0)) continue;
      const end = ringStart[r + 1];
      let sum = 0;
      for (let p = ringStart[r]; p < end; p += 1) sum += patch[p] * x[patchCell[p]];
      const wall = sum / ring[r];
      const rise = warming[r] * (wall - air);
      if (out !== null) {
        const seen = wall - (capacity * rise) / ring[r];
        for (let p = ringStart[r]; p < end; p += 1) out[patchCell[p]] -= patch[p] * seen;
      }
      air += rise;
    }
    if (net.way[s] === AIR_WAY.mixes) {
      mixed += capacity * air;
      mixing += capacity;
    } else carried += capacity * air;
  }
  return carried;
}

/** out = (D - L)^-1 r, the lower one of the incomplete factors; r is used up. */
export function solveLower(work: Prepared, r: Float64Array, out: Float64Array): void {
  const { net, inverse, handed } = work;
  const { count: n, next } = net;
  for (let i = 0, d = 0; i < n; i += 1, d += 3) {
    const own = r[i];
    r[next[d]] += handed[d] * own;
    r[next[d + 1]] += handed[d + 1] * own;
    r[next[d + 2]] += handed[d + 2] * own;
    out[i] = inverse[i] * own;
  }
}

/** out = (D - L')^-1 D p, the upper one. */
export function solveUpper(work: Prepared, p: Float64Array, out: Float64Array): void {
  const { net, handed } = work;
  const { count: n, next } = net;
  out[n] = 0;
  for (let i = n - 1, d = 3 * i; i >= 0; i -= 1, d -= 3) {
    // The neighbour before, which is only just known, comes last: the others need not wait for it.
    const known = p[i] + handed[d + 2] * out[next[d + 2]] + handed[d + 1] * out[next[d + 1]];
    out[i] = known + handed[d] * out[next[d]];
  }
}

/**
 * out = (D - L)^-1 A y for y = (D - L')^-1 D p. The solid's matrix is (D - L) + (D - L') + E with a
 * diagonal E, so that its product need not be formed (Eisenstat 1981, SIAM J. Sci. Stat. Comput. 2:1):
 *
 *   out = y + (D - L)^-1 (D p + E y - air)
 */
export function applyBetween(
  work: Prepared,
  p: Float64Array,
  y: Float64Array,
  out: Float64Array,
): void {
  const { net, pivot, excess, scratch } = work;
  const n = net.count;
  for (let i = 0; i < n; i += 1) scratch[i] = pivot[i] * p[i] + excess[i] * y[i];
  passAir(work, y, scratch);
  solveLower(work, scratch, out);
  for (let i = 0; i < n; i += 1) out[i] += y[i];
}

/** Sum of all cells' unbalanced heats (D - L) r. */
export function sumAstray(work: Prepared, r: Float64Array): number {
  const { net, pivot, scratch } = work;
  const { count: n, next, toNext_W_per_K: g } = net;
  for (let i = 0; i < n; i += 1) scratch[i] = pivot[i] * r[i];
  for (let i = 0, d = 0; i < n; i += 1, d += 3) {
    scratch[next[d]] -= g[d] * r[i];
    scratch[next[d + 1]] -= g[d + 1] * r[i];
    scratch[next[d + 2]] -= g[d + 2] * r[i];
  }
  let sum = 0;
  for (let i = 0; i < n; i += 1) sum += Math.abs(scratch[i]);
  return sum;
}
