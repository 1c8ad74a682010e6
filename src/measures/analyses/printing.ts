import { estimatePrint, rasterPrint } from '../../print/index.ts';
import type { PrintReport } from '../../print/index.ts';
import type { Analysis } from '../assessment.ts';

/** Printing in build direction: estimated inside the search loop, rastered layer by layer when exact. */
export const printAnalysis: Analysis<PrintReport> = {
  name: 'printing',
  run: ({ samples, brief, exact }) =>
    exact ? rasterPrint(samples, brief.process) : estimatePrint(samples, brief.process),
};
