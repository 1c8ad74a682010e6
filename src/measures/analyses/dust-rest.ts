/** How much of a pocket stays filled at rest, by the way down. */
import type { PlateSamples } from '../../design/index.ts';
import type { Brief } from '../../brief/index.ts';
import { acos, radians, sin, tan } from '../../numeric/index.ts';

/** Unit vector downwards in plate coordinates. */
export type Down = readonly [number, number, number];

/** Steepest slope on which settled dust lies [rad]: powders of fair flow, 36 to 40 degrees (Carr 1965, from memory). */
export const REPOSE_rad = radians(38);

/** Which way is down, or null for a brief that leaves gravity out. */
export function downOf({ dust }: Brief): Down | null {
  const { down } = dust;
  if (down === undefined) return null;
  switch (down) {
    case 'alongAir':
      return [0, 0, 1];
    case 'againstAir':
      return [0, 0, -1];
    case 'minusY':
      return [0, -1, 0];
    default: {
      const [x, y, z] = down;
      const size = Math.sqrt(x * x + y * y + z * z);
      return [x / size, y / size, z / size];
    }
  }
}

/**
 * Share of a tray that stays full when it leans.
 *
 *   1 while the lean is below the angle of repose; beyond it by b, T = tan b:
 *   1 - T L/(2 H) for T L <= H, else H/(2 T L); 0 from b = 90 degrees on
 *
 * @param lean_rad angle between the way into the tray and the way down.
 * @param length_mm extent of the opening along the lean.
 * @param depth_mm depth, with the edge that stands up on the lower side.
 * @returns share of length times depth [0..1].
 * @example trayShare(0.5, 6, 2) // 1
 * @example trayShare(Math.PI, 6, 2) // 0
 * @example trayShare(0.6632251 + 0.3217506, 6, 2).toFixed(4) // '0.5000'
 * Source: plane geometry of a heap at its angle of repose in a rectangular tray; that a pocket is
 * such a tray: own heuristic.
 */
export function trayShare(lean_rad: number, length_mm: number, depth_mm: number): number {
  const beyond = lean_rad - REPOSE_rad;
  if (beyond <= 0) return 1;
  if (beyond >= 0.5 * Math.PI || !(depth_mm > 0)) return 0;
  const run = tan(beyond) * length_mm;
  return run <= depth_mm ? 1 - run / (2 * depth_mm) : depth_mm / (2 * run);
}

/**
 * Share of a pocket's volume that dust fills at rest [0..1]: 1 where its mouth looks up, nothing where
 * it looks down. A lip holds back what leans towards the downstream edge.
 */
export function restShare(samples: PlateSamples, shape: number, index: number, down: Down): number {
  const pocket = samples.pockets[shape][index];
  const station = Math.round(Math.min(1, Math.max(0, pocket.at)) * (samples.stations - 1));
  const row = shape * samples.stations + station;
  const axis = 2 * (samples.pocketStart[shape] + index);
  const c = samples.pocketAxis[axis];
  const s = samples.pocketAxis[axis + 1];
  let into = 0;
  let along = 0;
  for (let d = 0; d < 3; d++) {
    const i = 3 * row + d;
    into += down[d] * (c * samples.first[i] + s * samples.second[i]);
    along += down[d] * samples.tangent[i];
  }
  const across = Math.sqrt(Math.max(0, 1 - into * into - along * along));
  const width_mm = samples.bore_mm[row] * sin(0.5 * radians(Math.min(180, pocket.width_deg)));
  const lean = Math.abs(along) + across;
  const length_mm =
    lean > 0 ? (Math.abs(along) * pocket.length_mm + across * width_mm) / lean : pocket.length_mm;
  const depth_mm = Math.min(pocket.depth_mm, 0.5 * pocket.length_mm);
  // The lip stands on the downstream edge: it counts as far as that is the lower one.
  const edge_mm = lean > 0 ? (Math.max(0, along) / lean) * (pocket.lip_mm ?? 0) : 0;
  const lean_rad = acos(Math.min(1, Math.max(-1, into)));
  return trayShare(lean_rad, length_mm, depth_mm + edge_mm);
}
