/**
 * Cutting a tube's wall by the layer planes and clearing what lies inside it from the bitmaps.
 *
 * A plane that passes between two rings cuts each quad in one segment; any other quad is taken as
 * two triangles. A row cuts a segment in a crossing with a sign. Between sorted crossings of one row the winding number says what is void,
 * so a tube that folds over itself stays void, and clearing (not toggling) lets tubes overlap.
 */
import type { Grid } from './grid.ts';
import { clearBits } from './grid.ts';
import type { Rings } from './rings.ts';

/** Working memory of `carveTube`. */
export interface CarveMemory {
  /** Wall in grid coordinates: along the row, across the rows, up. */
  u: Float64Array;
  v: Float64Array;
  a: Float64Array;
  low: Float64Array;
  high: Float64Array;
  /** Crossings of each row, `room` at most, with their signs. */
  crossing: Float64Array;
  sign: Int8Array;
  count: Int32Array;
  room: number;
}

export function createCarveMemory(): CarveMemory {
  return {
    u: new Float64Array(0),
    v: new Float64Array(0),
    a: new Float64Array(0),
    low: new Float64Array(0),
    high: new Float64Array(0),
    crossing: new Float64Array(0),
    sign: new Int8Array(0),
    count: new Int32Array(0),
    room: 0,
  };
}

function reserve(memory: CarveMemory, grid: Grid, vertices: number, rings: number): void {
  if (memory.u.length < vertices) {
    memory.u = new Float64Array(vertices);
    memory.v = new Float64Array(vertices);
    memory.a = new Float64Array(vertices);
  }
  if (memory.low.length < rings) {
    memory.low = new Float64Array(rings);
    memory.high = new Float64Array(rings);
  }
  // A row meets each band of the wall in at most a few places, each triangle at most once.
  const room = 4 * rings + 8;
  if (memory.count.length < grid.rows || memory.room < room) {
    memory.room = Math.max(room, memory.room);
    memory.count = new Int32Array(grid.rows);
    memory.crossing = new Float64Array(grid.rows * memory.room);
    memory.sign = new Int8Array(grid.rows * memory.room);
  }
}

// Rows touched by the layer at hand.
let firstRow = 0;
let lastRow = -1;

/**
 * Clears one placed tube from all layers.
 *
 * @param solid bitmaps of all layers.
 * @param x_mm @param y_mm translation of the placement.
 */
export function carveTube(
  grid: Grid,
  rings: Rings,
  x_mm: number,
  y_mm: number,
  solid: Int32Array,
  memory: CarveMemory,
): void {
  const { points } = rings;
  reserve(memory, grid, rings.rings * points, rings.rings);
  toGrid(grid, rings, x_mm, y_mm, memory);
  const { low, high } = memory;
  const bands = rings.rings - 1;
  let bottom = Infinity;
  let top = -Infinity;
  for (let s = 0; s <= bands; s++) {
    bottom = Math.min(bottom, low[s]);
    top = Math.max(top, high[s]);
  }
  const from = Math.max(0, Math.ceil(bottom));
  const to = Math.min(grid.layers - 1, Math.floor(top));
  for (let layer = from; layer <= to; layer++) {
    firstRow = grid.rows;
    lastRow = -1;
    for (let s = 0; s < bands; s++) {
      const under = Math.min(low[s], low[s + 1]);
      const over = Math.max(high[s], high[s + 1]);
      if (under <= layer && over >= layer) cutBand(grid, s * points, points, layer, memory);
    }
    clearBetween(grid, layer, solid, memory);
  }
}

function toGrid(grid: Grid, rings: Rings, x_mm: number, y_mm: number, memory: CarveMemory): void {
  const { edge, pixel_mm, layer_mm, u0_mm, v0_mm, a0_mm } = grid;
  const { u, v, a, low, high } = memory;
  const { points, wall_mm: wall } = rings;
  const perPixel = 1 / pixel_mm;
  const perLayer = 1 / layer_mm;
  for (let s = 0; s < rings.rings; s++) {
    let least = Infinity;
    let most = -Infinity;
    for (let n = s * points; n < (s + 1) * points; n++) {
      const y = wall[3 * n + 1] + y_mm;
      const z = wall[3 * n + 2];
      const up = ((edge ? y : z) - a0_mm) * perLayer;
      u[n] = (wall[3 * n] + x_mm - u0_mm) * perPixel;
      v[n] = ((edge ? z : y) - v0_mm) * perPixel;
      a[n] = up;
      if (up < least) least = up;
      if (up > most) most = up;
    }
    low[s] = least;
    high[s] = most;
  }
}

/** Cuts the band of quads between two rings. */
function cutBand(grid: Grid, at: number, points: number, layer: number, memory: CarveMemory): void {
  const { u, v, a } = memory;
  let q = at + points - 1;
  let s = q + points;
  let qUp = a[q] > layer;
  let sUp = a[s] > layer;
  // Where the plane cuts the lengthwise edge shared with the next quad.
  let u2 = 0;
  let v2 = 0;
  if (qUp !== sUp) {
    const t = sUp ? (layer - a[q]) / (a[s] - a[q]) : (layer - a[s]) / (a[q] - a[s]);
    u2 = sUp ? u[q] + t * (u[s] - u[q]) : u[s] + t * (u[q] - u[s]);
    v2 = sUp ? v[q] + t * (v[s] - v[q]) : v[s] + t * (v[q] - v[s]);
  }
  for (let j = 0; j < points; j++) {
    const p = q;
    const r = s;
    const pUp = qUp;
    const rUp = sUp;
    const u1 = u2;
    const v1 = v2;
    q = at + j;
    s = q + points;
    qUp = a[q] > layer;
    sUp = a[s] > layer;
    if (qUp !== sUp) {
      const t = sUp ? (layer - a[q]) / (a[s] - a[q]) : (layer - a[s]) / (a[q] - a[s]);
      u2 = sUp ? u[q] + t * (u[s] - u[q]) : u[s] + t * (u[q] - u[s]);
      v2 = sUp ? v[q] + t * (v[s] - v[q]) : v[s] + t * (v[q] - v[s]);
      if (pUp === qUp && rUp === sUp) {
        // The plane passes between the two rings: one segment, the diagonal is of no interest.
        if (sUp) addSegment(grid, u1, v1, u2, v2, memory);
        else addSegment(grid, u2, v2, u1, v1, memory);
        continue;
      }
    } else if (pUp === qUp && rUp === sUp) continue;
    if (pUp !== qUp || pUp !== rUp) cutTriangle(grid, p, q, r, layer, memory);
    if (qUp !== sUp || qUp !== rUp) cutTriangle(grid, q, s, r, layer, memory);
  }
}

/** Cuts a triangle that the plane divides. */
function cutTriangle(
  grid: Grid,
  p: number,
  q: number,
  r: number,
  layer: number,
  memory: CarveMemory,
): void {
  const { a } = memory;
  const pUp = a[p] > layer;
  const qUp = a[q] > layer;
  const rUp = a[r] > layer;
  // The odd corner goes first.
  if (qUp === rUp) cutCorner(grid, p, q, r, pUp, layer, memory);
  else if (pUp === rUp) cutCorner(grid, q, r, p, qUp, layer, memory);
  else cutCorner(grid, r, p, q, rUp, layer, memory);
}

function cutCorner(
  grid: Grid,
  odd: number,
  next: number,
  last: number,
  oddUp: boolean,
  layer: number,
  memory: CarveMemory,
): void {
  const { u, v, a } = memory;
  // Both triangles at an edge must find the very same point: always go from below to above.
  if (oddUp) {
    const t1 = (layer - a[next]) / (a[odd] - a[next]);
    const t2 = (layer - a[last]) / (a[odd] - a[last]);
    addSegment(
      grid,
      u[next] + t1 * (u[odd] - u[next]),
      v[next] + t1 * (v[odd] - v[next]),
      u[last] + t2 * (u[odd] - u[last]),
      v[last] + t2 * (v[odd] - v[last]),
      memory,
    );
  } else {
    const t1 = (layer - a[odd]) / (a[last] - a[odd]);
    const t2 = (layer - a[odd]) / (a[next] - a[odd]);
    addSegment(
      grid,
      u[odd] + t1 * (u[last] - u[odd]),
      v[odd] + t1 * (v[last] - v[odd]),
      u[odd] + t2 * (u[next] - u[odd]),
      v[odd] + t2 * (v[next] - v[odd]),
      memory,
    );
  }
}

/** Notes where a directed segment crosses the rows. */
function addSegment(
  grid: Grid,
  u1: number,
  v1: number,
  u2: number,
  v2: number,
  memory: CarveMemory,
): void {
  const row1 = Math.ceil(v1);
  const row2 = Math.ceil(v2);
  if (row1 === row2) return;
  const rising = row2 > row1;
  const from = Math.max(0, rising ? row1 : row2);
  const to = Math.min(grid.rows, rising ? row2 : row1);
  if (from >= to) return;
  const slope = (u2 - u1) / (v2 - v1);
  const { crossing, sign, count, room } = memory;
  if (from < firstRow) firstRow = from;
  if (to - 1 > lastRow) lastRow = to - 1;
  for (let row = from; row < to; row++) {
    const n = count[row];
    if (n === room) throw new Error(`More than ${room} wall crossings in one row.`);
    crossing[row * room + n] = u1 + (row - v1) * slope;
    sign[row * room + n] = rising ? 1 : -1;
    count[row] = n + 1;
  }
}

/** Sorts each touched row's crossings and clears where the winding number is not zero. */
function clearBetween(grid: Grid, layer: number, solid: Int32Array, memory: CarveMemory): void {
  const { crossing, sign, count, room } = memory;
  const { words, columns } = grid;
  const base = layer * grid.layerWords;
  for (let row = firstRow; row <= lastRow; row++) {
    const n = count[row];
    if (n === 0) continue;
    count[row] = 0;
    const at = row * room;
    if (n > 2 || (n === 2 && crossing[at] > crossing[at + 1])) sortRow(crossing, sign, at, n);
    let winding = 0;
    let from = 0;
    for (let c = at; c < at + n; c++) {
      if (winding === 0) from = crossing[c];
      winding += sign[c];
      if (winding !== 0) continue;
      const left = Math.max(0, Math.ceil(from));
      const right = Math.min(columns, Math.ceil(crossing[c]));
      clearBits(solid, base + row * words, left, right);
    }
  }
}

function sortRow(crossing: Float64Array, sign: Int8Array, at: number, n: number): void {
  for (let c = at + 1; c < at + n; c++) {
    const value = crossing[c];
    const mark = sign[c];
    let d = c - 1;
    for (; d >= at && crossing[d] > value; d--) {
      crossing[d + 1] = crossing[d];
      sign[d + 1] = sign[d];
    }
    crossing[d + 1] = value;
    sign[d + 1] = mark;
  }
}
