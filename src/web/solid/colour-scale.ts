/**
 * Colours for a field on a surface: from dark violet over green to light yellow.
 *
 * The path runs through CIELAB with rising lightness and is cut into equal steps of CIE 1976 colour
 * difference, so equal steps of a value look about equal. Lightness alone tells high from low, for
 * every kind of colour vision and in grey. No colour on it is grey, which is left for "no value".
 *
 * Source: CIE 15 (CIELAB, D65 white) and IEC 61966-2-1 (sRGB), constants from memory; the path is our own.
 */

/** Lightness, chroma and hue [deg] of the points it goes through. */
const POINTS: readonly (readonly [number, number, number])[] = [
  [20, 42, 305],
  [38, 36, 272],
  [56, 31, 200],
  [74, 46, 150],
  [92, 70, 103],
];
/** Colours in the table, and steps along each stretch of the path when it is measured. */
const COLOURS = 128;
const FINE = 200;

type Rgb = readonly [number, number, number];

/**
 * Colour of a share [0..1] of the range; sRGB components 0..1.
 *
 * @example scaleColour(0).length // 3
 */
export function scaleColour(share: number): Rgb {
  const at = Math.min(1, Math.max(0, share)) * (COLOURS - 1);
  const k = Math.min(COLOURS - 2, Math.floor(at));
  const rest = at - k;
  const [a, b] = [TABLE[k], TABLE[k + 1]];
  return [0, 1, 2].map((d) => a[d] + rest * (b[d] - a[d])) as unknown as Rgb;
}

const TABLE = layTable();

function layTable(): readonly Rgb[] {
  const path: (readonly [number, number, number])[] = [];
  const corners = POINTS.map(([l, c, h]) => [
    l,
    c * Math.cos((h * Math.PI) / 180),
    c * Math.sin((h * Math.PI) / 180),
  ]);
  for (let k = 0; k + 1 < corners.length; k++) {
    for (let step = k === 0 ? 0 : 1; step <= FINE; step++) {
      path.push(curvePoint(corners, k, step / FINE));
    }
  }
  const way = [0];
  for (let i = 1; i < path.length; i++) {
    way.push(way[i - 1] + Math.hypot(...[0, 1, 2].map((d) => path[i][d] - path[i - 1][d])));
  }
  const whole = way[way.length - 1];
  let i = 0;
  return Array.from({ length: COLOURS }, (_, n) => {
    const wanted = (whole * n) / (COLOURS - 1);
    while (i + 2 < path.length && way[i + 1] < wanted) i++;
    const rest = (wanted - way[i]) / (way[i + 1] - way[i]);
    const [l, a, b] = [0, 1, 2].map((d) => path[i][d] + rest * (path[i + 1][d] - path[i][d]));
    return labToRgb(l, a, b);
  });
}

/** Catmull-Rom curve through the corners, straight on beyond the first and the last. */
function curvePoint(
  corners: readonly (readonly number[])[],
  k: number,
  t: number,
): readonly [number, number, number] {
  const p1 = corners[k];
  const p2 = corners[k + 1];
  const p0 = corners[k - 1] ?? p1.map((v, d) => 2 * v - p2[d]);
  const p3 = corners[k + 2] ?? p2.map((v, d) => 2 * v - p1[d]);
  const at = (d: number): number =>
    0.5 *
    (2 * p1[d] +
      (p2[d] - p0[d]) * t +
      (2 * p0[d] - 5 * p1[d] + 4 * p2[d] - p3[d]) * t * t +
      (3 * p1[d] - p0[d] - 3 * p2[d] + p3[d]) * t * t * t);
  return [at(0), at(1), at(2)];
}

function labToRgb(l: number, a: number, b: number): Rgb {
  const fy = (l + 16) / 116;
  const x = 0.95047 * unfold(fy + a / 500);
  const y = unfold(fy);
  const z = 1.08883 * unfold(fy - b / 200);
  return [
    encode(3.2404542 * x - 1.5371385 * y - 0.4985314 * z),
    encode(-0.969266 * x + 1.8760108 * y + 0.041556 * z),
    encode(0.0556434 * x - 0.2040259 * y + 1.0572252 * z),
  ];
}

function unfold(f: number): number {
  return f > 6 / 29 ? f * f * f : 3 * (6 / 29) * (6 / 29) * (f - 4 / 29);
}

/** Not clipped: the path keeps inside the gamut, and a test holds it to that. */
function encode(linear: number): number {
  return linear <= 0.0031308 ? 12.92 * linear : 1.055 * linear ** (1 / 2.4) - 0.055;
}
