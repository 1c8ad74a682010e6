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
import { printedArea } from './sound-area.ts';

export interface SoundBand {
  /** Nominal centre of the octave band. */
  readonly centre_Hz: number;
  /** Transmission loss, averaged over the band as power. */
  readonly loss_dB: number;
}

export interface SoundReport {
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

const SQUARE_MM = 1e-6;
const MM = 1e-3;

/**
 * Every channel is a chain of ducts between its stations, each with the mean printed area of its two
 * ends; pockets are side branches spread over their length: their volume counts as a spring, while the
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
  loadPlate(samples, brief.process.holeShrinkage_mm, face_m2);
  const parts = exact ? PARTS.exact : PARTS.fast;
  const bands = centres.map((centre_Hz) => {
    let power = 0;
    for (let part = 0; part < parts; part++) {
      power += platePower(samples, air, bandFrequency(centre_Hz, part, parts), face_m2);
    }
    return { centre_Hz, loss_dB: transmissionLoss(power / parts) };
  });
  const own = bands.filter((band) => counted.includes(band.centre_Hz));
  let reach_mm = 0;
  for (const reach of samples.reach_mm) if (reach > reach_mm) reach_mm = reach;
  let radius_m = Infinity;
  for (let k = 0; k < samples.shapeCount * samples.stations; k++) {
    if (radii_m[k] < radius_m) radius_m = radii_m[k];
  }
  const lowest_Hz = Math.min(...counted) / Math.SQRT2;
  return {
    bands,
    loss_dB: own.reduce((sum, band) => sum + band.loss_dB, 0) / own.length,
    highest_Hz: Math.max(...counted) * Math.SQRT2,
    cutOn_Hz: cutOnFrequency(2 * MM * reach_mm, air.soundSpeed_m_per_s),
    // Cells wider than half a wave pass sound on to their neighbours' sides.
    cellLimit_Hz: (0.5 * air.soundSpeed_m_per_s) / Math.sqrt(face_m2 / samples.channelCount),
    leastShear: shearNumber(radius_m, lowest_Hz, air.kinematicViscosity_m2_per_s),
  };
}

// What one plate's chains read; grown when needed, refilled by `loadPlate`.
let areas_m2 = new Float64Array(64); // of the duct after each station [M x S]
let radii_m = new Float64Array(64); // twice area over perimeter [M x S]
let pockets_m3 = new Float64Array(64); // pocket volume in that duct [M x S]
let ends_per_m = new Float64Array(2); // plug length over area, both openings of each shape together [M x 2]
let counts = new Float64Array(1); // channels of each shape [M]

function loadPlate(samples: PlateSamples, shrinkage_mm: number, face_m2: number): void {
  const { stations, shapeCount, channelCount, area_mm2, perimeter_mm, length_mm } = samples;
  const rows = shapeCount * stations;
  if (areas_m2.length < rows) {
    areas_m2 = new Float64Array(rows);
    radii_m = new Float64Array(rows);
    pockets_m3 = new Float64Array(rows);
  }
  if (counts.length < shapeCount) {
    counts = new Float64Array(shapeCount);
    ends_per_m = new Float64Array(2 * shapeCount);
  }
  counts.fill(0);
  for (const shape of samples.shapeOf) counts[shape]++;
  const cell_m2 = face_m2 / channelCount;
  for (let k = 0; k < rows; k++) {
    areas_m2[k] = SQUARE_MM * printedArea(area_mm2[k], perimeter_mm[k], shrinkage_mm);
    radii_m[k] = (2 * areas_m2[k]) / (MM * (perimeter_mm[k] - Math.PI * shrinkage_mm));
  }
  pockets_m3.fill(0, 0, rows);
  for (let m = 0; m < shapeCount; m++) {
    const base = m * stations;
    for (let end = 0; end < 2; end++) {
      const row = base + end * (stations - 1);
      // A slanted channel opens wider in the face than across itself.
      const opening_m2 = areas_m2[row] / Math.max(0.2, Math.abs(samples.tangent[3 * row + 2]));
      ends_per_m[2 * m + end] = endLength(opening_m2, cell_m2) / opening_m2;
    }
    if (samples.pockets[m].length > 0) loadPockets(samples, m);
    // From the stations to the ducts between them.
    for (let k = base; k < base + stations - 1; k++) {
      areas_m2[k] = 0.5 * (areas_m2[k] + areas_m2[k + 1]);
      radii_m[k] = 0.5 * (radii_m[k] + radii_m[k + 1]);
      pockets_m3[k] *= (MM * length_mm[m]) / (stations - 1);
    }
  }
}

/**
 * Area beyond the bare wall r of radius bump cos^2 over a width w: integral of r b + b^2/2, which is
 * w (r bump/2 + 3 bump^2/16), r the mean radius of the section.
 */
function loadPockets(samples: PlateSamples, shape: number): void {
  const { stations, length_mm, area_mm2 } = samples;
  for (let i = 0; i < stations - 1; i++) {
    const arc_mm = (length_mm[shape] * (i + 0.5)) / (stations - 1);
    const radius_mm = Math.sqrt(area_mm2[shape * stations + i] / Math.PI);
    let area = 0;
    for (const pocket of samples.pockets[shape]) {
      const bump = pocketBump(pocket, arc_mm, length_mm[shape]);
      area += radians(pocket.width_deg) * bump * (0.5 * radius_mm + 0.1875 * bump);
    }
    pockets_m3[shape * stations + i] = SQUARE_MM * area;
  }
}

const chain = new Float64Array(8);
const bank = new Float64Array(6);
const damping = new Float64Array(2);

/** Share of the power that passes the loaded plate, at normal incidence. */
function platePower(
  samples: PlateSamples,
  air: Air,
  frequency_Hz: number,
  face_m2: number,
): number {
  const { stations, shapeCount, length_mm } = samples;
  const k_per_m = (2 * Math.PI * frequency_Hz) / air.soundSpeed_m_per_s;
  wallDamping(air, frequency_Hz, 1, damping);
  bank.fill(0);
  for (let m = 0; m < shapeCount; m++) {
    const base = m * stations;
    const step_m = (MM * length_mm[m]) / (stations - 1);
    // All ducts of a shape are of one length: two calls of trigonometry a channel.
    const c = cos(k_per_m * step_m);
    const s = sin(k_per_m * step_m);
    const damped = damping[0] * step_m;
    const hasPockets = samples.pockets[m].length > 0;
    startChain(chain);
    addMass(chain, k_per_m * ends_per_m[2 * m]);
    for (let k = base; k < base + stations - 1; k++) {
      const perRadius = 1 / radii_m[k];
      addDuct(chain, areas_m2[k], c, s, damped * perRadius, damping[1] * perRadius);
      if (hasPockets && pockets_m3[k] > 0) addBranch(chain, k_per_m * pockets_m3[k]);
    }
    addMass(chain, k_per_m * ends_per_m[2 * m + 1]);
    addBeside(bank, chain, counts[m]);
  }
  return powerBeside(bank, face_m2, face_m2);
}
