/** Light that leaves behind the plate by way of its walls. */
import { LIGHT_DEFAULTS } from '../../brief/index.ts';
import type { PlateSamples } from '../../design/index.ts';
import type { Analysis } from '../assessment.ts';
import { COPIES, POINTS, pointSet } from './diffuse-points.ts';
import { traceRays } from './diffuse-rays.ts';
import type { RaySums, WallOptics } from './diffuse-rays.ts';
import { loadTube } from './diffuse-tube.ts';
import { bouncedEstimate } from './diffuse-zones.ts';
import { leakAnalysis, portArea } from './sight.ts';

export interface DiffuseReport {
  /** Share of the light entering each shape's port that leaves after one bounce or more [M]. */
  readonly bounced: Float64Array;
  /** Over the plate, weighted by port area: straight through and by the walls together. */
  readonly plate: number;
  /** Standard error of `plate` from the rays; 0 in the fast form, which has none. */
  readonly error: number;
  /** Rays followed; 0 in the fast form. */
  readonly rays: number;
}

/**
 * Looks at walls that a plate's rays may take, shared among its shapes by the area of their ports;
 * some 50 ns each on a machine of 2020 (experiments/bench/light).
 */
const PLATE_LOOKS = 1_200_000;
/**
 * What is darker reads as this: a ray that has lost more is not followed, and a search among plates
 * that are dark for all purposes would only chase noise.
 */
const DARKEST = 1e-6;

export const diffuseAnalysis: Analysis<DiffuseReport> = {
  name: 'diffuse light',
  run(assessment) {
    const { brief, samples, exact } = assessment;
    const { wallReflectance, gloss } = brief.light ?? LIGHT_DEFAULTS;
    const optics = { reflectance: wallReflectance, gloss };
    const area = new Float64Array(samples.shapeCount);
    let open = 0;
    for (let n = 0; n < samples.channelCount; n++) {
      const own = portArea(samples, samples.shapeOf[n], 0);
      area[samples.shapeOf[n]] += own;
      open += own;
    }
    const direct = assessment.get(leakAnalysis).plate;
    const bounced = new Float64Array(samples.shapeCount);
    if (!exact) {
      let sum = 0;
      for (let m = 0; m < samples.shapeCount; m++) {
        bounced[m] = bouncedEstimate(samples, m, optics);
        sum += area[m] * bounced[m];
      }
      return { bounced, plate: Math.max(DARKEST, direct + sum / open), error: 0, rays: 0 };
    }
    const traced = tracePlate(samples, area, open, optics, bounced);
    return { ...traced, bounced, plate: Math.max(DARKEST, direct + traced.mean) };
  },
};

const sums: RaySums = { entered: new Float64Array(COPIES), left: new Float64Array(COPIES) };

/** Traces every shape with every copy of the point set; the copies' spread is the error. */
function tracePlate(
  samples: PlateSamples,
  area: Float64Array,
  open: number,
  optics: WallOptics,
  bounced: Float64Array,
): { mean: number; error: number; rays: number } {
  const set = pointSet();
  const copies = new Float64Array(COPIES);
  let rays = 0;
  // Each shape goes on in the sequence where the one before it stopped.
  let from = 0;
  for (let m = 0; m < samples.shapeCount; m++) {
    const budget = (PLATE_LOOKS * area[m]) / open;
    const points = traceRays(loadTube(samples, m), set, from, budget, optics, sums);
    for (let copy = 0; copy < COPIES; copy++) {
      const share = sums.left[copy] / sums.entered[copy];
      bounced[m] += share / COPIES;
      copies[copy] += (area[m] * share) / open;
    }
    rays += COPIES * points;
    from = (from + points) % POINTS;
  }
  let mean = 0;
  for (const copy of copies) mean += copy / COPIES;
  let square = 0;
  for (const copy of copies) square += (copy - mean) * (copy - mean);
  return { mean, error: Math.sqrt(square / (COPIES * (COPIES - 1))), rays };
}
