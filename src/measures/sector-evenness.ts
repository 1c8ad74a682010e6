import type { Measure } from './measure.ts';
import { sectorAnalysis } from './analyses/sectors.ts';

export const sectorEvenness: Measure = {
  id: 'sectorEvenness',
  label: 'sector evenness',
  unit: '-',
  better: 'higher',
  meaning:
    'Least over greatest flow per degree through the rim, over the open sectors in parts of about 45 degrees, at design flow; 1 is even, 0 leaves a part without air.',
  validity:
    'Even pressure before the plate and around it: what a fan blows unevenly, or a wall beside the rim holds back, is not seen. Along a plenum only friction counts; jets that drive it round and their mixing do not.',
  source:
    'Definition; channels as in pressureDrop_Pa, plenum as a flow network (Todini & Pilati 1988).',
  standing: 'handbook',
  unavailable: ({ air }) =>
    air.route.kind === 'side' ? null : "the brief has no side exits (air.route.kind 'side')",
  evaluate: (assessment) => assessment.get(sectorAnalysis).evenness,
  outside: ({ samples }) =>
    samples.sides?.plenum
      ? 'the plenum is taken as a duct with friction only, without the push of jets and their mixing'
      : null,
};
