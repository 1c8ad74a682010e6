/** Where a flow estimate leaves firm ground. */
import { FULLY_TURBULENT, LAMINAR_LIMIT } from '../../physics/index.ts';
import type { Assessment } from '../assessment.ts';
import { flowAnalysis } from './flow.ts';
import { toothDoubts } from './stirring.ts';

/** Pressure above which air can no longer be taken as incompressible [Pa], 1 % of the atmosphere. */
const INCOMPRESSIBLE_PA = 1000;
/** Centreline radius over bore below which a bend is tighter than any test behind the formulas. */
const TIGHT_BEND = 1;

/** What is doubtful about the flow of this design, in one sentence per doubt, or null. */
export function flowDoubts(assessment: Assessment): string | null {
  const flow = assessment.get(flowAnalysis);
  const doubts: string[] = [];
  let passing = 0;
  for (const Re of flow.shapeReynolds) if (Re > LAMINAR_LIMIT && Re < FULLY_TURBULENT) passing += 1;
  if (passing > 0) {
    doubts.push(
      `${passing} of ${flow.shapeReynolds.length} channel shapes run between Re ${LAMINAR_LIMIT} and ${FULLY_TURBULENT}, where friction is known to +-30 % only`,
    );
  }
  if (flow.pressureDrop_Pa > INCOMPRESSIBLE_PA) {
    doubts.push(
      `the pressure drop of ${flow.pressureDrop_Pa.toFixed(0)} Pa is above ${INCOMPRESSIBLE_PA} Pa, where air starts to compress`,
    );
  }
  const tightness = tightestBend(assessment);
  if (tightness < TIGHT_BEND) {
    doubts.push(
      `the tightest bend has R/D ${tightness.toFixed(2)}, below ${TIGHT_BEND}, where bend losses are of ranking grade`,
    );
  }
  const strangers = correctionDoubts(assessment);
  if (strangers !== null) doubts.push(strangers);
  const teeth = toothDoubts(assessment);
  if (teeth !== null) doubts.push(teeth);
  return doubts.length > 0 ? doubts.join('; ') : null;
}

/** How the channels leave what the brief's correction was fitted to; null while they do not. */
function correctionDoubts(assessment: Assessment): string | null {
  const { brief, samples } = assessment;
  if (brief.correction === undefined) return null;
  const { corrected } = assessment.get(flowAnalysis);
  if (corrected === null) {
    return 'the correction by computed flows knows only channels from face to face without teeth, and is left out';
  }
  let strangers = 0;
  let first = '';
  for (let m = 0; m < samples.shapeCount; m++) {
    const { outside } = corrected(m);
    if (outside.length > 0 && strangers++ === 0) first = outside.join(', ');
  }
  if (strangers === 0) return null;
  return `${strangers} of ${samples.shapeCount} channel shapes lie outside the computed flows behind the correction (${first})`;
}

/** Least centreline radius over bore of all shapes; infinity when all are straight. */
function tightestBend({ samples }: Assessment): number {
  let strongest = 0;
  const stations = samples.shapeCount * samples.stations;
  const k = samples.curvature_per_mm;
  for (let i = 0; i < stations; i += 1) {
    const x = k[3 * i];
    const y = k[3 * i + 1];
    const z = k[3 * i + 2];
    strongest = Math.max(strongest, Math.sqrt(x * x + y * y + z * z) * samples.bore_mm[i]);
  }
  return 1 / strongest;
}
