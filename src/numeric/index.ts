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
export { createStream, restoreStream } from './random.ts';
export type { RandomStream, StreamState } from './random.ts';
export {
  MM_PER_M,
  SECONDS_PER_HOUR,
  UM_PER_M,
  ZERO_CELSIUS_K,
  cubicMetresPerHour,
  cubicMetresPerSecond,
  degrees,
  kelvin,
  metres,
  metresFromMicrometres,
  millimetres,
  radians,
  squareMetres,
} from './units.ts';
export { findRoot } from './roots.ts';
export { radicalInverse } from './sequence.ts';
export {
  mannWhitney,
  mean,
  median,
  quantile,
  rankCorrelation,
  ranks,
  upperNormal,
} from './statistics.ts';
export type { Alternative, RankTest } from './statistics.ts';
