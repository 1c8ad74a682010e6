export {
  acos,
  asin,
  atan,
  atan2,
  cbrt,
  cos,
  cosh,
  exp,
  expm1,
  hypot,
  log,
  log10,
  log1p,
  log2,
  pow,
  sin,
  sinh,
  tan,
  tanh,
} from './portable.ts';
export { sha256 } from './digest.ts';
export { factorSymmetric } from './linear.ts';
export type { SymmetricSystem } from './linear.ts';
export { createStream } from './random.ts';
export type { RandomStream } from './random.ts';
export {
  cubicMetresPerHour,
  cubicMetresPerSecond,
  degrees,
  kelvin,
  metres,
  radians,
} from './units.ts';
export { radicalInverse } from './sequence.ts';
export { mannWhitney, median, quantile, rankCorrelation, upperNormal } from './statistics.ts';
export type { Alternative, RankTest } from './statistics.ts';
export { wilsonShare } from './wilson.ts';
export type { Share } from './wilson.ts';
export { fitRidge } from './ridge.ts';
export { student95 } from './student.ts';
export type { RidgeFit, RidgeProblem } from './ridge.ts';
export { decodeBase64, loadKernel } from './wasm.ts';
export type { WasmKernel } from './wasm.ts';
