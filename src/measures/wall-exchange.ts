import { effectiveness } from '../physics/index.ts';
import { plateStreams } from './analyses/heat-stream.ts';
import { toothDoubts } from './analyses/stirring.ts';
import type { Measure } from './measure.ts';
import { isNamed } from './on-demand.ts';

export const wallExchange: Measure = {
  id: 'wallExchange',
  label: 'wall exchange',
  unit: '-',
  better: 'higher',
  meaning:
    'How far the air comes to what the wall is: share of the difference to an even wall temperature that it takes up on its way, mean over the flow, where fan and plate meet (else at design flow). By analogy also for vapour.',
  validity:
    'The wall all of one temperature: conduction in the solid is left out, see the measures of heat. Side pockets count neither for nor against.',
  source:
    'Muzychka & Yovanovich 2004, Gnielinski 1976 and 2013, bends Manlapaz & Churchill 1981, teeth Webb, Eckert & Goldstein 1971; 1 - exp(-NTU), Kays & London 1984.',
  standing: 'handbook',
  unavailable: (brief) =>
    brief.routes.teeth === true || isNamed(brief, wallExchange.id)
      ? null
      : 'Worked out on demand: name wallExchange in goals, or set routes.teeth to true.',
  evaluate: (assessment) => {
    const { count, flowOf_m3_per_s, units } = plateStreams(assessment);
    const steps = units.length / count.length;
    let total = 0;
    let exchanged = 0;
    for (let m = 0; m < count.length; m++) {
      let all = 0;
      for (let j = m * steps; j < (m + 1) * steps; j++) all += units[j];
      const flow = count[m] * flowOf_m3_per_s[m];
      total += flow;
      exchanged += flow * effectiveness(all);
    }
    return exchanged / total;
  },
  outside: toothDoubts,
};
