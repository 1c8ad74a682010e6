/** Time, travel and cost of a part, summed layer by layer. */
import type { Process } from '../brief/index.ts';

/** Running sums over the layers of one part. */
interface PrintPlan {
  time_s: number;
  travel_mm: number;
  retractions: number;
}

export function createPlan(): PrintPlan {
  return { time_s: 0, travel_mm: 0, retractions: 0 };
}

// Length of a shortest tour through n random points of an area A tends to 0.7124 sqrt(n A).
// Beardwood, Halton & Hammersley 1959, Proc. Camb. Phil. Soc. 55:299; constant from memory, 0.1 %.
const TOUR = 0.7124;

/**
 * Adds `count` equal layers to a plan.
 *
 *   rate    = min(line width * layer height * speed, melting rate)
 *   travel  = 0.7124 sqrt((contours - 1) * span area), one retraction per contour beyond the first
 *   layer   = max(least layer time, volume / rate + travel / travel speed + retractions) + change
 *
 * @param area_mm2 solid area of one layer, printed full.
 * @param span_mm2 area over which the contours are spread.
 * Source: own heuristic; the terms are common practice of filament printing, no source. Slowing
 * down at corners is left out (adds 20-40 % on short contours, common practice, no source).
 */
export function addLayers(
  plan: PrintPlan,
  count: number,
  area_mm2: number,
  span_mm2: number,
  contours: number,
  process: Process,
): void {
  const hops = Math.max(0, contours - 1);
  const travel_mm = TOUR * Math.sqrt(hops * span_mm2);
  const time_s =
    (area_mm2 * process.layerHeight_mm) / depositRate(process) +
    travel_mm / process.travelSpeed_mm_per_s +
    hops * process.retraction_s;
  plan.time_s += count * (Math.max(process.minimumLayer_s, time_s) + process.layerChange_s);
  plan.travel_mm += count * travel_mm;
  plan.retractions += count * hops;
}

/**
 * Volume laid per second [mm3/s]: line cross-section times speed, or what the nozzle melts.
 */
export function depositRate(process: Process): number {
  const { lineWidth_mm, layerHeight_mm, printSpeed_mm_per_s, volumeRate_mm3_per_s } = process;
  return Math.min(lineWidth_mm * layerHeight_mm * printSpeed_mm_per_s, volumeRate_mm3_per_s);
}

const MM3_PER_M3 = 1e9;
const G_PER_KG = 1000;
const S_PER_H = 3600;

/** Mass [g] of a solid volume [mm3]. */
export function printedMass(volume_mm3: number, process: Process): number {
  return (volume_mm3 * process.materialDensity_kg_per_m3 * G_PER_KG) / MM3_PER_M3;
}

/** Cost of one part: mass * price + time * machine rate, in the brief's currency. */
export function partPrice(mass_g: number, time_s: number, process: Process): number {
  return (
    (mass_g / G_PER_KG) * process.materialPrice_per_kg +
    (time_s / S_PER_H) * process.machineRate_per_h
  );
}

/** Hours from seconds. */
export function hours(time_s: number): number {
  return time_s / S_PER_H;
}
