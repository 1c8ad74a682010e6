/** What a correction of the pressure estimate looks at in a channel. */
import { CORRECTION_SIZE, FLOW_FEATURES } from '../../brief/index.ts';
import type { FlowFeature } from '../../brief/index.ts';
import { outlineArea } from '../../design/index.ts';
import type { PlateSamples } from '../../design/index.ts';
import { log, log1p } from '../../numeric/index.ts';

/** Reynolds number about which its logarithm is counted, and the same of the Dean number. */
const REYNOLDS_UNIT = 1000;
export const DEAN_UNIT = 100;

/** Features without the flow [M x F], and what makes a Dean number of a Reynolds number [M]. */
export interface FlowFeatures {
  readonly values: Float64Array;
  /** sqrt(bore / (2 R)) with R the radius of the root mean square curvature. */
  readonly bend: Float64Array;
}

/** Places of the two features that the flow decides. */
const REYNOLDS = FLOW_FEATURES.indexOf('reynolds');
const DEAN = FLOW_FEATURES.indexOf('dean');
const COUNT = CORRECTION_SIZE - 1;

/** Features of every shape of a plate; those that hang on the flow are 0 until `setFlow`. */
export function flowFeatures(samples: PlateSamples): FlowFeatures {
  const { shapeCount, stations: S } = samples;
  const values = new Float64Array(shapeCount * COUNT);
  const bend = new Float64Array(shapeCount);
  const open = openShare(samples);
  for (let m = 0; m < shapeCount; m++) {
    const bore = samples.bore_mm[m * S];
    const length = samples.length_mm[m];
    let turning = 0;
    let squares = 0;
    for (let row = m * S; row < (m + 1) * S; row++) {
      const weight = row === m * S || row === (m + 1) * S - 1 ? 0.5 : 1;
      const [x, y, z] = samples.curvature_per_mm.subarray(3 * row, 3 * row + 3);
      const square = x * x + y * y + z * z;
      turning += weight * Math.sqrt(square);
      squares += weight * square;
    }
    let pockets = 0;
    for (const { depth_mm, length_mm, width_deg } of samples.pockets[m]) {
      pockets += (depth_mm * length_mm * width_deg) / 360;
    }
    bend[m] = Math.sqrt(0.5 * bore * Math.sqrt(squares / (S - 1)));
    const of = {
      reynolds: 0,
      slenderness: log(length / bore),
      turning: ((turning / (S - 1)) * length) / Math.PI,
      dean: 0,
      // With its sign: widening bores win pressure back, narrowing ones lose it.
      areaChange: log(samples.area_mm2[(m + 1) * S - 1] / samples.area_mm2[m * S]),
      pockets: pockets / (bore * length),
      openShare: open,
    };
    FLOW_FEATURES.forEach((name, j) => (values[m * COUNT + j] = of[name]));
  }
  return { values, bend };
}

/** Features by name, as files hold them. */
export type FeatureValues = Readonly<Record<FlowFeature, number>>;

/** Features of one shape at a Reynolds number of its inlet port. */
export function featuresAt(samples: PlateSamples, shape: number, reynolds: number): FeatureValues {
  const features = flowFeatures(samples);
  setFlow(features, shape, reynolds);
  const at = (name: FlowFeature): number =>
    features.values[shape * COUNT + FLOW_FEATURES.indexOf(name)];
  return {
    reynolds: at('reynolds'),
    slenderness: at('slenderness'),
    turning: at('turning'),
    dean: at('dean'),
    areaChange: at('areaChange'),
    pockets: at('pockets'),
    openShare: at('openShare'),
  };
}

/** Sets the features of one shape that its Reynolds number at the inlet port decides. */
export function setFlow({ values, bend }: FlowFeatures, shape: number, reynolds: number): void {
  values[shape * COUNT + REYNOLDS] = log(reynolds / REYNOLDS_UNIT);
  values[shape * COUNT + DEAN] = log1p((reynolds * bend[shape]) / DEAN_UNIT);
}

/** Open share of the inlet face, by the outline's whole area. */
function openShare(samples: PlateSamples): number {
  let open = 0;
  for (const shape of samples.shapeOf) open += samples.area_mm2[shape * samples.stations];
  return Math.min(1, open / outlineArea(samples.plate.outline));
}
