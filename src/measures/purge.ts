import { dustAnalysis } from './analyses/dust.ts';
import type { Measure } from './measure.ts';

export const purge: Measure = {
  id: 'purge',
  label: 'purged in reverse',
  unit: '-',
  better: 'higher',
  meaning: 'Share of the dust kept that a reversed flow carries out again.',
  validity:
    'For ranking only. The reversed flow is reverseShare of the design flow and lasts long against the time air takes through a channel.',
  source: 'Own heuristic on the threshold friction velocity of Shao & Lu 2000 (from memory).',
  standing: 'heuristic',
  evaluate: (assessment) => assessment.get(dustAnalysis).purge,
  outside: ({ samples }) =>
    samples.teeth === null ? null : 'dust in the lee of teeth, which stays, is not counted',
};
