/**
 * Sound analyses alone: fast evaluations per CPU-second, exact milliseconds.
 *
 * `npm run bench -- sound/sound`: plates of the evaluation bench, decoded and sampled beforehand; the
 * flow that the noise index reads is worked out beforehand too. Rounds take turns; best and median.
 */
import { createAssessment } from '../../../src/measures/assessment.ts';
import { flowAnalysis } from '../../../src/measures/analyses/flow.ts';
import { flowNoiseAnalysis } from '../../../src/measures/analyses/sound-flow.ts';
import { soundAnalysis } from '../../../src/measures/analyses/sound.ts';
import { alonePlates, reportAlone } from '../evaluate/alone.ts';

reportAlone('Sound', alonePlates({ sound: {} }), {
  before: (assessment) => assessment.get(flowAnalysis),
  work: (assessment) => {
    assessment.get(flowNoiseAnalysis);
    return assessment.get(soundAnalysis).loss_dB;
  },
  assess: createAssessment,
});
