/** Channels in the shadow of a fan's hub or beyond its blades: they see less pressure. */
import type { Brief } from '../../brief/index.ts';
import type { PlateSamples } from '../../design/index.ts';
import type { BranchPressure } from '../../physics/index.ts';
import { faceStation, shareInside, sweptRing } from './swept-ring.ts';
import { portArea } from './sight.ts';

/** Branches of the flow split: the channels of a shape, those in the shadow apart. */
export interface Shade {
  /** Shape of each branch [B]. */
  readonly shapeOf: Int32Array;
  /** Channels of each branch [B]. */
  readonly count: Float64Array;
  /** Loss on the way into the shadow over the square of a channel's flow [B] [Pa s2/m6]; 0 under the blades. */
  readonly loss: Float64Array;
  /** Branch of each placed channel [N]. */
  readonly branchOf: Int32Array;
}

/**
 * Loss of the air that has to turn from the ring into the shadow, in velocity heads of the ring: that of
 * a mitre of 90 degrees (Idelchik), the nearest thing a handbook has. Own heuristic: close to the
 * blades swirl decides, and no simple law is known.
 */
const TURN_LOSS = 1.1;
const SQUARE_MM = 1e-6;

/**
 * Sorts channels into those under the blades and those in the shadow; null when the brief names no
 * ring or no channel stands outside it.
 *
 *   loss = 1.1 rho/2 (A_open / (A_port A_ring))^2 per square of the channel's flow
 *
 * so that a port with its even share of the flow would lose 1.1 velocity heads of the ring, and one
 * that gets less loses less.
 */
export function sortShade(
  samples: PlateSamples,
  brief: Brief,
  density_kg_per_m3: number,
): Shade | null {
  const ring = sweptRing(brief);
  if (ring === null) return null;
  const { shapeCount, channelCount } = samples;
  const lit = new Int32Array(shapeCount);
  const shaded = new Int32Array(shapeCount);
  const isShaded = new Uint8Array(channelCount);
  let open_mm2 = 0;
  let dark = 0;
  for (let i = 0; i < channelCount; i++) {
    const shape = samples.shapeOf[i];
    const station = faceStation(samples, shape);
    const area = station < 0 ? 0 : portArea(samples, shape, station);
    open_mm2 += area;
    isShaded[i] = area > 0 && shareInside(samples, i, station, area, ring) < 0.5 ? 1 : 0;
    if (isShaded[i] === 1) {
      shaded[shape]++;
      dark++;
    } else lit[shape]++;
  }
  if (dark === 0) return null;
  const { diameter_mm: outer, hub_mm: inner } = ring;
  const ring_m2 = (SQUARE_MM * Math.PI * (outer * outer - inner * inner)) / 4;
  const head = 0.5 * TURN_LOSS * density_kg_per_m3;
  const shapes: number[] = [];
  const counts: number[] = [];
  const losses: number[] = [];
  const branch = new Int32Array(2 * shapeCount);
  for (let m = 0; m < shapeCount; m++) {
    const port_mm2 = portArea(samples, m, Math.max(0, faceStation(samples, m)));
    const crowding = open_mm2 / (port_mm2 * ring_m2);
    for (const [side, count] of [lit[m], shaded[m]].entries()) {
      if (count === 0) continue;
      branch[2 * m + side] = shapes.length;
      shapes.push(m);
      counts.push(count);
      losses.push(side * head * crowding * crowding);
    }
  }
  return {
    shapeOf: Int32Array.from(shapes),
    count: Float64Array.from(counts),
    loss: Float64Array.from(losses),
    branchOf: Int32Array.from(samples.shapeOf, (shape, i) => branch[2 * shape + isShaded[i]]),
  };
}

/** The pressure of a branch: its channel's, and the way into the shadow. */
export function shadedPressure(shade: Shade, pressure: BranchPressure): BranchPressure {
  return (branch, flow, out) => {
    pressure(shade.shapeOf[branch], flow, out);
    const lost = shade.loss[branch] * flow * flow;
    out[0] += lost;
    out[1] += 2 * lost;
  };
}
