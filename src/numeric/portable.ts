/**
 * The elementary functions every room above the store uses in place of those of `Math`, whose last
 * bits differ between engines.
 */
export { sin, cos, tan } from './trigonometry.ts';
export { asin, acos, atan, atan2 } from './inverse-trigonometry.ts';
export { exp, expm1 } from './exponential.ts';
export { sinh, cosh, tanh } from './hyperbolic.ts';
export { log, log1p, log2, log10 } from './logarithm.ts';
export { pow, cbrt, hypot } from './power.ts';
