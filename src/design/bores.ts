/** Bore along a channel: monotone cubic through values at equal steps of arc length. */

// Slopes of the channel at hand, in units of one step.
let slope = new Float64Array(16);

/**
 * Writes the bore at each station of a shape.
 *
 * PCHIP: at interior values the weighted harmonic mean of the neighbouring differences (0 at an
 * extremum), at the ends the three-point formula, limited to keep the shape. Never leaves the range
 * of the given values. A pinch that falls between two stations lowers both.
 * Source: Fritsch & Butland 1984, SIAM J. Sci. Stat. Comput. 5:300, on equal steps.
 *
 * @param out receives the bores from index `at`.
 */
export function writeBores(
  bore_mm: readonly number[],
  out: Float64Array,
  at: number,
  stations: number,
): void {
  const n = bore_mm.length;
  if (n === 1) {
    out.fill(bore_mm[0], at, at + stations);
    return;
  }
  if (n > slope.length) slope = new Float64Array(n);
  for (let i = 1; i < n - 1; i++) {
    const a = bore_mm[i] - bore_mm[i - 1];
    const b = bore_mm[i + 1] - bore_mm[i];
    slope[i] = a * b > 0 ? (2 * a * b) / (a + b) : 0;
  }
  if (n === 2) {
    slope[0] = bore_mm[1] - bore_mm[0];
    slope[1] = slope[0];
  } else {
    slope[0] = endSlope(bore_mm[1] - bore_mm[0], bore_mm[2] - bore_mm[1]);
    slope[n - 1] = endSlope(bore_mm[n - 1] - bore_mm[n - 2], bore_mm[n - 2] - bore_mm[n - 3]);
  }
  const step = (n - 1) / (stations - 1);
  let i = -1;
  let y = 0;
  let m0 = 0;
  let c2 = 0;
  let c3 = 0;
  for (let k = 0; k < stations; k++) {
    const u = k * step;
    const piece = Math.min(Math.trunc(u), n - 2);
    if (piece !== i) {
      i = piece;
      y = bore_mm[i];
      m0 = slope[i];
      const rise = bore_mm[i + 1] - y;
      c2 = 3 * rise - 2 * m0 - slope[i + 1];
      c3 = m0 + slope[i + 1] - 2 * rise;
    }
    const t = u - i;
    out[at + k] = y + t * (m0 + t * (c2 + t * c3));
  }
  showPinches(bore_mm, out, at, step);
}

/** A waist between two stations shows from this share below both of them. */
const HIDDEN = 0.98;

/**
 * Lowers the stations on either side of a given bore that stands between them and is narrower than
 * both: a pinch is not to vanish between samples. (Widenings are the clearance's to find.)
 */
function showPinches(
  bore_mm: readonly number[],
  out: Float64Array,
  at: number,
  step: number,
): void {
  for (let i = 1; i < bore_mm.length - 1; i++) {
    const k = at + Math.trunc(i / step);
    const bore = bore_mm[i];
    if (bore >= HIDDEN * out[k] || bore >= HIDDEN * out[k + 1]) continue;
    out[k] = bore;
    out[k + 1] = bore;
  }
}

function endSlope(near: number, far: number): number {
  const m = 1.5 * near - 0.5 * far;
  if (m * near <= 0) return 0;
  if (near * far <= 0 && Math.abs(m) > 3 * Math.abs(near)) return 3 * near;
  return m;
}
