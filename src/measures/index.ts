export { createAssessment } from './assessment.ts';
export { flowAnalysis } from './analyses/flow.ts';
export type { FlowReport } from './analyses/flow.ts';
export type { Analysis, Assessment } from './assessment.ts';
export type { Measure, Standing } from './measure.ts';
export { MEASURES, findMeasure, nearestMeasure } from './registry.ts';
