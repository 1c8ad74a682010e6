import { planBatch } from '../print/index.ts';
import type { BatchPlan } from '../print/index.ts';
import type { Assessment } from './assessment.ts';
import type { Measure } from './measure.ts';
import { printAnalysis } from './analyses/printing.ts';

export const batchCost: Measure = {
  id: 'batchCost',
  label: 'cost in a batch',
  unit: 'currency',
  better: 'lower',
  meaning:
    "Cost of one good plate in a batch of batch.parts, in the brief's currency: material, machine hours with full beds, setting up, handling, scrap.",
  validity:
    'No supports, packing of rectangles only, one kind of part per job. As good as print time, mass and the prices given.',
  source: 'Own heuristic; common practice of filament printing, no source.',
  standing: 'heuristic',
  evaluate: (assessment) => planOf(assessment, assessment.brief.batch.parts).costPerPart,
  outside: (assessment) =>
    planOf(assessment, 1).partsPerJob === 0
      ? 'the plate does not fit the printer of `batch`: turn it, or give a larger bed'
      : null,
};

function planOf(assessment: Assessment, parts: number): BatchPlan {
  const { brief, samples } = assessment;
  return planBatch(assessment.get(printAnalysis), samples.plate, brief.process, brief.batch, parts);
}
