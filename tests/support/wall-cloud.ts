/**
 * Oracle for clearance: dense points on the real walls of placed channels, cut off at the faces.
 * Built from `wallRadius` at many stations; shares no code with the clearance kernel.
 */
import { cos, sin } from '../../src/numeric/index.ts';
import { sampleDesign, wallRadius } from '../../src/design/index.ts';
import type { Design, PlateSamples } from '../../src/design/index.ts';

export interface WallCloud {
  readonly samples: PlateSamples;
  readonly channel: number;
  /** x y z per point [n x 3]. */
  readonly points: Float64Array;
  /** Station of each point. */
  readonly station: Int32Array;
}

/** Clouds of all placed channels. */
export function wallClouds(design: Design, stations = 161, angles = 96): WallCloud[] {
  const samples = sampleDesign(design, stations);
  return Array.from({ length: samples.channelCount }, (_, i) => cloud(samples, i, angles));
}

function cloud(samples: PlateSamples, channel: number, angles: number): WallCloud {
  const { stations, plate, tangent } = samples;
  const shape = samples.shapeOf[channel];
  const step = samples.length_mm[shape] / (stations - 1);
  const found: number[] = [];
  const owner: number[] = [];
  for (let k = 0; k < stations; k++) {
    // A leaning port goes on straight beyond its last station until the face cuts it off.
    const extra = k === 0 || k === stations - 1 ? Math.ceil(15 / step) : 0;
    for (let a = 0; a < angles; a++) {
      const theta = (2 * Math.PI * a) / angles;
      const c = cos(theta);
      const s = sin(theta);
      const r = wallRadius(samples, shape, k, theta, c, s);
      const i = 3 * (shape * stations + k);
      for (let n = 0; n <= extra; n++) {
        const on = k === 0 ? -n * step : n * step;
        const p = [0, 1, 2].map(
          (d) =>
            samples.point_mm[i + d] +
            on * tangent[i + d] +
            r * (c * samples.first[i + d] + s * samples.second[i + d]),
        );
        if (p[2] < -1e-9 || p[2] > plate.thickness_mm + 1e-9) continue;
        found.push(
          p[0] + samples.offset_mm[2 * channel],
          p[1] + samples.offset_mm[2 * channel + 1],
          p[2],
        );
        owner.push(k);
      }
    }
  }
  return {
    samples,
    channel,
    points: Float64Array.from(found),
    station: Int32Array.from(owner),
  };
}

/** Least distance between the points of two clouds, or `limit` when none is nearer. */
export function cloudGap(a: WallCloud, b: WallCloud, limit = 4): number {
  const cells = new Map<string, number[]>();
  const key = (x: number, y: number, z: number): string =>
    `${Math.floor(x / limit)},${Math.floor(y / limit)},${Math.floor(z / limit)}`;
  for (let i = 0; i < a.points.length; i += 3) {
    const k = key(a.points[i], a.points[i + 1], a.points[i + 2]);
    const cell = cells.get(k);
    if (cell) cell.push(i);
    else cells.set(k, [i]);
  }
  let best = limit * limit;
  for (let j = 0; j < b.points.length; j += 3) {
    const [x, y, z] = [b.points[j], b.points[j + 1], b.points[j + 2]];
    for (let cx = -1; cx <= 1; cx++) {
      for (let cy = -1; cy <= 1; cy++) {
        for (let cz = -1; cz <= 1; cz++) {
          for (const i of cells.get(key(x + cx * limit, y + cy * limit, z + cz * limit)) ?? []) {
            const d =
              (a.points[i] - x) * (a.points[i] - x) +
              (a.points[i + 1] - y) * (a.points[i + 1] - y) +
              (a.points[i + 2] - z) * (a.points[i + 2] - z);
            if (d < best) best = d;
          }
        }
      }
    }
  }
  return Math.sqrt(best);
}

/** Whether any wall point of `a` lies inside channel `b` by more than `margin_mm`. */
export function cloudEnters(a: WallCloud, b: WallCloud, margin_mm = 0): boolean {
  for (let i = 0; i < a.points.length; i += 3) {
    if (isInsideChannel(b, a.points[i], a.points[i + 1], a.points[i + 2], margin_mm)) return true;
  }
  return false;
}

/** Whether a point lies inside a channel, `skip` stations around `own` left out. */
export function isInsideChannel(
  b: WallCloud,
  px: number,
  py: number,
  pz: number,
  margin_mm = 0,
  own = -1,
  skip = 0,
): boolean {
  const { samples } = b;
  const shape = samples.shapeOf[b.channel];
  const { stations, point_mm: point, tangent, first, second } = samples;
  const step = samples.length_mm[shape] / (stations - 1);
  for (let k = 0; k < stations; k++) {
    if (own >= 0 && Math.abs(k - own) <= skip) continue;
    const i = 3 * (shape * stations + k);
    const x = px - samples.offset_mm[2 * b.channel] - point[i];
    const y = py - samples.offset_mm[2 * b.channel + 1] - point[i + 1];
    const z = pz - point[i + 2];
    if (Math.abs(x * tangent[i] + y * tangent[i + 1] + z * tangent[i + 2]) > 0.6 * step) continue;
    const u = x * first[i] + y * first[i + 1] + z * first[i + 2];
    const v = x * second[i] + y * second[i + 1] + z * second[i + 2];
    const r = Math.sqrt(u * u + v * v);
    if (r < 1e-9) return true;
    if (r + margin_mm < wallRadius(samples, shape, k, Math.atan2(v, u), u / r, v / r)) return true;
  }
  return false;
}
