/** Heat from a hot face through the plate to the air in its channels. */
import { heatSolid } from '../../brief/index.ts';
import type { HeatBrief } from '../../brief/index.ts';
import type { Analysis, Assessment } from '../assessment.ts';
import { conductPlate } from './conduction.ts';
import { layPlate } from './heat-plate.ts';
import { idealConductance, plateStreams } from './heat-stream.ts';
import type { PlateStreams } from './heat-stream.ts';

interface HeatReport {
  /** layers: each layer of the plate at one temperature. voxels: conduction solved on a raster. */
  readonly form: 'layers' | 'voxels';
  readonly streams: PlateStreams;
  /** Heat to the air per kelvin between hot body and incoming air [W/K]. */
  readonly conductance_W_per_K: number;
  /** Heat given off over what the whole wall would give at the temperature of the hot body [0..1]. */
  readonly wallShare: number;
  /** Mean temperature of the plate at its hot face, 0 = incoming air, 1 = hot body. */
  readonly faceShare: number;
  /** h V/(k A) of the solid between the channels: how far one layer is from one temperature. */
  readonly biot: number;
}

export const heatAnalysis: Analysis<HeatReport> = { name: 'heat', run: analyseHeat };

/** The brief's heat section. @throws Error without one: measures say `unavailable` first. */
export function heatOf(assessment: Assessment): HeatBrief {
  const { heat } = assessment.brief;
  if (heat === undefined) throw new Error('heat was asked of a brief without a heat section');
  return heat;
}

function analyseHeat(assessment: Assessment): HeatReport {
  const { samples, exact } = assessment;
  const heat = heatOf(assessment);
  const streams = plateStreams(assessment);
  const k = heatSolid(heat).conductivity_W_per_mK;
  const contact_m2K_per_W = heat.contactResistance_mm2K_per_W * 1e-6;
  const isInlet = heat.hotFace === 'inlet';
  const laid = layPlate(samples, streams, isInlet, k, contact_m2K_per_W);
  const solved = exact
    ? conductPlate(samples, streams, isInlet, k, contact_m2K_per_W, laid.layerShare)
    : laid;
  return {
    form: exact ? 'voxels' : 'layers',
    streams,
    conductance_W_per_K: solved.conductance_W_per_K,
    wallShare: solved.conductance_W_per_K / idealConductance(streams),
    faceShare: solved.faceShare,
    biot: laid.biot,
  };
}

/** Heat that the brief's hot body gives off through this plate [W]. */
export function heatFlow_W(assessment: Assessment): number {
  const { source } = heatOf(assessment);
  if (source.kind === 'load') return source.heat_W;
  const { conductance_W_per_K } = assessment.get(heatAnalysis);
  return conductance_W_per_K * (source.temperature_C - assessment.brief.air.temperature_C);
}

/** Temperature of the hot body [C]. */
export function hotBody_C(assessment: Assessment): number {
  const { source } = heatOf(assessment);
  if (source.kind === 'face') return source.temperature_C;
  const { conductance_W_per_K } = assessment.get(heatAnalysis);
  return assessment.brief.air.temperature_C + source.heat_W / conductance_W_per_K;
}

/** Mean temperature of the plate where it touches the hot body [C]. */
export function hotFace_C(assessment: Assessment): number {
  const air_C = assessment.brief.air.temperature_C;
  return air_C + assessment.get(heatAnalysis).faceShare * (hotBody_C(assessment) - air_C);
}
