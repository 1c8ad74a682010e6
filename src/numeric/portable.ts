// Stand-in until the portable versions land.
export const { sin, cos, tan, asin, acos, atan, atan2, exp, expm1, log, log1p, log2, log10, pow, cbrt, sinh, cosh, tanh, hypot } = Math;
