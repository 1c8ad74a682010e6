/**
 * Steady conduction in a solid of cells that give heat to streams of air, on a compressed list of
 * cells: unknowns are temperatures as shares, 0 = incoming air, 1 = hot body.
 */
import { effectiveness } from './exchanger.ts';

/**
 * Cells and what they exchange. Cell i conducts to its neighbours `next` (three upper ones; the
 * index `count` stands for none). Rings are stretches of wall that see one air temperature: ring r
 * has the patches [ringStart[r], ringStart[r + 1]), stream s the rings [streamStart[s],
 * streamStart[s + 1]) in the order of its air.
 */
export interface HeatNet {
  readonly count: number;
  /** Upper neighbours [3 x count] and conductances to them [3 x count] [W/K]. */
  readonly next: Int32Array;
  readonly toNext_W_per_K: Float64Array;
  /** Conductance to the hot body [count] [W/K]. */
  readonly toFace_W_per_K: Float64Array;
  readonly streams: number;
  readonly streamStart: Int32Array;
  /** Heat capacity rate of each stream [W/K]. */
  readonly capacity_W_per_K: Float64Array;
  /** Where each stream begins and ends, see `AIR_WAY`; those that mix come before those that share. */
  readonly way: Int8Array;
  readonly ringStart: Int32Array;
  /** Cell of each patch and conductance from cell to air [W/K]. */
  readonly patchCell: Int32Array;
  readonly patch_W_per_K: Float64Array;
}

/**
 * Ways of a stream: from outside to outside; from outside into a room where streams mix; from there
 * to outside.
 */
export const AIR_WAY = { through: 0, mixes: 1, shares: 2 } as const;

export interface HeatSolution {
  /** Temperature share of every cell. */
  readonly share: Float64Array;
  /** Heat from the hot body, and to the air, per kelvin between hot body and incoming air [W/K]. */
  readonly fromFace_W_per_K: number;
  readonly toAir_W_per_K: number;
  readonly rounds: number;
  /** Whether the unbalanced heats fell below `HEAT_TOLERANCE`. */
  readonly settled: boolean;
}

/** Sum of all cells' unbalanced heats at which the search stops, as a share of the heat that flows. */
export const HEAT_TOLERANCE = 5e-5;
const MOST_ROUNDS = 400;
/** Leak of every cell to the incoming air over its own conductances: gives loose crumbs a value. */
const LEAK = 1e-13;

/** Share of dropped fill that is taken off the diagonal. */
const DROPPED = 0.97;

/** What the loops read besides the net: ready sums, made once per net. */
interface Prepared {
  readonly net: HeatNet;
  /** Diagonal of the solid's matrix, and of its incomplete factors (inverse) [count + 1]. */
  readonly diagonal: Float64Array;
  readonly inverse: Float64Array;
  /** Conductance and warming of each ring. */
  readonly ring_W_per_K: Float64Array;
  readonly warming: Float64Array;
  readonly scratch: Float64Array;
}

function prepare(net: HeatNet): Prepared {
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
  return { net, diagonal, inverse, ring_W_per_K: ring, warming, scratch: new Float64Array(n + 1) };
}

/** out = A x: conduction, hot body, and the air, which each stream carries on from ring to ring. */
function apply(work: Prepared, x: Float64Array, out: Float64Array): void {
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
function passAir(work: Prepared, x: Float64Array, out: Float64Array | null): number {
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

/** out = M^-1 r by the incomplete factors. */
function precondition(work: Prepared, r: Float64Array, out: Float64Array): void {
  const { net, inverse, scratch } = work;
  const { count: n, next, toNext_W_per_K: g } = net;
  scratch.set(r);
  for (let i = 0, d = 0; i < n; i += 1, d += 3) {
    const w = scratch[i] * inverse[i];
    out[i] = w;
    scratch[next[d]] += g[d] * w;
    scratch[next[d + 1]] += g[d + 1] * w;
    scratch[next[d + 2]] += g[d + 2] * w;
  }
  out[n] = 0;
  for (let i = n - 1, d = 3 * i; i >= 0; i -= 1, d -= 3) {
    out[i] +=
      inverse[i] *
      (g[d] * out[next[d]] + g[d + 1] * out[next[d + 1]] + g[d + 2] * out[next[d + 2]]);
  }
}

/** Heat from the hot body at these temperatures [W/K]. */
function fromFace(net: HeatNet, x: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < net.count; i += 1) sum += net.toFace_W_per_K[i] * (1 - x[i]);
  return sum;
}

/**
 * Solves for the temperatures by stabilised bi-conjugate gradients: air makes the matrix lopsided,
 * since a ring feels the ones before it only.
 *
 * @param share start of the search, overwritten by the solution [count + 1].
 * Source: van der Vorst 1992, SIAM J. Sci. Stat. Comput. 13:631; incomplete factors: Meijerink & van
 * der Vorst 1977.
 */
export function solveHeat(net: HeatNet, share: Float64Array): HeatSolution {
  const work = prepare(net);
  const { count: n, toFace_W_per_K: face } = net;
  const vector = (): Float64Array => new Float64Array(n + 1);
  const [r, shadow, p, v, y, z, t] = [
    vector(),
    vector(),
    vector(),
    vector(),
    vector(),
    vector(),
    vector(),
  ];
  apply(work, share, v);
  for (let i = 0; i < n; i += 1) r[i] = face[i] - v[i];
  shadow.set(r);
  v.fill(0);
  let [before, alpha, omega] = [1, 1, 1];
  let rounds = 0;
  for (; rounds < MOST_ROUNDS; rounds += 1) {
    let astray = 0;
    let flowing = 0;
    let rho = 0;
    for (let i = 0; i < n; i += 1) {
      astray += Math.abs(r[i]);
      flowing += face[i] * (1 - share[i]);
      rho += shadow[i] * r[i];
    }
    if (astray <= HEAT_TOLERANCE * flowing) break;
    const beta = (rho / before) * (alpha / omega);
    before = rho;
    for (let i = 0; i < n; i += 1) p[i] = r[i] + beta * (p[i] - omega * v[i]);
    precondition(work, p, y);
    apply(work, y, v);
    let met = 0;
    for (let i = 0; i < n; i += 1) met += shadow[i] * v[i];
    alpha = rho / met;
    for (let i = 0; i < n; i += 1) r[i] -= alpha * v[i];
    precondition(work, r, z);
    apply(work, z, t);
    let square = 0;
    let along = 0;
    for (let i = 0; i < n; i += 1) {
      square += t[i] * t[i];
      along += t[i] * r[i];
    }
    omega = square > 0 ? along / square : 0;
    for (let i = 0; i < n; i += 1) {
      share[i] += alpha * y[i] + omega * z[i];
      r[i] -= omega * t[i];
    }
    if (!Number.isFinite(omega) || omega === 0) break;
  }
  const settled = rounds < MOST_ROUNDS;
  // What is left over is spread by one factor near 1 on all temperatures, with which heat in and
  // out agree: face (1 - f share) = f air.
  let whole = 0;
  let met = 0;
  for (let i = 0; i < n; i += 1) {
    whole += face[i];
    met += face[i] * share[i];
  }
  const factor = whole / (met + passAir(work, share, null));
  for (let i = 0; i < n; i += 1) share[i] *= factor;
  const fromFace_W_per_K = fromFace(net, share);
  const toAir_W_per_K = passAir(work, share, null);
  return { share, fromFace_W_per_K, toAir_W_per_K, rounds, settled };
}
