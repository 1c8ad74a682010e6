/**
 * Pressure drop of one channel station by station, straight from the formulas and without tables,
 * panels or shortcuts: slow, plain, and written apart from the fast form it judges.
 */
import {
  blendedFriction,
  conicalDiffuser,
  coneAngle_deg,
  creepingEnd,
  diffuserRecovery,
  haalandFriction,
  inverseLag,
  itoCurvedFriction,
  obliqueInletExtra,
  printRoughness,
  separationLoss,
  sharpInlet,
  turbulentShare,
  whiteFactor,
} from '../../src/physics/index.ts';
import { teardropFRe } from '../../src/physics/index.ts';
import type { PlateSamples } from '../../src/design/index.ts';
import type { DuctFamily } from '../../src/physics/index.ts';
import { ROOM_AIR } from './flow-channels.ts';
import type { Surroundings } from './flow-channels.ts';

interface Station {
  readonly A: number;
  readonly D: number;
  readonly fRe: number;
  readonly e: number;
  readonly k: readonly [number, number, number];
  readonly T: readonly [number, number, number];
}

type Vector = readonly [number, number, number];

const dot = (a: Vector, b: Vector): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

function stationsOf(samples: PlateSamples, family: DuctFamily, around: Surroundings): Station[] {
  const shrink = around.shrinkage_mm ?? 0;
  return Array.from({ length: samples.stations }, (_, i) => {
    const d = samples.bore_mm[i];
    const printed = Math.max(d - shrink, 0.1 * d);
    const off = (d - printed) / 2;
    const area = samples.area_mm2[i];
    const perimeter = samples.perimeter_mm[i];
    const A =
      family.kind === 'slot'
        ? area - perimeter * off + Math.PI * off * off
        : area * (printed / d) ** 2;
    const P = family.kind === 'slot' ? perimeter - 2 * Math.PI * off : (perimeter * printed) / d;
    const vector = (array: Float64Array): Vector => [
      array[3 * i],
      array[3 * i + 1],
      array[3 * i + 2],
    ];
    const T = vector(samples.tangent);
    const D = (4 * A) / P / 1000;
    const k = vector(samples.curvature_per_mm).map((x) => x * 1000);
    return {
      A: A / 1e6,
      D,
      fRe: family.kind === 'roofed' ? teardropFRe(samples.roof[i]) : family.fRe,
      e: printRoughness((around.layer_mm ?? 0) / 1000, Math.sqrt(1 - T[2] * T[2])) / D,
      k: [k[0], k[1], k[2]],
      T,
    };
  });
}

/** Relaxed curvature behind every station, one small implicit step per interval. */
function relaxed(row: readonly Station[], step: number): number[] {
  let c: Vector = [0, 0, 0];
  return row.map((now, i) => {
    if (i > 0) {
      const from = row[i - 1].T;
      const share = dot(c, now.T) / (1 + dot(from, now.T));
      const size = Math.sqrt(dot(now.k, now.k));
      const pull = step * inverseLag(size, now.D);
      const move = (axis: 0 | 1 | 2): number =>
        (c[axis] - share * (from[axis] + now.T[axis]) + pull * now.k[axis]) / (1 + pull);
      c = [move(0), move(1), move(2)];
    }
    return Math.sqrt(dot(c, c));
  });
}

interface Bend {
  first: number;
  last: number;
  loss: number;
}

function bendsOf(
  row: readonly Station[],
  step: number,
  Q: number,
  nu: number,
  half: number,
): Bend[] {
  const mean = (pick: (s: Station) => number): number =>
    (row.reduce((sum, s) => sum + pick(s), 0) - (pick(row[0]) + pick(row[row.length - 1])) / 2) /
    (row.length - 1);
  const Re = (Q / nu) * mean((s) => s.D / s.A);
  const e = mean((s) => s.e);
  const bends: Bend[] = [];
  let open: {
    first: number;
    turn: number;
    square: number;
    sum: Vector;
    D: number;
    A: number;
    w: number;
  } | null = null;
  const close = (last: number): void => {
    if (!open) return;
    const { turn, square, D, A, w, first } = open;
    const K = separationLoss(Re, turn / square / (D / w), Math.min(turn, Math.PI), e);
    bends.push({ first, last, loss: (K * half * Q * Q) / (A / w) ** 2 });
    open = null;
  };
  row.forEach((s, i) => {
    const size = Math.sqrt(dot(s.k, s.k));
    const counts = size * s.D > 0.05;
    if (open) {
      const along = dot(s.k, open.sum);
      const turned = along < 0.5 * size * Math.sqrt(dot(open.sum, open.sum));
      if (!counts || turned || open.turn > Math.PI) close(i - 1);
    }
    if (!counts) return;
    open ??= { first: i, turn: 0, square: 0, sum: [0, 0, 0], D: 0, A: 0, w: 0 };
    const ds = i === 0 || i === row.length - 1 ? step / 2 : step;
    const w = Math.min(1, (size * s.D - 0.05) / 0.1) * ds;
    open.turn += w * size;
    open.square += w * size * size;
    const { sum } = open;
    open.sum = [sum[0] + w * s.k[0], sum[1] + w * s.k[1], sum[2] + w * s.k[2]];
    open.D += w * s.D;
    open.A += w * s.A;
    open.w += w;
  });
  close(row.length - 1);
  return bends;
}

function widening(
  row: readonly Station[],
  step: number,
  Q: number,
  nu: number,
  half: number,
): number {
  const meanRe =
    (Q / nu) *
    (row.slice(1).reduce((sum, s, i) => sum + s.D / s.A / 2 + row[i].D / row[i].A / 2, 0) /
      (row.length - 1));
  let loss = 0;
  let run: { low: number; high: number; lost: number; grown: number; squared: number } | null =
    null;
  const close = (): void => {
    if (!run || run.lost === 0) return;
    const b = Math.sqrt(run.low / run.high);
    const d1 = Math.sqrt((4 * run.low) / Math.PI);
    const angle = coneAngle_deg(d1, d1 / b, (run.grown ** 2 * step) / run.squared);
    // The fast form reads the cone's factor at b = 0.5 for every b below.
    const factor = conicalDiffuser(angle, 0.5) / 0.5625;
    const K = Math.min(1, (factor * (1 - b * b)) / (1 + b * b));
    const r = diffuserRecovery(meanRe);
    loss += run.lost * (1 - r + r * K) * half * Q * Q;
  };
  row.forEach((s, i) => {
    if (i === 0 || !run || s.A < run.low || s.A < 0.9 * run.high) {
      close();
      run = { low: s.A, high: s.A, lost: 0, grown: 0, squared: 0 };
      return;
    }
    const before = row[i - 1].A;
    if (s.A <= before) return;
    run.lost += 1 / before ** 2 - 1 / s.A ** 2;
    run.grown += s.A - before;
    run.squared += (s.A - before) ** 2;
    run.high = Math.max(run.high, s.A);
  });
  close();
  return loss;
}

/** Pressure drop [Pa] of the first shape of `samples` at a flow. */
export function oracleDrop(
  samples: PlateSamples,
  family: DuctFamily,
  Q: number,
  around: Surroundings = {},
): number {
  const air = around.air ?? ROOM_AIR;
  const nu = air.kinematicViscosity_m2_per_s;
  const half = 0.5 * air.density_kg_per_m3;
  const row = stationsOf(samples, family, around);
  const step = samples.length_mm[0] / 1000 / (row.length - 1);
  const curve = relaxed(row, step);
  const bends = bendsOf(row, step, Q, nu, half);
  const secondary = Array.from({ length: bends.length + 1 }, () => 0);
  let friction = 0;
  let growing = 0;
  for (let i = 1; i < row.length; i += 1) {
    const z0 = (nu * step * (i - 1)) / Q;
    const z1 = (nu * step * i) / Q;
    for (const [s, weight, c] of [
      [row[i - 1], 0.5, curve[i - 1]],
      [row[i], 0.5, curve[i]],
    ] as const) {
      const q = half * (Q / s.A) ** 2;
      const Re = (Q / s.A) * (s.D / nu);
      const d = (s.fRe * Math.sqrt(s.A)) / (4 * s.D);
      const sum = (z: number): number => Math.sqrt(d * d * z * z + 3.44 ** 2 * z);
      const t = Math.min(1, Math.max(0, (Re - 3000) / 2000));
      const fresh =
        ((4 * Math.sqrt(s.A)) / s.D) *
        q *
        (sum(z1) - sum(z0) - d * (z1 - z0)) *
        (1 - t * t * (3 - 2 * t));
      const settled = (blendedFriction(Re, s.e, s.fRe) * step * q) / s.D;
      const w = turbulentShare(Re);
      const M = whiteFactor(Re * Math.sqrt((s.D * c) / 2)) - 1;
      const late = Math.max(Re, 4000);
      const f = haalandFriction(late, s.e);
      const Mt = c > 0 ? Math.max(1, itoCurvedFriction(late, (s.D * c) / 2) / f) - 1 : 0;
      const laminar = w > 0 ? ((1 - w) * (s.fRe / 2300) * step * q) / s.D : settled;
      const turbulent = w > 0 ? (w * f * step * q) / s.D : 0;
      const bend = M * (1 - w) * (laminar + fresh) + Mt * turbulent;
      let place = 0;
      while (place < bends.length && bends[place].first < i) place += 1;
      secondary[place] += weight * bend;
      friction += weight * settled;
      growing += weight * fresh;
    }
  }
  const curvature = bends.reduce(
    (sum, bend, i) => sum + Math.max(bend.loss, secondary[i + 1]),
    secondary[0],
  );
  const first = row[0];
  const last = row[row.length - 1];
  const cosine = Math.sqrt(1 - first.T[2] ** 2);
  const inlet =
    (sharpInlet(around.openShare ?? 0) + obliqueInletExtra(cosine)) * half * (Q / first.A) ** 2;
  const ends =
    (inlet ** 4 + growing ** 4) ** 0.25 +
    half * (Q / last.A) ** 2 +
    (creepingEnd(air.viscosity_Pa_s, first.D / 2) + creepingEnd(air.viscosity_Pa_s, last.D / 2)) *
      Q;
  return friction + curvature + ends + widening(row, step, Q, nu, half);
}
