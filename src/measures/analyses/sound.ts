/** Sound through the plate: its channels side by side, each as a chain of short ducts. */
import { SOUND_DEFAULTS } from '../../brief/index.ts';
import { outlineArea, pocketBump } from '../../design/index.ts';
import type { PlateSamples } from '../../design/index.ts';
import { cos, radians, sin } from '../../numeric/index.ts';
import {
  OCTAVE_BANDS_Hz,
  addBeside,
  addBranch,
  addDuct,
  addMass,
  bandFrequency,
  cutOnFrequency,
  endLength,
  powerBeside,
  roomAir,
  shearNumber,
  startChain,
  transmissionLoss,
  wallDamping,
} from '../../physics/index.ts';
import type { Air } from '../../physics/index.ts';
import type { Analysis, Assessment } from '../assessment.ts';
import { printedArea } from './printed-area.ts';

interface SoundBand {
  /** Nominal centre of the octave band. */
  readonly centre_Hz: number;
  /** Transmission loss, averaged over the band as power. */
  readonly loss_dB: number;
}

interface SoundReport {
  /** The bands of the brief in the fast form, all from 63 Hz to 8 kHz in the exact one. */
  readonly bands: readonly SoundBand[];
  /** Mean over the bands that the brief counts. */
  readonly loss_dB: number;
  /** Highest frequency that the brief's bands reach. */
  readonly highest_Hz: number;
  /** Least frequency of cross modes within a channel, and across the cell of one. */
  readonly cutOn_Hz: number;
  readonly cellLimit_Hz: number;
  /** Least radius over boundary layer, in the lowest band that counts. */
  readonly leastShear: number;
}

/** Frequencies per band. */
const PARTS = { fast: 3, exact: 8 } as const;
/** Ducts of a channel in the fast form: half of the time of one between every two stations. */
const FAST_DUCTS = 16;

const SQUARE_MM = 1e-6;
const MM = 1e-3;

/**
 * Every channel is a chain of short ducts of its printed area; pockets are side branches spread over their length: their volume counts as a spring, while the
 * air that moves along stays in the bare section. The openings add the mass of the air before them.
 * Channels share one pressure on either face, so their admittances add up.
 */
export const soundAnalysis: Analysis<SoundReport> = { name: 'sound', run: analyseSound };

function analyseSound(assessment: Assessment): SoundReport {
  const { brief, samples, exact } = assessment;
  const counted: readonly number[] = (brief.sound ?? SOUND_DEFAULTS).bands_Hz;
  const centres = OCTAVE_BANDS_Hz.filter((centre) => exact || counted.includes(centre));
  const air = roomAir(brief.air.temperature_C, brief.air.altitude_m);
  const face_m2 = SQUARE_MM * outlineArea(samples.plate.outline);
  const ducts = exact ? samples.stations - 1 : FAST_DUCTS;
  loadPlate(samples, ducts, brief.process.holeShrinkage_mm, face_m2);
  const parts = exact ? PARTS.exact : PARTS.fast;
  const bands = centres.map((centre_Hz) => {
    let power = 0;
    for (let part = 0; part < parts; part++) {
      power += platePower(samples, ducts, air, bandFrequency(centre_Hz, part, parts), face_m2);
    }
    return { centre_Hz, loss_dB: transmissionLoss(power / parts) };
  });
  const own = bands.filter((band) => counted.includes(band.centre_Hz));
  let reach_mm = 0;
  for (const reach of samples.reach_mm) if (reach > reach_mm) reach_mm = reach;
  let thinnest_per_m = 0;
  for (let k = 0; k < samples.shapeCount * ducts; k++) {
    if (girths_per_m[k] > thinnest_per_m) thinnest_per_m = girths_per_m[k];
  }
  const lowest_Hz = Math.min(...counted) / Math.SQRT2;
  return {
    bands,
    loss_dB: own.reduce((sum, band) => sum + band.loss_dB, 0) / own.length,
    highest_Hz: Math.max(...counted) * Math.SQRT2,
    cutOn_Hz: cutOnFrequency(2 * MM * reach_mm, air.soundSpeed_m_per_s),
    // Cells wider than half a wave pass sound on to their neighbours' sides.
    cellLimit_Hz: (0.5 * air.soundSpeed_m_per_s) / Math.sqrt(face_m2 / samples.channelCount),
    leastShear: shearNumber(1 / thinnest_per_m, lowest_Hz, air.kinematicViscosity_m2_per_s),
  };
}

// What one plate's chains read; grown when needed, refilled by `loadPlate`.
let areas_m2 = new Float64Array(64); // of each duct [M x ducts]
let girths_per_m = new Float64Array(64); // perimeter over twice the area: one over the radius [M x ducts]
let pockets_m3 = new Float64Array(64); // volume of pockets beside each duct [M x ducts]
let ends_per_m = new Float64Array(2); // plug before each opening, length over area [M x 2]
let counts = new Float64Array(1); // channels of each shape [M]

/** Printed bores are never taken as narrower than this share of the drawn area. */
const LEAST_AREA = 0.01;

function loadPlate(
  samples: PlateSamples,
  ducts: number,
  shrinkage_mm: number,
  face_m2: number,
): void {
  const { stations, shapeCount, channelCount, area_mm2, perimeter_mm, length_mm } = samples;
  const rows = shapeCount * ducts;
  if (areas_m2.length < rows) {
    areas_m2 = new Float64Array(rows);
    girths_per_m = new Float64Array(rows);
    pockets_m3 = new Float64Array(rows);
  }
  if (counts.length < shapeCount) {
    counts = new Float64Array(shapeCount);
    ends_per_m = new Float64Array(2 * shapeCount);
  }
  counts.fill(0);
  for (const shape of samples.shapeOf) counts[shape]++;
  const cell_m2 = face_m2 / channelCount;
  const printed = (area: number, perimeter: number): number =>
    SQUARE_MM * Math.max(LEAST_AREA * area, printedArea(area, perimeter, shrinkage_mm));
  for (let m = 0; m < shapeCount; m++) {
    const base = m * stations;
    for (let end = 0; end < 2; end++) {
      const row = base + end * (stations - 1);
      // A slanted channel opens wider in the face than across itself.
      const opening_m2 =
        printed(area_mm2[row], perimeter_mm[row]) /
        Math.max(0.2, Math.abs(samples.tangent[3 * row + 2]));
      ends_per_m[2 * m + end] = endLength(opening_m2, cell_m2) / opening_m2;
    }
    const hasPockets = samples.pockets[m].length > 0;
    for (let d = 0; d < ducts; d++) {
      // The middle of the duct, between two stations.
      const along = ((d + 0.5) / ducts) * (stations - 1);
      const row = base + Math.floor(along);
      const f = along - Math.floor(along);
      const area = (1 - f) * area_mm2[row] + f * area_mm2[row + 1];
      const perimeter = (1 - f) * perimeter_mm[row] + f * perimeter_mm[row + 1];
      const k = m * ducts + d;
      areas_m2[k] = printed(area, perimeter);
      girths_per_m[k] = (MM * (perimeter - Math.PI * shrinkage_mm)) / (2 * areas_m2[k]);
      const step_m = (MM * length_mm[m]) / ducts;
      pockets_m3[k] = hasPockets ? step_m * pocketArea(samples, m, (d + 0.5) / ducts, area) : 0;
    }
  }
}

/**
 * Area of pockets beyond the bare wall r: bump cos^2 over a width w, whose integral of r b + b^2/2 is
 * w (r bump/2 + 3 bump^2/16), r the mean radius of the section [m2].
 */
function pocketArea(samples: PlateSamples, shape: number, share: number, area_mm2: number): number {
  const length_mm = samples.length_mm[shape];
  const radius_mm = Math.sqrt(area_mm2 / Math.PI);
  let area = 0;
  for (const pocket of samples.pockets[shape]) {
    const bump = pocketBump(pocket, share * length_mm, length_mm);
    area += radians(pocket.width_deg) * bump * (0.5 * radius_mm + 0.1875 * bump);
  }
  return SQUARE_MM * area;
}

const chain = new Float64Array(8);
const bank = new Float64Array(6);
const damping = new Float64Array(2);

/** Share of the power that passes the loaded plate, at normal incidence. */
function platePower(
  samples: PlateSamples,
  ducts: number,
  air: Air,
  frequency_Hz: number,
  face_m2: number,
): number {
  const { shapeCount, length_mm } = samples;
  const k_per_m = (2 * Math.PI * frequency_Hz) / air.soundSpeed_m_per_s;
  wallDamping(air, frequency_Hz, 1, damping);
  bank.fill(0);
  for (let m = 0; m < shapeCount; m++) {
    const base = m * ducts;
    const step_m = (MM * length_mm[m]) / ducts;
    // All ducts of a shape are of one length: two calls of trigonometry a channel.
    const c = cos(k_per_m * step_m);
    const s = sin(k_per_m * step_m);
    const damped = damping[0] * step_m;
    const hasPockets = samples.pockets[m].length > 0;
    startChain(chain);
    addMass(chain, k_per_m * ends_per_m[2 * m]);
    for (let k = base; k < base + ducts; k++) {
      addDuct(chain, areas_m2[k], c, s, damped * girths_per_m[k], damping[1] * girths_per_m[k]);
      if (hasPockets && pockets_m3[k] > 0) addBranch(chain, k_per_m * pockets_m3[k]);
    }
    addMass(chain, k_per_m * ends_per_m[2 * m + 1]);
    addBeside(bank, chain, counts[m]);
  }
  return powerBeside(bank, face_m2, face_m2);
}
