/**
 * What holds an unsupported region of a layer: bridges, closing ledges, or only support.
 *
 * A region is cut into lines along four directions (x, across, both diagonals). A line holds
 * - as a bridge, when both its ends lie on supported solid and it is no longer than the bridge
 *   limit;
 * - as a closing ledge, when one end lies on supported solid and the opening it reaches into is,
 *   from wall to wall, no wider than half the bridge limit, the wall opposite standing or closing
 *   in too. This is what lets small round bores print lying down: with a limit of 10 mm and 45
 *   degrees, bores up to 10 / 2 * sqrt 2 = 7.1 mm.
 * - as part of a hem, see `hems.ts`.
 * The region takes the direction in which the fewest pixels fail; those need support. Among equals
 * it takes the one with the fewest free-ended pixels, then the one with the shortest bridge, a ledge
 * counting as half a bridge.
 * Source: own heuristic after common practice of filament printing, no source (bridges to some
 * 10 mm; lying round bores to 6-8 mm without support).
 */
import { countOnes } from './grid.ts';
import type { Grid } from './grid.ts';
import { findExtremes, isHeldAtEnds, lengthOf } from './hems.ts';
import type { Extremes } from './hems.ts';
import { createRuns, findRuns, joinRuns } from './runs.ts';
import type { Runs } from './runs.ts';
import type { Touched } from './unsupported.ts';

/** Limits in pixels. */
export interface SpanLimits {
  readonly bridge_px: number;
  readonly closing_px: number;
  /** Failing pixels a region may have without being supported: less than a line square is no line. */
  readonly spare: number;
  /** Greatest depth of a hem. */
  readonly hem_px: number;
}

export interface BridgeMemory {
  readonly runs: Runs;
  /** Pixels of failing lines, one bitmap per direction. */
  failing: readonly Int32Array[];
  /** Per piece (its first run) and direction: failing and free-ended pixels, longest bridge [runs x 4]. */
  failed: Int32Array;
  free: Int32Array;
  /** Deepest failing line with one end held; FREE when one is held at neither end or is too long. */
  deepest: Float64Array;
  extremes: Extremes;
  /** Direction each piece takes, or CARRIED [runs]. */
  choice: Int8Array;
  longest: Float64Array;
}

export function createBridgeMemory(): BridgeMemory {
  return {
    runs: createRuns(),
    failing: [],
    failed: new Int32Array(0),
    free: new Int32Array(0),
    deepest: new Float64Array(0),
    extremes: new Int32Array(0),
    choice: new Int8Array(0),
    longest: new Float64Array(0),
  };
}

/** What a layer's unsupported pixels come to. */
export interface Spans {
  /** Longest bridge [px]. */
  bridge_px: number;
  /** Pixels in need of support. */
  support: number;
}

const ALONG = [1, 0, 1, 1] as const;
const ACROSS = [0, 1, 1, -1] as const;
const UNIT = [1, 1, Math.SQRT2, Math.SQRT2] as const;
export const DIRECTIONS = 4;
const FREE = 1e9;
const CARRIED = -1;

/**
 * Judges the unsupported pixels of one layer.
 *
 * @param unsupported bitmap of the layer, as `findUnsupported` left it.
 * @param needs receives the pixels in need of support, in the touched rows.
 * @param judge judges the lines of one direction, as `judgeLines` does.
 */
export function judgeSpans(
  grid: Grid,
  solid: Int32Array,
  layer: number,
  unsupported: Int32Array,
  touched: Touched,
  limits: SpanLimits,
  memory: BridgeMemory,
  needs: Int32Array,
  out: Spans,
  judge: (direction: number) => void = (direction) =>
    judgeLines(grid, solid, layer, unsupported, touched, limits, memory, direction),
): void {
  out.bridge_px = 0;
  out.support = 0;
  const { rows, words, layerWords } = grid;
  const { runs } = memory;
  findRuns(unsupported, 0, rows, words, runs, touched.firstRow, touched.lastRow);
  joinRuns(runs, rows, 1);
  if (memory.failing.length === 0 || memory.failing[0].length < layerWords) {
    memory.failing = Array.from({ length: DIRECTIONS }, () => new Int32Array(layerWords));
  }
  if (memory.failed.length < DIRECTIONS * runs.count) {
    memory.failed = new Int32Array(2 * DIRECTIONS * runs.count);
    memory.free = new Int32Array(2 * DIRECTIONS * runs.count);
    memory.deepest = new Float64Array(2 * DIRECTIONS * runs.count);
    memory.choice = new Int8Array(2 * runs.count);
    memory.longest = new Float64Array(2 * DIRECTIONS * runs.count);
  }
  memory.failed.fill(0, 0, DIRECTIONS * runs.count);
  memory.free.fill(0, 0, DIRECTIONS * runs.count);
  memory.deepest.fill(0, 0, DIRECTIONS * runs.count);
  memory.longest.fill(0, 0, DIRECTIONS * runs.count);
  const from = touched.firstRow * words;
  const to = (touched.lastRow + 1) * words;
  for (const bits of memory.failing) bits.fill(0, from, to);
  needs.fill(0, from, to);
  for (let d = 0; d < DIRECTIONS; d++) judge(d);
  memory.extremes = findExtremes(runs, touched.firstRow, touched.lastRow, memory.extremes);
  for (let i = 0; i < runs.count; i++) {
    if (runs.piece[i] === i) choose(grid, solid, layer, unsupported, limits, memory, i, out);
  }
  copyNeeds(runs, touched, memory, words, needs);
  for (let w = from; w < to; w++) {
    if (needs[w] !== 0) out.support += countOnes(needs[w]);
  }
}

/** Chooses a piece's direction and judges whether anything of it needs support. */
function choose(
  grid: Grid,
  solid: Int32Array,
  layer: number,
  unsupported: Int32Array,
  limits: SpanLimits,
  memory: BridgeMemory,
  piece: number,
  out: Spans,
): void {
  const { failed, free, longest, deepest, choice, extremes } = memory;
  const root = DIRECTIONS * piece;
  let best = 0;
  let shallowest = deepest[root];
  for (let d = 1; d < DIRECTIONS; d++) {
    shallowest = Math.min(shallowest, deepest[root + d]);
    const better =
      failed[root + d] - failed[root + best] ||
      free[root + d] - free[root + best] ||
      longest[root + d] - longest[root + best];
    if (better < 0) best = d;
  }
  let bridge = longest[root + best];
  choice[piece] = best;
  if (failed[root + best] <= limits.spare) choice[piece] = CARRIED;
  else {
    const length = lengthOf(extremes, piece);
    if (
      shallowest <= limits.hem_px &&
      length <= limits.bridge_px &&
      isHeldAtEnds(grid, solid, layer * grid.layerWords, unsupported, extremes, piece)
    ) {
      choice[piece] = CARRIED;
      bridge = Math.max(bridge, length);
    }
  }
  if (bridge > out.bridge_px) out.bridge_px = bridge;
}

/** Copies the failing pixels of the pieces that need support. */
function copyNeeds(
  runs: Runs,
  touched: Touched,
  memory: BridgeMemory,
  words: number,
  needs: Int32Array,
): void {
  for (let row = touched.firstRow; row <= touched.lastRow; row++) {
    for (let i = runs.rowStart[row]; i < runs.rowStart[row + 1]; i++) {
      const direction = memory.choice[runs.piece[i]];
      if (direction === CARRIED) continue;
      const bits = memory.failing[direction];
      const first = runs.from[i] >> 5;
      const last = (runs.to[i] - 1) >> 5;
      for (let w = first; w <= last; w++) {
        const head = w === first ? -1 << (runs.from[i] & 31) : -1;
        const tail = w === last ? -1 >>> (31 - ((runs.to[i] - 1) & 31)) : -1;
        needs[row * words + w] |= bits[row * words + w] & head & tail;
      }
    }
  }
}

/** Judges the lines of the unsupported pixels that run along one of the four directions. */
export function judgeLines(
  grid: Grid,
  solid: Int32Array,
  layer: number,
  unsupported: Int32Array,
  touched: Touched,
  limits: SpanLimits,
  memory: BridgeMemory,
  direction: number,
): void {
  const { words } = grid;
  const { runs, failed, free, longest, deepest } = memory;
  const bits = memory.failing[direction];
  const dx = ALONG[direction];
  const dy = ACROSS[direction];
  const unit = UNIT[direction];
  const here = layer * grid.layerWords;
  for (let row = touched.firstRow; row <= touched.lastRow; row++) {
    for (let i = runs.rowStart[row]; i < runs.rowStart[row + 1]; i++) {
      const root = DIRECTIONS * runs.piece[i] + direction;
      // Along x the run is the line; otherwise each pixel whose forerunner is not in the region
      // begins one.
      const end = direction === 0 ? runs.from[i] + 1 : runs.to[i];
      for (let x = runs.from[i]; x < end; x++) {
        if (direction !== 0 && isSet(grid, unsupported, 0, x - dx, row - dy)) continue;
        let n = 1;
        if (direction === 0) n = runs.to[i] - runs.from[i];
        else while (isSet(grid, unsupported, 0, x + n * dx, row + n * dy)) n++;
        const before = isSet(grid, solid, here, x - dx, row - dy);
        const after = isSet(grid, solid, here, x + n * dx, row + n * dy);
        let span = n * unit;
        let holds = span <= limits.bridge_px;
        if (!before || !after) {
          const way = before ? 1 : -1;
          const u = before ? x + n * dx : x - dx;
          const v = before ? row + n * dy : row - dy;
          holds =
            before !== after &&
            closes(grid, solid, layer, unsupported, limits, n, u, v, way * dx, way * dy, unit);
          span *= 2;
          if (!holds) free[root] += n;
        }
        if ((holds || before === after) && (before || after) && span > longest[root]) {
          longest[root] = span;
        }
        if (holds) continue;
        failed[root] += n;
        const depth = before === after ? FREE : n * unit;
        if (depth > deepest[root]) deepest[root] = depth;
        for (let k = 0; k < n; k++) {
          bits[(row + k * dy) * words + ((x + k * dx) >> 5)] |= 1 << ((x + k * dx) & 31);
        }
      }
    }
  }
}

/** Whether the opening before a ledge of n pixels is narrow and its far wall does not step back. */
function closes(
  grid: Grid,
  solid: Int32Array,
  layer: number,
  unsupported: Int32Array,
  limits: SpanLimits,
  n: number,
  x: number,
  y: number,
  dx: number,
  dy: number,
  unit: number,
): boolean {
  const here = layer * grid.layerWords;
  let width = n;
  let u = x;
  let v = y;
  while (width * unit <= limits.closing_px) {
    if (u < 0 || v < 0 || u >= grid.columns || v >= grid.rows) return false;
    if (isSet(grid, solid, here, u, v) && !isSet(grid, unsupported, 0, u, v)) {
      // A wall that leans away has solid below where the layer is open now.
      return !isSet(grid, solid, here - grid.layerWords, u - dx, v - dy);
    }
    width++;
    u += dx;
    v += dy;
  }
  return false;
}

function isSet(grid: Grid, bits: Int32Array, at: number, x: number, y: number): boolean {
  if (x < 0 || y < 0 || x >= grid.columns || y >= grid.rows) return false;
  return ((bits[at + y * grid.words + (x >> 5)] >>> (x & 31)) & 1) === 1;
}
