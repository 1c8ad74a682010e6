export { channelDuct } from './channel-duct.ts';
export type { Duct } from './duct.ts';
export { fieldFile, sliceFile } from './field.ts';
export { repeatingCell } from './repeating-cell.ts';
export {
  LEAST_CELLS,
  MOST_BYTES,
  VALID_REYNOLDS,
  memoryRefusal,
  solveCoarse,
  verifyBytes,
  verifyDuct,
} from './verify.ts';
export type {
  DuctVerified,
  GridResult,
  VerifyOptions,
  VerifyProgress,
  VerifyState,
} from './verify.ts';
export { computedSplit, pressurePower } from './flow-split.ts';
export { DEFAULT_GRAINS, airFieldOf, flowFindings } from './findings.ts';
export type { FindingsOptions, FlowFindings, SolvedChannel } from './findings.ts';
export type { ClassFlights, DustTracked } from './dust-tracking.ts';
export { landingFile } from './landing-file.ts';
export { reversedDuct } from './lifting.ts';
export { solveReversed } from './reversed.ts';
export type { ReversedProgress } from './reversed.ts';
export type { Lifted } from './lifting.ts';
export type { Recirculation } from './recirculation.ts';
export type { ShearSummary } from './wall-shear.ts';
