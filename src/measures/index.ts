export { createAssessment } from './assessment.ts';
export type { Analysis, Assessment } from './assessment.ts';
export type { Measure, Standing } from './measure.ts';
export { MEASURES, findMeasure, nearestMeasure } from './registry.ts';
