/** Pockets as dust bins: how much they hold and how well a reversed flow empties them. */
import type { Pocket, PlateSamples } from '../../design/index.ts';
import { wallRadius } from '../../design/index.ts';
import { cos, radians, sin } from '../../numeric/index.ts';
import { ownMouth } from '../../print/index.ts';

/**
 * Volume of a pocket beyond the channel's wall [mm3]: the wall's radius R grows by d(s) cos^2 over
 * the mouth width w, so that
 *
 *   V = integral of (R d w/2 + 3/16 w d^2) ds,
 *   integral of d = h (L - h), of d^2 = h^2 (L - 4 h / 3), h = min(depth, L/2)
 *
 * @param radius_mm distance from the centreline to the wall under the pocket.
 * @example pocketVolume({ at: 0.5, length_mm: 6, depth_mm: 2, width_deg: 90, side_deg: 0 }, 3) // 22.7765467
 * Source: plane polar area, exact for a straight channel; a bend moves it by less than R over the
 * bend's radius.
 */
export function pocketVolume(pocket: Pocket, radius_mm: number): number {
  const width_rad = radians(pocket.width_deg);
  const h = Math.min(pocket.depth_mm, 0.5 * pocket.length_mm);
  const first = h * (pocket.length_mm - h);
  const second = h * h * (pocket.length_mm - (4 / 3) * h);
  return width_rad * (0.5 * radius_mm * first + (3 / 16) * second);
}

/**
 * Volume of a pocket of a shape that is its own [mm3]: without what lies beyond the channel's ends
 * and without the part of its mouth that a pocket listed before it covers already.
 */
export function ownPocketVolume(samples: PlateSamples, shape: number, index: number): number {
  const pockets = samples.pockets[shape];
  const pocket = pockets[index];
  const length_mm = samples.length_mm[shape];
  const half = 0.5 * pocket.length_mm;
  if (!(half > 0)) return 0;
  const station = Math.round(pocket.at * (samples.stations - 1));
  const side = radians(pocket.side_deg);
  const bulge = Math.min(pocket.depth_mm, half);
  const radius_mm = wallRadius(samples, shape, station, side, cos(side), sin(side)) - bulge;
  const own = ownMouth(samples.pockets[shape], index, length_mm);
  return own * pocketVolume(pocket, Math.max(0, radius_mm));
}

/** Friction velocity of a reversed stream that does not meet the mouth, as a share. */
const SHELTER = 0.2;
/** Least effect of the angle between stream and mouth. */
const LEAST_ANGLE = 0.1;
/** The reversed stream keeps its direction over this many bores. */
const STRAIGHT_BORES = 2;

/** How a reversed stream meets a pocket. */
export interface PurgeAngle {
  /** Cosine between the stream and the way into the pocket, at least 0.1. */
  angle: number;
  /** Friction velocity in the pocket over that of the channel, 0.2..1. */
  reach: number;
}

/**
 * How the reversed stream, carried straight on for two bores, meets a pocket's mouth.
 *
 * @param out receives the result.
 * Source: own heuristic.
 */
export function purgeAngle(
  samples: PlateSamples,
  shape: number,
  index: number,
  out: PurgeAngle,
): void {
  const pocket = samples.pockets[shape][index];
  const last = samples.stations - 1;
  const base = shape * samples.stations;
  const here = Math.round(pocket.at * last);
  const ahead_mm = STRAIGHT_BORES * samples.bore_mm[base + here];
  const there = Math.min(last, here + Math.round((ahead_mm / samples.length_mm[shape]) * last));
  const c = samples.pocketAxis[2 * (samples.pocketStart[shape] + index)];
  const s = samples.pocketAxis[2 * (samples.pocketStart[shape] + index) + 1];
  let cosine = 0;
  for (let d = 0; d < 3; d++) {
    const at = 3 * (base + here) + d;
    const side = c * samples.first[at] + s * samples.second[at];
    // Reversed air runs against the tangent.
    cosine -= side * samples.tangent[3 * (base + there) + d];
  }
  const t = Math.min(1, Math.max(0, 4 * cosine));
  out.angle = Math.max(LEAST_ANGLE, cosine);
  out.reach = SHELTER + (1 - SHELTER) * t * t * (3 - 2 * t);
}

/**
 * Share of a deposit that a reversed stream lifts out.
 *
 *   a y / (1 + y),  y = (u / u_t)^4
 *
 * @param lift u_t^-4 of the grains [s4/m4].
 * @example purgedShare(1, 2, 0.0625) // 0.5
 * Source: own heuristic.
 */
export function purgedShare(angle: number, friction_m_per_s: number, lift: number): number {
  const square = friction_m_per_s * friction_m_per_s;
  const y = square * square * lift;
  return (angle * y) / (1 + y);
}
