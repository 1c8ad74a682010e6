/** Roots of functions of one variable. */

/**
 * Root of a continuous function between two points where its signs differ.
 *
 * Interpolation through the last points where it behaves, bisection where it does not, so that the
 * bracket always shrinks.
 *
 * @param f function of one number.
 * @param from one end; any unit.
 * @param to other end.
 * @param tolerance greatest error of the root, same unit.
 * @throws RangeError if f has the same sign at both ends.
 * @example findRoot((x) => x * x - 2, 0, 2, 1e-12) // 1.4142135624
 * Source: Brent 1973, Algorithms for Minimization Without Derivatives, ch. 4.
 */
export function findRoot(
  f: (x: number) => number,
  from: number,
  to: number,
  tolerance: number,
): number {
  let a = from;
  let b = to;
  let fa = f(a);
  let fb = f(b);
  if (fa === 0) return a;
  if (fb === 0) return b;
  if (!(fa < 0 === fb > 0)) {
    throw new RangeError(
      `findRoot(): f is ${fa} at ${from} and ${fb} at ${to}; signs must differ.`,
    );
  }
  let c = a;
  let fc = fa;
  let step = b - a;
  let before = step;
  // Brent's bound on the number of steps is about (log2 of the bracket over the tolerance)^2.
  for (let i = 0; i < 3000; i++) {
    if (fb < 0 === fc < 0) {
      c = a;
      fc = fa;
      step = b - a;
      before = step;
    }
    if (Math.abs(fc) < Math.abs(fb)) {
      a = b;
      b = c;
      c = a;
      fa = fb;
      fb = fc;
      fc = fa;
    }
    const accuracy = 4.440892098500626e-16 * Math.abs(b) + 0.5 * tolerance;
    const half = 0.5 * (c - b);
    if (Math.abs(half) <= accuracy || fb === 0) return b;
    if (Math.abs(before) >= accuracy && Math.abs(fa) > Math.abs(fb)) {
      const s = fb / fa;
      let p = 2 * half * s;
      let q = 1 - s;
      if (a !== c) {
        const u = fa / fc;
        const r = fb / fc;
        p = s * (2 * half * u * (u - r) - (b - a) * (r - 1));
        q = (u - 1) * (r - 1) * (s - 1);
      }
      if (p > 0) q = -q;
      else p = -p;
      if (2 * p < Math.min(3 * half * q - Math.abs(accuracy * q), Math.abs(before * q))) {
        before = step;
        step = p / q;
      } else {
        step = half;
        before = half;
      }
    } else {
      step = half;
      before = half;
    }
    a = b;
    fa = fb;
    b += Math.abs(step) > accuracy ? step : half > 0 ? accuracy : -accuracy;
    fb = f(b);
  }
  return b;
}
