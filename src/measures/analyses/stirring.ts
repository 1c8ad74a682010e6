/** What the teeth of a plate do to friction and heat transfer. */
import type { PlateSamples } from '../../design/index.ts';
import {
  ROUND_F_RE,
  pumpingIndex,
  ribDoubts,
  ribbedFriction,
  ribbedHeat,
} from '../../physics/index.ts';
import type { Ribs } from '../../physics/index.ts';
import type { Analysis, Assessment } from '../assessment.ts';
import { flowAnalysis } from './flow.ts';

/** Teeth of a shape as the correlations for ribs know them. */
interface ShapeRibs {
  readonly ribs: Ribs;
  /** Share of the channel's length that has teeth. */
  readonly share: number;
}

/**
 * Mean height over the printed bore and mean pitch over height of a shape's teeth; null without any.
 *
 * @param shrinkage_mm how much smaller than drawn a bore comes out.
 */
function shapeRibs(samples: PlateSamples, shape: number, shrinkage_mm: number): ShapeRibs | null {
  const { teeth, stations, bore_mm } = samples;
  if (teeth === null || teeth.knots[shape].length === 0) return null;
  let height = 0;
  let bore = 0;
  let toothed = 0;
  for (let k = shape * stations; k < (shape + 1) * stations; k++) {
    if (teeth.height_mm[k] === 0) continue;
    height += teeth.height_mm[k];
    bore += Math.max(bore_mm[k] - shrinkage_mm, 0.1 * bore_mm[k]);
    toothed++;
  }
  if (toothed === 0) return null;
  return {
    ribs: { height: height / bore, pitch: (teeth.pitch_mm[shape] * toothed) / height },
    share: toothed / stations,
  };
}

/**
 * Rise of a shape's heat transfer by its teeth, 1 without any.
 *
 * @param reynolds of the shape, on the hydraulic diameter between the feet.
 */
export function toothHeat(
  samples: PlateSamples,
  shape: number,
  reynolds: number,
  prandtl: number,
  shrinkage_mm: number,
): number {
  const teeth = shapeRibs(samples, shape, shrinkage_mm);
  if (teeth === null) return 1;
  return 1 + teeth.share * (ribbedHeat(reynolds, prandtl, teeth.ribs) - 1);
}

interface StirringReport {
  /** Means over the flow: heat transfer and friction over those of smooth walls, and their index. */
  readonly heat: number;
  readonly friction: number;
  readonly index: number;
  /** Share of the flow that passes teeth. */
  readonly toothed: number;
}

export const stirringAnalysis: Analysis<StirringReport> = { name: 'stirring', run: analyse };

function analyse(assessment: Assessment): StirringReport {
  const { samples, brief } = assessment;
  const flow = assessment.get(flowAnalysis);
  let [total, heat, friction, index, toothed] = [0, 0, 0, 0, 0];
  for (let n = 0; n < samples.channelCount; n++)
    total += flow.shapeFlow_m3_per_s[samples.shapeOf[n]];
  const count = new Float64Array(samples.shapeCount);
  for (const shape of samples.shapeOf) count[shape]++;
  for (let m = 0; m < samples.shapeCount; m++) {
    const weight = (count[m] * flow.shapeFlow_m3_per_s[m]) / total;
    const Re = flow.shapeReynolds[m];
    const teeth = shapeRibs(samples, m, brief.process.holeShrinkage_mm);
    const h = toothHeat(samples, m, Re, flow.air.prandtl, brief.process.holeShrinkage_mm);
    const f =
      teeth === null ? 1 : 1 + teeth.share * (ribbedFriction(Re, teeth.ribs, ROUND_F_RE, 0) - 1);
    heat += weight * h;
    friction += weight * f;
    index += weight * pumpingIndex(h, f);
    if (teeth !== null) toothed += weight;
  }
  return { heat, friction, index, toothed };
}

/** In which ways the teeth of a plate leave the tests behind the correlations, or null. */
export function toothDoubts(assessment: Assessment): string | null {
  const { samples, brief } = assessment;
  if (samples.teeth === null) return null;
  const { shapeReynolds } = assessment.get(flowAnalysis);
  const doubts = new Set<string>();
  for (let m = 0; m < samples.shapeCount; m++) {
    const teeth = shapeRibs(samples, m, brief.process.holeShrinkage_mm);
    if (teeth === null) {
      if (samples.teeth.pitch_mm[m] > 0) {
        doubts.add('a channel leans too far for teeth that support themselves and has none');
      }
      continue;
    }
    for (const doubt of ribDoubts(shapeReynolds[m], teeth.ribs)) doubts.add(doubt);
  }
  if (doubts.size === 0) return null;
  const [first, ...others] = doubts;
  const more = others.length > MOST_WORDS ? `; and ${others.length - MOST_WORDS} more` : '';
  return `teeth leave the tests on ribs: ${[first, ...others.slice(0, MOST_WORDS)].join('; ')}${more}`;
}

/** Doubts told after the first. */
const MOST_WORDS = 3;
