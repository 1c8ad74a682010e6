/** Which channel, station and pocket a point of a wall belongs to. */
import { pocketDepth, wallRadius } from '../design/index.ts';
import type { PlateSamples } from '../design/index.ts';
import { atan2 } from '../numeric/index.ts';

/** Place on a wall, overwritten by each search. */
export interface WallPlace {
  /** Placed channel, or -1 when the point lies on no channel's wall. */
  channel: number;
  shape: number;
  station: number;
  /** Pocket of the shape whose bulge the wall is there, or -1. */
  pocket: number;
}

export interface WallFinder {
  find(x: number, y: number, z: number, place: WallPlace): void;
}

/** A point farther from a wall than this share of the bore lies on another surface. */
const STRAY_SHARE = 0.2;
/** Wall bulged by less than this is bare wall still [mm]. */
const LEAST_BULGE_MM = 0.05;

/** Grid cells of about one channel, each with the channels whose boxes reach into it. */
interface Cells {
  readonly x0: number;
  readonly y0: number;
  readonly size: number;
  readonly columns: number;
  readonly rows: number;
  readonly lists: readonly (readonly number[])[];
}

export function createWallFinder(samples: PlateSamples): WallFinder {
  const boxes = boxesOf(samples);
  const cells = layCells(samples, boxes);
  return {
    find(x, y, z, place) {
      place.channel = -1;
      const column = Math.floor((x - cells.x0) / cells.size);
      const row = Math.floor((y - cells.y0) / cells.size);
      if (column < 0 || row < 0 || column >= cells.columns || row >= cells.rows) return;
      let best = Infinity;
      for (const n of cells.lists[row * cells.columns + column]) {
        if (z < boxes[6 * n + 2] || z > boxes[6 * n + 5]) continue;
        const stray = strayFrom(samples, n, x, y, z);
        if (stray >= best) continue;
        best = stray;
        place.channel = n;
        place.shape = samples.shapeOf[n];
        place.station = near.station;
        place.pocket = near.pocket;
      }
    },
  };
}

const near = { station: 0, pocket: -1 };

/** Distance of a point from a channel's wall at its nearest station; Infinity when it is far off. */
function strayFrom(samples: PlateSamples, n: number, px: number, py: number, pz: number): number {
  const { stations, point_mm, first, second } = samples;
  const shape = samples.shapeOf[n];
  const x = px - samples.offset_mm[2 * n];
  const y = py - samples.offset_mm[2 * n + 1];
  let nearest = Infinity;
  let station = 0;
  for (let k = 0; k < stations; k++) {
    const i = 3 * (shape * stations + k);
    const [dx, dy, dz] = [x - point_mm[i], y - point_mm[i + 1], pz - point_mm[i + 2]];
    const square = dx * dx + dy * dy + dz * dz;
    if (square >= nearest) continue;
    nearest = square;
    station = k;
  }
  const row = shape * stations + station;
  const i = 3 * row;
  const [dx, dy, dz] = [x - point_mm[i], y - point_mm[i + 1], pz - point_mm[i + 2]];
  const along = dx * first[i] + dy * first[i + 1] + dz * first[i + 2];
  const across = dx * second[i] + dy * second[i + 1] + dz * second[i + 2];
  const theta = atan2(across, along);
  const radius = Math.sqrt(along * along + across * across);
  const stray = Math.abs(radius - wallRadius(samples, shape, station, theta));
  if (stray > STRAY_SHARE * samples.bore_mm[row] + LEAST_BULGE_MM) return Infinity;
  near.station = station;
  near.pocket = pocketAt(samples, shape, station, theta);
  return stray;
}

function pocketAt(samples: PlateSamples, shape: number, station: number, theta: number): number {
  const length_mm = samples.length_mm[shape];
  const arc_mm = (length_mm * station) / (samples.stations - 1);
  let deepest = LEAST_BULGE_MM;
  let found = -1;
  for (const [p, pocket] of samples.pockets[shape].entries()) {
    const depth = pocketDepth(pocket, arc_mm, length_mm, theta);
    if (depth <= deepest) continue;
    deepest = depth;
    found = p;
  }
  return found;
}

/** Low x y z, high x y z around each placed channel, walls included [N x 6] [mm]. */
function boxesOf(samples: PlateSamples): Float64Array {
  const { stations, point_mm, reach_mm, shapeOf, offset_mm } = samples;
  const boxes = new Float64Array(6 * shapeOf.length);
  for (let n = 0; n < shapeOf.length; n++) {
    boxes.fill(Infinity, 6 * n, 6 * n + 3);
    boxes.fill(-Infinity, 6 * n + 3, 6 * n + 6);
    for (let k = 0; k < stations; k++) {
      const row = shapeOf[n] * stations + k;
      for (let d = 0; d < 3; d++) {
        const at = point_mm[3 * row + d] + (d < 2 ? offset_mm[2 * n + d] : 0);
        boxes[6 * n + d] = Math.min(boxes[6 * n + d], at - reach_mm[row]);
        boxes[6 * n + 3 + d] = Math.max(boxes[6 * n + 3 + d], at + reach_mm[row]);
      }
    }
  }
  return boxes;
}

function layCells(samples: PlateSamples, boxes: Float64Array): Cells {
  const count = samples.channelCount;
  const low = [Infinity, Infinity];
  const high = [-Infinity, -Infinity];
  for (let n = 0; n < count; n++) {
    for (let d = 0; d < 2; d++) {
      low[d] = Math.min(low[d], boxes[6 * n + d]);
      high[d] = Math.max(high[d], boxes[6 * n + 3 + d]);
    }
  }
  const width = Math.max(0, high[0] - low[0]);
  const depth = Math.max(0, high[1] - low[1]);
  const size = Math.max(1, Math.sqrt((width * depth) / Math.max(1, count)) / 2);
  const columns = Math.floor(width / size) + 1;
  const rows = Math.floor(depth / size) + 1;
  const lists: number[][] = Array.from({ length: columns * rows }, () => []);
  for (let n = 0; n < count; n++) {
    const [x0, y0, , x1, y1] = boxes.subarray(6 * n, 6 * n + 6);
    for (let r = Math.floor((y0 - low[1]) / size); r <= (y1 - low[1]) / size; r++) {
      for (let c = Math.floor((x0 - low[0]) / size); c <= (x1 - low[0]) / size; c++) {
        lists[r * columns + c].push(n);
      }
    }
  }
  return { x0: low[0], y0: low[1], size, columns, rows, lists };
}
