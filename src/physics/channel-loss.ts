/** Pressure drop of one channel at one flow, from its digest. */
import { pow } from '../numeric/index.ts';
import { diffuserRecovery } from './area-changes.ts';
import type { ChannelDigests } from './channel-digest.ts';
import { whiteFactor } from './curved.ts';
import { DIGEST } from './digest-layout.ts';
import { apparentSum } from './developing.ts';
import { FULLY_TURBULENT, LAMINAR_LIMIT, turbulentShare } from './friction.ts';
import { readTable, tabulate } from './table.ts';
import { turbulentFriction } from './turbulent-table.ts';

const { LOBE_FIELDS, MAX_LOBES, PANEL_FIELDS, SHAPE_FIELDS } = DIGEST;
const {
  P_BEFORE,
  P_BEND,
  P_DEVELOPED,
  P_ENTRY,
  P_F_RE,
  P_LENGTH,
  P_LOBE,
  P_REACH,
  P_REYNOLDS,
  P_ROUGH,
} = DIGEST;
const {
  S_CREEP,
  S_EXIT,
  S_INLET,
  S_LOBES,
  S_RECOVERED,
  S_REYNOLDS,
  S_ROUGH,
  S_SEPARATION,
  S_WIDENING,
} = DIGEST;
const { L_BASE, L_REYNOLDS, L_SLOPE } = DIGEST;

/** Reynolds numbers between which the developing laminar excess fades out. */
const FADE_FROM = 3000;
const FADE_TO = 5000;
/** De from which on White's factor differs from 1. */
const WHITE_FROM = 11.6;

/** White's factor over sqrt(De), up to De 10000; within 1e-5 of the formula. */
export const WHITE = tabulate((u) => whiteFactor(u * u), 0, 100, 800);

/** Parts of a pressure drop [Pa], for reports. */
export interface LossParts {
  friction_Pa: number;
  ends_Pa: number;
  curvature_Pa: number;
  areaChanges_Pa: number;
}

/** 0.316 y^-0.2 of Ito over the fourth root of y, from y = 300 on. */
export const ITO_HIGH = tabulate((u) => 0.316 * pow(u, -0.8), Math.sqrt(Math.sqrt(300)), 32, 128);

/** `itoCurvedFriction` with delta = sqrt(D/(2R)), within 1e-5. */
function curvedFriction(Re: number, delta: number): number {
  const u = Math.sqrt(Math.sqrt(Re)) * delta;
  return u > ITO_HIGH.low ? readTable(ITO_HIGH, u) * delta : 0.029 * delta + (0.304 * delta) / u;
}

/**
 * Pressure drop of a channel: total pressure before its inlet minus ambient pressure behind its
 * outlet. Per panel, in pascals:
 *
 *   laminar      M(De) 4 sqrt(A)/D_h q [g(z2) - g(z1)],  g = apparentSum, z = nu s/Q
 *   turbulent    M_t f L/D_h q,  f Haaland, M_t = max(1, f_Ito/f), passage as in `blendedFriction`
 *   curvature    the part by M - 1; per bend the larger of it and `separationLoss`, never the sum
 *   ends         exit energy q, creeping ends, and the inlet: (inlet^4 + developing^4)^(1/4) in
 *                place of the developing excess, since a separated inlet and a growing boundary
 *                layer describe the same first diameters; below 2.4 diameters the inlet holds the
 *                thick-edged grid's term for streams that do not reattach
 *   widening     see area-runs.ts
 *
 * White's factor acts on the developing friction as well: leaving that out makes the computed tight
 * bends of the cfd test 25-30 % too low. Strictly rising with flow.
 *
 * @param flow_m3_per_s Q > 0 through one channel.
 * @param out receives dp [Pa] and Q d(dp)/dQ [Pa], the latter approximate (for solvers).
 * @param parts receives the breakdown if given.
 */
export function channelPressure(
  digests: ChannelDigests,
  index: number,
  flow_m3_per_s: number,
  out: Float64Array,
  parts?: LossParts,
): void {
  const { panel, panels, shape, lobe } = digests;
  const Q = flow_m3_per_s;
  const Q2 = Q * Q;
  const inverse = 1 / Q;
  const row = SHAPE_FIELDS * index;
  let friction = 0;
  let excess = 0;
  let curvature = 0;
  let rise = 0;
  let bend = 0;
  let bendSum = 0;
  let bendRise = 0;
  let current = -1;
  let sumBefore = 0;
  let zBefore = 0;
  let at = PANEL_FIELDS * index * panels;
  const lobes = shape[row + S_LOBES];
  const last = MAX_LOBES * LOBE_FIELDS * index;
  const meanRe = shape[row + S_REYNOLDS] * Q;
  const separationFriction =
    meanRe > FULLY_TURBULENT
      ? turbulentFriction(meanRe, shape[row + S_ROUGH])
      : shape[row + S_SEPARATION];
  for (let p = 0; p < panels; p += 1, at += PANEL_FIELDS) {
    const Re = panel[at + P_REYNOLDS] * Q;
    const d = panel[at + P_DEVELOPED];
    const entry = panel[at + P_ENTRY] * Q2;
    const z = panel[at + P_REACH] * inverse;
    const sum = apparentSum(z, d);
    const settled = entry * d * (z - zBefore);
    const growing = entry * (sum - sumBefore) - settled;
    const delta = panel[at + P_BEND];
    let factor = 0;
    let panelBend = 0;
    if (Re * delta > WHITE_FROM) factor = readTable(WHITE, Math.sqrt(Re * delta)) - 1;
    if (Re <= LAMINAR_LIMIT) {
      friction += settled;
      excess += growing;
      panelBend = factor * (settled + growing);
      rise += settled + 1.5 * growing;
      // White's factor itself grows about as De^0.36.
      if (factor > 0) bendRise += 1.1 * panelBend + 0.36 * (settled + growing + panelBend);
    } else {
      const w = turbulentShare(Re);
      const f = turbulentFriction(Math.max(Re, FULLY_TURBULENT), panel[at + P_ROUGH]);
      const length = panel[at + P_LENGTH] * Q2;
      const laminar = ((1 - w) * panel[at + P_F_RE] * length) / LAMINAR_LIMIT;
      const turbulent = w * f * length;
      const t = Math.min(1, Math.max(0, (Re - FADE_FROM) / (FADE_TO - FADE_FROM)));
      const left = growing * (1 - t * t * (3 - 2 * t));
      const curved =
        delta > 0 ? Math.max(0, curvedFriction(Math.max(Re, FULLY_TURBULENT), delta) / f - 1) : 0;
      friction += laminar + turbulent;
      excess += left;
      panelBend = (1 - w) * factor * (laminar + left) + curved * turbulent;
      rise += 2 * laminar + 1.9 * turbulent + 1.5 * left;
      bendRise += 1.9 * panelBend;
    }
    if (current < panel[at + P_LOBE]) {
      const before = panelBend * panel[at + P_BEFORE];
      bend += before;
      bendSum += before;
      panelBend -= before;
      for (; current < panel[at + P_LOBE]; current += 1) {
        if (current >= 0)
          bend = Math.max(bend, separation(lobe, last, current, Q, separationFriction));
        curvature += bend;
        bend = 0;
      }
    }
    bend += panelBend;
    bendSum += panelBend;
    sumBefore = sum;
    zBefore = z;
  }
  for (; current < lobes; current += 1) {
    if (current >= 0) bend = Math.max(bend, separation(lobe, last, current, Q, separationFriction));
    curvature += bend;
    bend = 0;
  }
  curvature += bend;
  const inlet = shape[row + S_INLET] * Q2;
  const i2 = inlet * inlet;
  const e2 = excess * excess;
  const start = Math.sqrt(Math.sqrt(i2 * i2 + e2 * e2));
  const recovery = diffuserRecovery(meanRe);
  const lost = shape[row + S_WIDENING];
  const widening = (lost + recovery * (shape[row + S_RECOVERED] - lost)) * Q2;
  const creep = shape[row + S_CREEP] * Q;
  const exit = shape[row + S_EXIT] * Q2;
  out[0] = friction + start + curvature + widening + creep + exit;
  // Separation goes with the square of the flow, a little faster while it fades in.
  const apart = Math.max(0, curvature - bendSum);
  out[1] = rise + bendRise + 2.1 * apart + 2 * (start - excess + widening + exit) + creep;
  if (parts) {
    parts.friction_Pa = friction + excess;
    parts.ends_Pa = start - excess + creep + exit;
    parts.curvature_Pa = curvature;
    parts.areaChanges_Pa = widening;
  }
}

function separation(
  lobe: Float64Array,
  first: number,
  index: number,
  flow_m3_per_s: number,
  f: number,
): number {
  const at = first + LOBE_FIELDS * index;
  const Re = lobe[at + L_REYNOLDS] * flow_m3_per_s;
  const fade = Re / (Re + 500);
  return (lobe[at + L_BASE] + lobe[at + L_SLOPE] * f) * fade * flow_m3_per_s * flow_m3_per_s;
}
