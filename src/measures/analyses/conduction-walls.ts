/** The walls of a plate's channels as patches that each touch one cell of the solid. */
import { ringPoint } from '../../design/index.ts';
import type { PlateSamples } from '../../design/index.ts';
import type { HeatNet } from '../../physics/index.ts';
import type { SolidCells } from '../../print/index.ts';
import type { PlateStreams } from './heat-stream.ts';

/** Stretches of wall along a channel per cell through the thickness, and strips around. */
const RINGS_PER_LAYER = 1.5;
const STRIPS = 20;
/** Steps outwards from the wall, in sides of a cell, at which its solid is looked for. */
const OUTWARDS: readonly number[] = [0.3, 0.6, 0.9, 1.2, 0, -0.4];
/**
 * Way from the wall into a cell over the cell's solid volume per wetted area: what a slab that is
 * even in temperature but for a parabola, warmed from behind, has between surface and mean.
 */
const INWARDS = 1 / 3;

/** Wall of one shape: strips between the stations that bound its rings. */
interface Wall {
  readonly rings: number;
  /** First step of each ring [rings + 1]. */
  readonly step: Int32Array;
  /** Points on the bounds and unit ways outwards there [(rings + 1) x STRIPS x 3]. */
  readonly point_mm: Float64Array;
  readonly outward: Float64Array;
  /** Share of each strip in its ring's girth [rings x STRIPS]. */
  readonly weight: Float64Array;
  readonly wetted_m2: Float64Array;
}

const point = new Float64Array(3);

function wallOf(samples: PlateSamples, shape: number, layers: number): Wall {
  const { stations, point_mm: middle, perimeter_mm, length_mm } = samples;
  const steps = stations - 1;
  const stride = Math.max(1, Math.floor(steps / (RINGS_PER_LAYER * layers)));
  const rings = Math.ceil(steps / stride);
  const wall: Wall = {
    rings,
    step: Int32Array.from({ length: rings + 1 }, (_, r) => Math.min(steps, r * stride)),
    point_mm: new Float64Array(3 * (rings + 1) * STRIPS),
    outward: new Float64Array(3 * (rings + 1) * STRIPS),
    weight: new Float64Array(rings * STRIPS),
    wetted_m2: new Float64Array(rings),
  };
  const step_mm = length_mm[shape] / steps;
  for (let r = 0; r <= rings; r++) {
    const row = 3 * (shape * stations + wall.step[r]);
    for (let a = 0; a < STRIPS; a++) {
      const out = 3 * (r * STRIPS + a);
      ringPoint(samples, shape, wall.step[r], (2 * Math.PI * (a + 0.5)) / STRIPS, point, 0);
      let square = 0;
      for (let d = 0; d < 3; d++) {
        wall.point_mm[out + d] = point[d];
        wall.outward[out + d] = point[d] - middle[row + d];
        square += wall.outward[out + d] * wall.outward[out + d];
      }
      for (let d = 0; d < 3; d++) wall.outward[out + d] /= Math.sqrt(square);
    }
  }
  for (let r = 0; r < rings; r++) {
    for (let j = wall.step[r]; j < wall.step[r + 1]; j++) {
      const row = shape * stations + j;
      wall.wetted_m2[r] += 0.5e-6 * step_mm * (perimeter_mm[row] + perimeter_mm[row + 1]);
    }
    weighStrips(wall, r);
  }
  return wall;
}

/** Shares of a ring's strips: half of the gaps to both neighbours, at both bounds. */
function weighStrips(wall: Wall, ring: number): void {
  const { point_mm: at, weight } = wall;
  let all = 0;
  for (let a = 0; a < STRIPS; a++) {
    const b = (a + 1) % STRIPS;
    for (const bound of [ring, ring + 1]) {
      let square = 0;
      for (let d = 0; d < 3; d++) {
        const gap = at[3 * (bound * STRIPS + a) + d] - at[3 * (bound * STRIPS + b) + d];
        square += gap * gap;
      }
      const gap = Math.sqrt(square);
      weight[ring * STRIPS + a] += gap;
      weight[ring * STRIPS + b] += gap;
      all += 2 * gap;
    }
  }
  for (let a = 0; a < STRIPS; a++) weight[ring * STRIPS + a] /= all;
}

/** Cell whose solid lies behind a strip, `share` of the way between its bounds; -1 for none. */
function behind(
  cells: SolidCells,
  index: Int32Array,
  wall: Wall,
  strip: number,
  share: number,
  x: number,
  y: number,
): number {
  const { nx, ny, nz, side_mm: side } = cells;
  const { point_mm: at, outward } = wall;
  const a = 3 * strip;
  const b = a + 3 * STRIPS;
  const rest = 1 - share;
  for (const far of OUTWARDS) {
    const way = far * side;
    const px = rest * (at[a] + way * outward[a]) + share * (at[b] + way * outward[b]);
    const i = Math.floor((x + px - cells.x0_mm) / side);
    const py =
      rest * (at[a + 1] + way * outward[a + 1]) + share * (at[b + 1] + way * outward[b + 1]);
    const j = Math.floor((y + py - cells.y0_mm) / side);
    if (i < 0 || j < 0 || i >= nx || j >= ny) continue;
    const z = rest * at[a + 2] + share * at[b + 2];
    const k = Math.min(nz - 1, Math.max(0, Math.floor(z / cells.height_mm)));
    const found = index[(k * ny + j) * nx + i];
    if (found >= 0) return found;
  }
  return -1;
}

/** Patches in the making. */
interface Patches {
  count: number;
  /** First patch of the ring in the making, and the patch that each cell was given last. */
  ring: number;
  readonly ofCell: Int32Array;
  cell: Int32Array;
  share: Float64Array;
}

/** Cuts a strip where it passes from layer to layer and gives each piece to the cell behind it. */
function cutStrip(
  patches: Patches,
  cells: SolidCells,
  index: Int32Array,
  wall: Wall,
  ring: number,
  a: number,
  x: number,
  y: number,
): void {
  const strip = ring * STRIPS + a;
  const weight = wall.weight[strip];
  const z0 = wall.point_mm[3 * strip + 2] / cells.height_mm;
  const z1 = wall.point_mm[3 * (strip + STRIPS) + 2] / cells.height_mm;
  const low = Math.min(z0, z1);
  const high = Math.max(z0, z1);
  const last = Math.floor(high);
  for (let k = Math.floor(low); k <= last; k++) {
    const from = Math.max(low, k);
    const to = Math.min(high, k + 1);
    const share = high > low ? (to - from) / (high - low) : 1;
    if (!(share > 0)) continue;
    const along = high > low ? (0.5 * (from + to) - z0) / (z1 - z0) : 0.5;
    const cell = behind(cells, index, wall, strip, along, x, y);
    if (cell < 0) continue;
    // Neighbouring strips mostly lie before one cell: a half to two thirds of the patches go.
    const known = patches.ofCell[cell];
    if (known >= patches.ring) {
      patches.share[known] += weight * share;
      continue;
    }
    if (patches.count === patches.cell.length) grow(patches);
    patches.ofCell[cell] = patches.count;
    patches.cell[patches.count] = cell;
    patches.share[patches.count++] = weight * share;
  }
}

function grow(patches: Patches): void {
  const cell = new Int32Array(2 * patches.cell.length);
  cell.set(patches.cell);
  patches.cell = cell;
  const share = new Float64Array(2 * patches.share.length);
  share.set(patches.share);
  patches.share = share;
}

/** Channels in the order in which their air flows: those that mix before those that share. */
function inOrder(samples: PlateSamples, streams: PlateStreams): Int32Array {
  const { channelCount, shapeOf } = samples;
  return Int32Array.from({ length: channelCount }, (_, c) => c).toSorted(
    (a, b) => streams.way[shapeOf[a]] - streams.way[shapeOf[b]] || a - b,
  );
}

/**
 * Streams, rings and patches of all channels.
 *
 * The way from a cell's middle to its wall is in series with the wall's own transfer.
 *
 * @param volume_m3 solid of each cell.
 */
export function layWalls(
  samples: PlateSamples,
  streams: PlateStreams,
  cells: SolidCells,
  index: Int32Array,
  volume_m3: Float64Array,
  k: number,
): Omit<HeatNet, 'count' | 'next' | 'toNext_W_per_K' | 'toFace_W_per_K'> {
  const { channelCount, shapeCount, shapeOf, offset_mm: offset, stations } = samples;
  const channels = inOrder(samples, streams);
  const walls = Array.from({ length: shapeCount }, (_, m) => wallOf(samples, m, cells.nz));
  const rings = shapeCount === 0 ? 0 : walls[0].rings;
  const room = 2 * channelCount * rings * STRIPS;
  const patches: Patches = {
    count: 0,
    ring: 0,
    ofCell: new Int32Array(volume_m3.length).fill(-1),
    cell: new Int32Array(room),
    share: new Float64Array(room),
  };
  const wetted_m2 = new Float64Array(volume_m3.length);
  const ringStart = new Int32Array(channelCount * rings + 1);
  for (let s = 0; s < channelCount; s++) {
    const channel = channels[s];
    const wall = walls[shapeOf[channel]];
    for (let r = 0; r < rings; r++) {
      const first = patches.count;
      patches.ring = first;
      for (let a = 0; a < STRIPS; a++) {
        cutStrip(patches, cells, index, wall, r, a, offset[2 * channel], offset[2 * channel + 1]);
      }
      // Wall without solid behind it hands its share to the rest of the ring.
      let met = 0;
      for (let p = first; p < patches.count; p++) met += patches.share[p];
      for (let p = first; p < patches.count; p++) {
        patches.share[p] /= met;
        wetted_m2[patches.cell[p]] += patches.share[p] * wall.wetted_m2[r];
      }
      ringStart[s * rings + r + 1] = patches.count;
    }
  }
  const patch_W_per_K = patches.share.subarray(0, patches.count);
  const capacity_W_per_K = new Float64Array(channelCount);
  const way = new Int8Array(channelCount);
  for (let s = 0; s < channelCount; s++) {
    const m = shapeOf[channels[s]];
    way[s] = streams.way[m];
    const wall = walls[m];
    capacity_W_per_K[s] = streams.capacity_W_per_K[m];
    for (let r = 0; r < rings; r++) {
      let units = 0;
      for (let j = wall.step[r]; j < wall.step[r + 1]; j++) {
        units += streams.units[m * (stations - 1) + j];
      }
      const ring_W_per_K = units * capacity_W_per_K[s];
      for (let p = ringStart[s * rings + r]; p < ringStart[s * rings + r + 1]; p++) {
        const share = patch_W_per_K[p];
        const cell = patches.cell[p];
        const inwards_m = (INWARDS * volume_m3[cell]) / wetted_m2[cell];
        const solid_K_per_W = inwards_m / (k * share * wall.wetted_m2[r]);
        patch_W_per_K[p] = 1 / (1 / (share * ring_W_per_K) + solid_K_per_W);
      }
    }
  }
  return {
    streams: channelCount,
    streamStart: Int32Array.from({ length: channelCount + 1 }, (_, s) => s * rings),
    capacity_W_per_K,
    way,
    ringStart,
    patchCell: patches.cell.subarray(0, patches.count),
    patch_W_per_K,
  };
}
