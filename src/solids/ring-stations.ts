/** Where along a channel its mesh has rings. */
import type { PlateSamples } from '../design/index.ts';

const STRAIGHT = 1e-9;

/**
 * Stations of a shape that become rings, rising, both ends included: every `stride`-th, and those
 * nearest to where a pocket's ramps begin and end. A straight channel of one size needs no rings
 * between its ends but the pockets'.
 *
 * @param stride samples per ring step; the samples between serve the pockets.
 */
export function ringStations(samples: PlateSamples, shape: number, stride: number): Int32Array {
  const last = samples.stations - 1;
  const fixed = new Set<number>([0, last]);
  const length_mm = samples.length_mm[shape];
  for (const pocket of samples.pockets[shape]) {
    const half = pocket.length_mm / 2;
    const plateau = Math.max(0, half - pocket.depth_mm);
    for (const off of [-half, -plateau, 0, plateau, half]) {
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
  }
  return Int32Array.from(rings).toSorted();
}

/** Straight, with one size and one frame all along: its wall is ruled from end to end. */
function isPrism(samples: PlateSamples, shape: number): boolean {
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
