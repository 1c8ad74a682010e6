/** Separate closed bodies for the kernel's booleans, where a plate cannot be stitched directly. */
import { END, endOverrun, endRise } from '../design/index.ts';
import type { PlateSamples } from '../design/index.ts';
import { triangulateFace } from './face.ts';
import type { Mesh } from './mesh.ts';
import { plateRings } from './plate-rings.ts';
import { traceRings } from './rings.ts';
import type { Rings } from './rings.ts';

/** How far cutters stand out of the faces: caps only microns short would leave a blind hole [mm]. */
const OVERSHOOT_MM = 0.5;
/** What rounding leaves of nothing [mm]. */
const NOTHING_MM = 1e-9;
/** Ends flatter than this cannot be drawn out past a face. */
const STEEPEST_GRAZE = 0.05;

/** The plate without channels, mounting holes included; null when its rings cross. */
export function plateBody(samples: PlateSamples): Mesh | null {
  const { outline, holes } = plateRings(samples.plate);
  const rings = [outline, ...holes];
  const ringStart = new Int32Array(rings.length + 1);
  for (let r = 0; r < rings.length; r++) ringStart[r + 1] = ringStart[r] + rings[r].length / 2;
  const n = ringStart[rings.length];
  const points = Float64Array.from(rings.flatMap((ring) => [...ring]).map(Math.fround));
  const face = triangulateFace({ points, ringStart });
  if (face.kind === 'failure') return null;
  const vertices = new Float32Array(6 * n);
  for (let p = 0; p < n; p++) {
    vertices.set([points[2 * p], points[2 * p + 1], 0], 3 * p);
    vertices.set([points[2 * p], points[2 * p + 1], samples.plate.thickness_mm], 3 * (n + p));
  }
  const triangles: number[] = [];
  for (let t = 0; t < face.triangles.length; t += 3) {
    const [a, b, c] = face.triangles.subarray(t, t + 3);
    triangles.push(a, c, b, n + a, n + b, n + c);
  }
  for (let r = 0; r < rings.length; r++) {
    const count = ringStart[r + 1] - ringStart[r];
    for (let k = 0; k < count; k++) {
      const p = ringStart[r] + k;
      const q = ringStart[r] + ((k + 1) % count);
      const [a, b] = r === 0 ? [p, q] : [q, p];
      triangles.push(a, b, n + b, a, n + b, n + a);
    }
  }
  return { vertices, triangles: Uint32Array.from(triangles) };
}

/**
 * The air of each placed channel as a closed tube, drawn out straight past both faces, out of the
 * rim or into the plenum.
 *
 * @returns one mesh per channel, or null when an end grazes its surface.
 */
export function channelCutters(
  samples: PlateSamples,
  sides: number,
  stride: number,
): Mesh[] | null {
  const shapes: Float64Array[] = [];
  const sideCounts: number[] = [];
  for (let m = 0; m < samples.shapeCount; m++) {
    const rings = traceRings(samples, m, sides, stride);
    const points = drawOut(samples, m, rings);
    if (points === null) return null;
    shapes.push(points);
    sideCounts.push(rings.sides);
  }
  return Array.from(samples.shapeOf, (m, n) => {
    const vertices = Float32Array.from(shapes[m]);
    for (let v = 0; v < vertices.length; v += 3) {
      vertices[v] = onAxis(shapes[m][v] + samples.offset_mm[2 * n]);
      vertices[v + 1] = onAxis(shapes[m][v + 1] + samples.offset_mm[2 * n + 1]);
    }
    return { vertices, triangles: tubeTriangles(vertices.length / 3 - 2, sideCounts[m]) };
  });
}

/**
 * A coordinate that rounding left beside an axis, on it: points 1e-16 apart would let a straight wall
 * seem to cross itself.
 */
function onAxis(value_mm: number): number {
  return Math.abs(value_mm) < NOTHING_MM ? 0 : value_mm;
}

/** Rings with one more past each end, then the middles of the two caps. */
function drawOut(samples: PlateSamples, shape: number, rings: Rings): Float64Array | null {
  const { points, sides } = rings;
  const width = 3 * sides;
  const out = new Float64Array(points.length + 2 * width + 6);
  out.set(points, width);
  for (const isOutlet of [false, true]) {
    const station = isOutlet ? samples.stations - 1 : 0;
    const i = 3 * (shape * samples.stations + station);
    const [tx, ty, tz] = samples.tangent.subarray(i, i + 3);
    const end = isOutlet ? 1 : 0;
    if (endRise(samples, shape, end) < STEEPEST_GRAZE) return null;
    const isFace = (samples.sides?.kind[2 * shape + end] ?? END.face) === END.face;
    const from = isOutlet ? points.length - width : 0;
    const to = isOutlet ? out.length - width - 6 : 0;
    const face = isOutlet ? samples.plate.thickness_mm : 0;
    // The point of the ring that lies deepest inside the plate says how far to go.
    let deepest = 0;
    for (let j = from; j < from + width; j += 3) {
      const inside = isOutlet ? face - points[j + 2] : points[j + 2] - face;
      deepest = Math.max(deepest, inside);
    }
    const past = isFace
      ? (deepest + OVERSHOOT_MM) / tz
      : endOverrun(samples, shape, end, OVERSHOOT_MM);
    const reach = isOutlet ? past : -past;
    for (let j = 0; j < width; j += 3) {
      out[to + j] = points[from + j] + reach * tx;
      out[to + j + 1] = points[from + j + 1] + reach * ty;
      out[to + j + 2] = points[from + j + 2] + reach * tz;
    }
    const middle = out.length - (isOutlet ? 3 : 6);
    out[middle] = samples.point_mm[i] + reach * tx;
    out[middle + 1] = samples.point_mm[i + 1] + reach * ty;
    out[middle + 2] = samples.point_mm[i + 2] + reach * tz;
  }
  return out;
}

function tubeTriangles(ringPoints: number, sides: number): Uint32Array {
  const count = ringPoints / sides;
  const triangles: number[] = [];
  for (let j = 0; j < sides; j++) {
    const j1 = (j + 1) % sides;
    for (let k = 0; k + 1 < count; k++) {
      const a = k * sides + j;
      const b = k * sides + j1;
      triangles.push(a, b, b + sides, a, b + sides, a + sides);
    }
    const last = (count - 1) * sides;
    triangles.push(ringPoints, j1, j, ringPoints + 1, last + j, last + j1);
  }
  return Uint32Array.from(triangles);
}
