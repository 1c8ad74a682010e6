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
    'Estimate, as the push deflection: bending stress of the even plate over the share of solid, nominal; holes raise it 1.8 times in plates far thinner than the hole is wide, up to 3 times in thick ones, where the push comes and goes. Mounting holes are only flagged. Plates built on edge count by their strength across layers.',
  source:
    "As pushDeflection_mm; stress over ligament efficiency after O'Donnell & Langer 1962, holes in bent plates Goodier 1936 and Peterson, from memory.",
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
