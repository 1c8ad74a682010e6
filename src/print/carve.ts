/**
 * Cutting a tube's wall by the layer planes and clearing what lies inside it from the bitmaps.
 *
 * A plane that passes between two rings cuts each quad in one segment; any other quad is taken as
 * two triangles. A row cuts a segment in a crossing with a sign. Between sorted crossings of one row the winding number says what is void,
 * so a tube that folds over itself stays void, and clearing (not toggling) lets tubes overlap.
 */
import type { Grid } from './grid.ts';
import { addSegment, clearBetween, reserveCarving, startLayer } from './crossings.ts';
import type { CarveMemory } from './crossings.ts';
import type { Rings } from './rings.ts';

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
  reserveCarving(memory, grid, rings.rings * points, rings.rings);
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
  if (isUpright(memory, rings.rings, points)) {
    cutUpright(grid, rings.rings, points, from, to, solid, memory);
    return;
  }
  if (to < from) return;
  listQuads(bands, points, from, to, memory);
  const { quad, quadsFrom } = memory;
  for (let layer = from; layer <= to; layer++) {
    startLayer(grid);
    const end = quadsFrom[layer - from + 1];
    for (let k = quadsFrom[layer - from]; k < end; k++) {
      cutQuad(grid, quad[k], points, layer, memory);
    }
    clearBetween(grid, layer, solid, memory);
  }
}

/**
 * Lists the quads that each layer cuts, in their order along and around the wall. A lying tube has
 * few of them in each layer: a plate on edge takes 68 ms of CPU instead of the 88 of going through all
 * quads of every band that a layer meets (experiments/bench/raster, busy cores).
 *
 * Quad j of a band lies between the lengthwise lines j - 1 and j, the first one beside the last line.
 */
function listQuads(
  bands: number,
  points: number,
  from: number,
  to: number,
  memory: CarveMemory,
): void {
  const { a } = memory;
  const layers = to - from + 1;
  if (memory.quadsFrom.length < layers + 1) memory.quadsFrom = new Int32Array(layers + 1);
  if (memory.first.length < bands * points) {
    memory.first = new Int32Array(bands * points);
    memory.last = new Int32Array(bands * points);
  }
  const { quadsFrom, first, last } = memory;
  quadsFrom.fill(0, 0, layers + 1);
  let cuts = 0;
  for (let s = 0; s < bands; s++) {
    let p = (s + 1) * points - 1;
    for (let j = 0; j < points; j++) {
      const q = s * points + j;
      const leftLow = Math.min(a[p], a[p + points]);
      const leftHigh = Math.max(a[p], a[p + points]);
      const rightLow = Math.min(a[q], a[q + points]);
      const rightHigh = Math.max(a[q], a[q + points]);
      // Cut where a corner lies above the layer and another does not.
      const bottom = Math.max(from, Math.ceil(Math.min(leftLow, rightLow)));
      const top = Math.min(to, Math.ceil(Math.max(leftHigh, rightHigh)) - 1);
      first[q] = bottom;
      last[q] = top;
      for (let layer = bottom; layer <= top; layer++) quadsFrom[layer - from]++;
      cuts += Math.max(0, top - bottom + 1);
      p = q;
    }
  }
  if (memory.quad.length < cuts) memory.quad = new Int32Array(2 * cuts);
  const { quad } = memory;
  // From the last quad back, so that each layer's places fill from their end.
  for (let k = 1; k <= layers; k++) quadsFrom[k] += quadsFrom[k - 1];
  for (let q = bands * points - 1; q >= 0; q--) {
    for (let layer = first[q]; layer <= last[q]; layer++) quad[--quadsFrom[layer - from]] = q;
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

/** Whether every lengthwise line of the wall climbs all the way. */
function isUpright(memory: CarveMemory, rings: number, points: number): boolean {
  const { a } = memory;
  for (let n = points; n < rings * points; n++) if (a[n] <= a[n - points]) return false;
  return true;
}

/** Whether the lengthwise lines of an upright wall stand plumb, each on one point of every layer. */
function isPlumb(memory: CarveMemory, rings: number, points: number): boolean {
  const { u, v } = memory;
  for (let n = points; n < rings * points; n++) {
    if (u[n] !== u[n - points] || v[n] !== v[n - points]) return false;
  }
  return true;
}

/**
 * Cuts an upright tube: every layer meets every lengthwise line once, so the cut is one polygon with
 * as many corners as a ring. A bend leans its rings over several layers, where going band by band
 * would look at each quad several times: a raster of 121 bent channels takes 37 ms of CPU instead of
 * 42 (experiments/bench/raster, two busy cores).
 */
function cutUpright(
  grid: Grid,
  rings: number,
  points: number,
  from: number,
  to: number,
  solid: Int32Array,
  memory: CarveMemory,
): void {
  const { u, v, a, place } = memory;
  const last = (rings - 1) * points;
  const same = isPlumb(memory, rings, points);
  for (let j = 0; j < points; j++) place[j] = j;
  for (let layer = from; layer <= to; layer++) {
    startLayer(grid);
    let u0 = 0;
    let v0 = 0;
    let u1 = 0;
    let v1 = 0;
    for (let j = 0; j < points; j++) {
      let n = place[j];
      while (n + points < last && a[n + points] <= layer) n += points;
      place[j] = n;
      const m = n + points;
      const t = (layer - a[n]) / (a[m] - a[n]);
      const u2 = u[n] + t * (u[m] - u[n]);
      const v2 = v[n] + t * (v[m] - v[n]);
      if (j === 0) {
        u0 = u2;
        v0 = v2;
      } else addSegment(grid, u1, v1, u2, v2, memory);
      u1 = u2;
      v1 = v2;
    }
    addSegment(grid, u1, v1, u0, v0, memory);
    clearBetween(grid, layer, solid, memory, same ? to : layer);
    if (same) return;
  }
}

/** Cuts a quad that the plane divides; `q` is its corner on the lower ring and its own line. */
function cutQuad(grid: Grid, q: number, points: number, layer: number, memory: CarveMemory): void {
  const { u, v, a } = memory;
  const p = q % points === 0 ? q + points - 1 : q - 1;
  const r = p + points;
  const s = q + points;
  const pUp = a[p] > layer;
  const qUp = a[q] > layer;
  const rUp = a[r] > layer;
  const sUp = a[s] > layer;
  if (pUp === qUp && rUp === sUp) {
    // The plane passes between the two rings: one segment, the diagonal is of no interest.
    const p0 = sUp ? p : r;
    const p1 = sUp ? r : p;
    const q0 = sUp ? q : s;
    const q1 = sUp ? s : q;
    const t1 = (layer - a[p0]) / (a[p1] - a[p0]);
    const t2 = (layer - a[q0]) / (a[q1] - a[q0]);
    const u1 = u[p0] + t1 * (u[p1] - u[p0]);
    const v1 = v[p0] + t1 * (v[p1] - v[p0]);
    const u2 = u[q0] + t2 * (u[q1] - u[q0]);
    const v2 = v[q0] + t2 * (v[q1] - v[q0]);
    if (sUp) addSegment(grid, u1, v1, u2, v2, memory);
    else addSegment(grid, u2, v2, u1, v1, memory);
    return;
  }
  if (pUp !== qUp || pUp !== rUp) cutTriangle(grid, p, q, r, layer, memory);
  if (qUp !== sUp || qUp !== rUp) cutTriangle(grid, q, s, r, layer, memory);
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
