/** Where an estimate of heat leaves firm ground. */
import { heatSolid } from '../../brief/index.ts';
import { FULLY_TURBULENT, LAMINAR_LIMIT } from '../../physics/index.ts';
import type { Assessment } from '../assessment.ts';
import { heatAnalysis, heatOf, hotBody_C, hotFace_C } from './heat.ts';

/** x* below which the entry formula was not looked at. */
const SHORTEST = 4e-4;
/** h V/(k A) from which a layer of one temperature is no good guess; textbook limit 0.1. */
const LUMPED = 0.5;
/** Air warmer than what comes in by this much has other properties by some 5 % [K]. */
const WARM_K = 60;

/** Sentence for briefs without a hot face, or null. */
export function withoutHeat(brief: Assessment['brief']): string | null {
  return brief.heat === undefined
    ? 'Heat needs a hot face: add a heat section with source and material to the brief.'
    : null;
}

/** What is doubtful about the heat of this design, in one sentence per doubt, or null. */
export function heatDoubts(assessment: Assessment): string | null {
  const { form, streams, biot } = assessment.get(heatAnalysis);
  const shapes = streams.count.length;
  const doubts: string[] = [];
  let passing = 0;
  let short = 0;
  for (let m = 0; m < shapes; m++) {
    const Re = streams.reynolds[m];
    if (Re > LAMINAR_LIMIT && Re < FULLY_TURBULENT) passing++;
    if (streams.length[m] < SHORTEST) short++;
  }
  if (passing > 0) {
    doubts.push(
      `${passing} of ${shapes} channel shapes run between Re ${LAMINAR_LIMIT} and ${FULLY_TURBULENT}, where heat transfer is known to some 30 % only`,
    );
  }
  if (short > 0) {
    doubts.push(
      `${short} of ${shapes} channel shapes are shorter than L/(D Re Pr) = ${SHORTEST}, where the entry formula was not looked at`,
    );
  }
  if (form === 'layers' && biot > LUMPED) {
    doubts.push(
      `the solid between channels is far from one temperature per layer (h V/(k A) = ${biot.toFixed(2)})`,
    );
  }
  if (assessment.samples.teeth !== null) {
    doubts.push(
      'teeth count by the heat they stir from the wall, not as solid or wetted wall of their own',
    );
  }
  const rise_K = hotBody_C(assessment) - assessment.brief.air.temperature_C;
  if (rise_K > WARM_K) {
    doubts.push(
      `the hot body is ${rise_K.toFixed(0)} K above the incoming air, whose properties are used throughout`,
    );
  }
  const { serviceTemperature_C: service } = heatSolid(heatOf(assessment));
  const face_C = hotFace_C(assessment);
  if (service !== null && face_C > service) {
    doubts.push(
      `the plate reaches ${face_C.toFixed(0)} C at its hot face, above its service temperature of ${service} C: it will soften, creep or worse`,
    );
  }
  return doubts.length > 0 ? doubts.join('; ') : null;
}
