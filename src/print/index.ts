export { estimatePrint } from './estimate.ts';
export { LIMIT_SLACK_deg } from './overhang.ts';
export { depositRate, partPrice, printedMass } from './plan.ts';
export { ownMouth, pocketVolume } from './pocket-print.ts';
export { createLayerTable, rasterPrint } from './raster.ts';
export type { LayerTable, PrintReport } from './report.ts';
export { coveringDisc } from './unsupported.ts';
