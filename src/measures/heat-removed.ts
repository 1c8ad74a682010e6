import { heatFlow_W } from './analyses/heat.ts';
import { heatDoubts, withoutHeat } from './analyses/heat-doubts.ts';
import type { Measure } from './measure.ts';
import { HEAT_CAUTION, HEAT_SOURCE, HEAT_VALIDITY } from './thermal-resistance.ts';

export const heatRemoved: Measure = {
  id: 'heatRemoved_W',
  label: 'heat removed',
  unit: 'W',
  better: 'higher',
  meaning:
    'Heat that a hot body held at the stated temperature gives to the air, at the fan (else at the design flow).',
  validity: HEAT_VALIDITY,
  source: HEAT_SOURCE,
  standing: 'handbook',
  caution: HEAT_CAUTION,
  unavailable: (brief) =>
    withoutHeat(brief) ??
    (brief.heat?.source.kind === 'load'
      ? 'The brief states the heat itself; for the heat at a held temperature set heat.source to { "kind": "face", "temperature_C": ... }.'
      : null),
  evaluate: heatFlow_W,
  outside: heatDoubts,
};
