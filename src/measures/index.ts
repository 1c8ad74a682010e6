export { createAssessment } from './assessment.ts';
export { flowAnalysis } from './analyses/flow.ts';
export { designFlow_m3_per_s } from './analyses/supply.ts';
export type { FlowReport } from './analyses/flow.ts';
export { printAnalysis } from './analyses/printing.ts';
export type { Analysis, Assessment } from './assessment.ts';
export type { Measure, Standing } from './measure.ts';
export { MEASURES, findMeasure, nearestMeasure } from './registry.ts';
