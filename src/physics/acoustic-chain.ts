/**
 * Plane waves through a chain of short ducts: transfer matrices, channels side by side, and how much
 * sound power passes.
 *
 * Pressure p and volume velocity v on the near side follow from those on the far side,
 *
 *   [p1; v1] = [[A, B], [C, D]] [p2; v2]
 *
 * with v measured in units of 1/(rho c): B is then in 1/m2, C in m2. A chain is the eight numbers
 * A, B, C, D, each real then imaginary part (time factor exp(j omega t)). Functions write in place
 * and allocate nothing: a plate asks for some ten thousand of these products.
 * Source: Munjal, Acoustics of Ducts and Mufflers (2nd ed. 2014), chapters 2 and 3; from memory.
 */

/** A, B, C, D, each real then imaginary [8]. */
export type Chain = Float64Array;
/** Y11, Y12, Y22 of a two-port, each real then imaginary [6], in m2. */
export type Admittance = Float64Array;

/** A chain of nothing: what stands on one side stands on the other. */
export function startChain(out: Chain): void {
  out.fill(0);
  out[0] = 1;
  out[6] = 1;
}

/**
 * Adds a short duct of constant area to the far end of a chain, with wide-tube wall damping.
 *
 *   cos k h, j Zc sin k h, j sin(k h)/Zc, cos k h;  k h = (omega/c) h + (1 - j) b,
 *   Zc = (1 + (1 - j) e)/S
 *
 * @param area_m2 S.
 * @param c cosine of (omega/c) h, h the duct's length.
 * @param s sine of the same.
 * @param b damping over the duct's length [Np]; 0 without losses. Series to third order: up to .2.
 * @param e excess of the characteristic impedance, see `wallDamping`; 0 without losses.
 */
export function addDuct(
  chain: Chain,
  area_m2: number,
  c: number,
  s: number,
  b: number,
  e: number,
): void {
  // cos and sin of the angle (omega/c) h + b, then of the complex one with - j b.
  const square = b * b;
  const cb = 1 - 0.5 * square;
  const sb = b * (1 - square / 6);
  const cr = c * cb - s * sb;
  const sr = s * cb + c * sb;
  const ch = 1 + 0.5 * square;
  const sh = b * (1 + square / 6);
  const cosRe = cr * ch;
  const cosIm = sr * sh;
  // j times the sine, sin(a - j b) = sin a cosh b - j cos a sinh b.
  const jSinRe = cr * sh;
  const jSinIm = sr * ch;
  const wide = 1 + e;
  const zRe = wide / area_m2;
  const zIm = -e / area_m2;
  const scale = area_m2 / (wide * wide + e * e);
  const yRe = wide * scale;
  const yIm = e * scale;
  const upRe = jSinRe * zRe - jSinIm * zIm;
  const upIm = jSinRe * zIm + jSinIm * zRe;
  const downRe = jSinRe * yRe - jSinIm * yIm;
  const downIm = jSinRe * yIm + jSinIm * yRe;
  for (let row = 0; row < 8; row += 4) {
    const ar = chain[row];
    const ai = chain[row + 1];
    const br = chain[row + 2];
    const bi = chain[row + 3];
    chain[row] = ar * cosRe - ai * cosIm + br * downRe - bi * downIm;
    chain[row + 1] = ar * cosIm + ai * cosRe + br * downIm + bi * downRe;
    chain[row + 2] = ar * upRe - ai * upIm + br * cosRe - bi * cosIm;
    chain[row + 3] = ar * upIm + ai * upRe + br * cosIm + bi * cosRe;
  }
}

/**
 * Adds air that moves as a plug to the far end: the mass of an opening.
 *
 *   [[1, j x], [0, 1]],  x = (omega/c) length / area
 */
export function addMass(chain: Chain, x_per_m2: number): void {
  for (let row = 0; row < 8; row += 4) {
    chain[row + 2] -= x_per_m2 * chain[row + 1];
    chain[row + 3] += x_per_m2 * chain[row];
  }
}

/**
 * Adds a side branch to the far end: [[1, 0], [j y, 1]].
 *
 * @param y_m2 its susceptance: (omega/c) V for a small volume V, S tan(omega L/c) for a closed tube.
 */
export function addBranch(chain: Chain, y_m2: number): void {
  for (let row = 0; row < 8; row += 4) {
    chain[row] -= y_m2 * chain[row + 3];
    chain[row + 1] += y_m2 * chain[row + 2];
  }
}

/**
 * Adds a number of like chains, side by side between two common spaces, to an admittance:
 * Y11 = D/B, Y12 = -1/B, Y22 = A/B (reciprocal chains, A D - B C = 1).
 */
export function addBeside(out: Admittance, chain: Chain, count: number): void {
  const br = chain[2];
  const bi = chain[3];
  const scale = count / (br * br + bi * bi);
  out[0] += scale * (chain[6] * br + chain[7] * bi);
  out[1] += scale * (chain[7] * br - chain[6] * bi);
  out[2] -= scale * br;
  out[3] += scale * bi;
  out[4] += scale * (chain[0] * br + chain[1] * bi);
  out[5] += scale * (chain[1] * br - chain[0] * bi);
}

/**
 * Share of the incident sound power that passes a two-port between two endless ducts.
 *
 *   v1 = Y11 p1 + Y12 p2,  -v2 = Y12 p1 + Y22 p2
 *   tau = 4 S1 S2 |Y12|^2 / |(S1 + Y11)(S2 + Y22) - Y12^2|^2,  TL = -10 log10 tau
 *
 * The same as TL = 20 log10(|A + B S2 + C/S1 + D S2/S1|/2) + 10 log10(S1/S2), without its division
 * by Y12.
 *
 * @param inlet_m2 S1 @param outlet_m2 S2 areas of the ducts.
 */
export function powerBeside(y: Admittance, inlet_m2: number, outlet_m2: number): number {
  const ar = inlet_m2 + y[0];
  const dr = outlet_m2 + y[4];
  const re = ar * dr - y[1] * y[5] - (y[2] * y[2] - y[3] * y[3]);
  const im = ar * y[5] + y[1] * dr - 2 * y[2] * y[3];
  const across = y[2] * y[2] + y[3] * y[3];
  return (4 * inlet_m2 * outlet_m2 * across) / (re * re + im * im);
}

/**
 * Share of the incident sound power that passes a chain between two endless ducts.
 *
 *   tau = 4 (S2/S1) / |A + B S2 + C/S1 + D S2/S1|^2
 */
export function powerThrough(chain: Chain, inlet_m2: number, outlet_m2: number): number {
  const ratio = outlet_m2 / inlet_m2;
  const re = chain[0] + chain[2] * outlet_m2 + chain[4] / inlet_m2 + chain[6] * ratio;
  const im = chain[1] + chain[3] * outlet_m2 + chain[5] / inlet_m2 + chain[7] * ratio;
  return (4 * ratio) / (re * re + im * im);
}
