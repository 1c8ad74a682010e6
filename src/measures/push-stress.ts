import { pushAnalysis, pushDoubts } from './analyses/push.ts';
import type { Measure } from './measure.ts';
import { STRENGTH_CAUTION, needsPush } from './strength-words.ts';

export const pushStressShare: Measure = {
  id: 'pushStressShare',
  label: 'push stress share',
  unit: '-',
  better: 'lower',
  meaning:
    'Stress in the ligaments under the push of the brief over what is allowed (strength over safety factor, less across layers): above 1 the plate may break.',
  validity:
    'Estimate, as the push deflection: bending stress of the even plate over the share of solid, nominal; notches raise it about twice where the push comes and goes (common practice, no source). Plates built on edge count by their strength across layers.',
  source:
    "As pushDeflection_mm; stress over ligament efficiency after O'Donnell & Langer 1962, from memory.",
  standing: 'heuristic',
  caution: STRENGTH_CAUTION,
  unavailable: needsPush,
  evaluate: (assessment) => {
    const { stress_MPa, allowed_MPa } = assessment.get(pushAnalysis);
    return stress_MPa / allowed_MPa;
  },
  outside: (assessment) =>
    pushDoubts(assessment.get(pushAnalysis), assessment.samples.plate.thickness_mm),
};
