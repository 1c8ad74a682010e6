import { stirringAnalysis, toothDoubts } from './analyses/stirring.ts';
import type { Measure } from './measure.ts';
import { isNamed } from './on-demand.ts';

export const stirringIndex: Measure = {
  id: 'stirringIndex',
  label: 'stirring index',
  unit: '-',
  better: 'higher',
  meaning:
    'Gain of heat transfer (and mixing at the wall) by teeth at equal pumping power, (Nu/Nu0)/(f/f0)^(1/3), mean over the flow at design flow, against smooth walls; 1 without teeth, below 1 where teeth cost more than they bring.',
  validity:
    'Ribs of 0.01 to 0.04 bores, 10 to 40 heights apart, Re 6000 to 100 000, e+ above 35. Below that teeth count as roughness and the index is capped at 1.2; in laminar flow they only cost friction. Saw teeth are taken as ribs of rectangular section.',
  source:
    'Webb, Eckert & Goldstein 1971, index of Webb 1981 and Gee & Webb 1980; rough walls Norris 1970 (from memory); laminar friction by the constricted bore: own heuristic after Kandlikar 2005.',
  standing: 'handbook',
  unavailable: (brief) =>
    brief.routes.teeth === true || isNamed(brief, stirringIndex.id)
      ? null
      : 'The brief allows no teeth: set routes.teeth to true.',
  evaluate: (assessment) => assessment.get(stirringAnalysis).index,
  outside: toothDoubts,
};
