import { pushAnalysis, pushDoubts } from './analyses/push.ts';
import type { Measure } from './measure.ts';
import { STRENGTH_CAUTION, needsPush } from './strength-words.ts';

export const pushDeflection: Measure = {
  id: 'pushDeflection_mm',
  label: 'push deflection',
  unit: 'mm',
  better: 'lower',
  meaning: 'How far the middle of the plate gives way under the push of the brief.',
  validity:
    'Estimate: the whole plate is taken to have the stiffness of its weakest quarter, a solid rim earns no credit, holes and slots bend as an even plate. Plates thinner than two pitches are somewhat stiffer; thick ones carry a term for shear; sagging more than half the thickness they stiffen.',
  source:
    "Timoshenko & Woinowsky-Krieger 1959 and Roark (from memory, checked by series); perforated stiffness by own finite elements after O'Donnell & Langer 1962; slots by an own model of slats and webs, within 10 % of plate finite elements in thin plates, within 27 % of plane ones in thick plates, mostly too soft.",
  standing: 'heuristic',
  caution: STRENGTH_CAUTION,
  unavailable: needsPush,
  evaluate: (assessment) => assessment.get(pushAnalysis).deflection_mm,
  outside: (assessment) =>
    pushDoubts(assessment.get(pushAnalysis), assessment.samples.plate.thickness_mm),
};
