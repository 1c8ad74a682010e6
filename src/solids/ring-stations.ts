/** Where along a channel its mesh has rings. */
import type { PlateSamples } from '../design/index.ts';

const STRAIGHT = 1e-9;

/**
 * Widest turn of a channel between two rings [rad]. Chords cut a bend short: of a step that turns by
 * a, about a^2 / 6 of the air is lost, 0.4 % at this turn.
 */
const WIDEST_TURN = 0.15;

/**
 * Stations of a shape that become rings, rising, both ends included: every `stride`-th, those
 * nearest to where a pocket's ramps and lip begin and end, and as many between as bends need. A straight
 * channel of one size needs no rings between its ends but the pockets'.
 *
 * @param stride samples per ring step; the samples between serve pockets and bends.
 */
export function ringStations(samples: PlateSamples, shape: number, stride: number): Int32Array {
  const last = samples.stations - 1;
  const fixed = new Set<number>([0, last]);
  const length_mm = samples.length_mm[shape];
  for (const pocket of samples.pockets[shape]) {
    const half = pocket.length_mm / 2;
    const plateau = Math.max(0, half - pocket.depth_mm);
    const lip = pocket.lip_mm ?? 0;
    const edges = lip > 0 ? [half + lip, half + 2 * lip] : [];
    for (const off of [-half, -plateau, 0, plateau, half, ...edges]) {
      const station = Math.round(((pocket.at * length_mm + off) / length_mm) * last);
      if (station > 0 && station < last) fixed.add(station);
    }
  }
  const rings = new Set(fixed);
  if (!isPrism(samples, shape)) {
    const clear = Math.floor(stride / 4);
    for (let k = stride; k < last; k += stride) {
      let isFree = true;
      for (const other of fixed) isFree &&= Math.abs(other - k) > clear;
      if (isFree) rings.add(k);
    }
    if (stride > 1) followBends(samples, shape, rings);
  }
  return Int32Array.from(rings).toSorted();
}

/**
 * Samples per ring step that a plate needs, a power of two up to `most`: so many that the rings can
 * stand close enough in its tightest bend.
 *
 * @param samples the plate sampled with one station per ring.
 */
export function strideFor(samples: PlateSamples, most: number): number {
  let widest = 0;
  for (let m = 0; m < samples.shapeCount; m++) {
    for (let k = 1; k < samples.stations; k++) {
      widest = Math.max(widest, turnTo(samples, m, k));
    }
  }
  let stride = 1;
  while (stride < most && widest > WIDEST_TURN * stride) stride *= 2;
  return stride;
}

/** Adds rings in equal parts of the turn wherever two neighbours turn by more than the widest. */
function followBends(samples: PlateSamples, shape: number, rings: Set<number>): void {
  const bare = Int32Array.from(rings).toSorted();
  for (let r = 1; r < bare.length; r++) {
    let turn = 0;
    for (let k = bare[r - 1] + 1; k <= bare[r]; k++) turn += turnTo(samples, shape, k);
    const parts = Math.ceil(turn / WIDEST_TURN);
    let part = 1;
    let so = 0;
    for (let k = bare[r - 1] + 1; k < bare[r] && part < parts; k++) {
      const next = turnTo(samples, shape, k);
      so += next;
      if (so + next / 2 < (turn * part) / parts) continue;
      rings.add(k);
      part++;
    }
  }
}

/** Turn of the centreline from the station before, as the chord of the tangents [rad]. */
function turnTo(samples: PlateSamples, shape: number, station: number): number {
  const i = 3 * (shape * samples.stations + station);
  const { tangent } = samples;
  const x = tangent[i] - tangent[i - 3];
  const y = tangent[i + 1] - tangent[i - 2];
  const z = tangent[i + 2] - tangent[i - 1];
  return Math.sqrt(x * x + y * y + z * z);
}

/** Straight, with one size and one frame all along: its wall is ruled from end to end. */
export function isPrism(samples: PlateSamples, shape: number): boolean {
  const { stations, tangent, first, bore_mm, roof } = samples;
  const row = shape * stations;
  for (let k = row + 1; k < row + stations; k++) {
    let off = Math.abs(bore_mm[k] - bore_mm[row]) + Math.abs(roof[k] - roof[row]);
    for (let d = 0; d < 3; d++) {
      off += Math.abs(tangent[3 * k + d] - tangent[3 * row + d]);
      off += Math.abs(first[3 * k + d] - first[3 * row + d]);
    }
    if (off > STRAIGHT) return false;
  }
  return true;
}
