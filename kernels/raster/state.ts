/** What the raster's kernel works on: the grid and where its arrays lie. Addresses are in bytes. */

export let edge: bool = false;
export let columns: i32 = 0;
export let rows: i32 = 0;
export let layers: i32 = 0;
export let words: i32 = 0;
export let layerWords: i32 = 0;
export let pixel_mm: f64 = 0;
export let layer_mm: f64 = 0;
export let perPixel: f64 = 0;
export let perLayer: f64 = 0;
export let u0_mm: f64 = 0;
export let v0_mm: f64 = 0;
export let a0_mm: f64 = 0;

/** Vertices and rings of the largest wall, quads a tube's layers may cut, crossings of a row. */
export let mostVertices: i32 = 0;
export let mostRings: i32 = 0;
export let mostQuads: i32 = 0;
export let room: i32 = 0;

/** Wall as written [vertices x 3], and on the grid. */
export let WALL: usize = 0;
export let U: usize = 0;
export let V: usize = 0;
export let A: usize = 0;
export let LOW: usize = 0;
export let HIGH: usize = 0;
export let PLACE: usize = 0;
export let FIRST: usize = 0;
export let LAST: usize = 0;
export let QUADS_FROM: usize = 0;
export let QUAD: usize = 0;
/** Crossings of each row, with their signs. */
export let COUNT: usize = 0;
export let CROSSING: usize = 0;
export let SIGN: usize = 0;
/** Runs of a layer, see `src/print/runs.ts`. */
export let FROM: usize = 0;
export let TO: usize = 0;
export let PIECE: usize = 0;
export let SIZE: usize = 0;
export let ROW_START: usize = 0;
/** Solid pixels of each row of all layers, and of each column as differences. */
export let ROW_SUM: usize = 0;
export let COLUMN_SUM: usize = 0;
/** Half widths of the covering discs. */
export let ONE: usize = 0;
export let TWO: usize = 0;
export let UNSUPPORTED: usize = 0;
/** Directions of the cuts along rows, and their combs. */
export let CUTS: usize = 0;
export let COMB: usize = 0;
/** Runs of the unsupported pixels, and what is known of their pieces and lines, see `bridges.ts`. */
export let LOOSE_FROM: usize = 0;
export let LOOSE_TO: usize = 0;
export let LOOSE_PIECE: usize = 0;
export let LOOSE_START: usize = 0;
export let FAILED: usize = 0;
export let FREE_ENDED: usize = 0;
export let DEEPEST: usize = 0;
export let LONGEST: usize = 0;
export let FAILING: usize = 0;
export let SOLID: usize = 0;

let end: usize = 0;

function take(bytes: usize): usize {
  const at = end;
  end += (bytes + 15) & ~15;
  return at;
}

/** Lays out the memory for a grid; returns the bytes it needs. */
export function lay(
  isEdge: i32,
  columnCount: i32,
  rowCount: i32,
  layerCount: i32,
  vertices: i32,
  rings: i32,
  discs: i32,
  loose: i32,
  combs: i32,
): usize {
  edge = isEdge !== 0;
  columns = columnCount;
  rows = rowCount;
  layers = layerCount;
  words = (columns + 31) >> 5;
  layerWords = words * rows;
  mostVertices = vertices;
  mostRings = rings;
  mostQuads = 16 * vertices;
  room = 4 * rings + 8;
  end = 16;
  WALL = take(24 * <usize>vertices);
  U = take(8 * <usize>vertices);
  V = take(8 * <usize>vertices);
  A = take(8 * <usize>vertices);
  LOW = take(8 * <usize>rings);
  HIGH = take(8 * <usize>rings);
  PLACE = take(4 * <usize>vertices);
  FIRST = take(4 * <usize>vertices);
  LAST = take(4 * <usize>vertices);
  QUADS_FROM = take(4 * <usize>(layers + 2));
  QUAD = take(4 * <usize>mostQuads);
  COUNT = take(4 * <usize>rows);
  CROSSING = take(8 * <usize>rows * <usize>room);
  SIGN = take(4 * <usize>rows * <usize>room);
  const most = <usize>rows * <usize>(16 * words + 1);
  FROM = take(4 * most);
  TO = take(4 * most);
  PIECE = take(4 * most);
  SIZE = take(4 * most);
  ROW_START = take(4 * <usize>(rows + 1));
  ROW_SUM = take(8 * <usize>rows);
  COLUMN_SUM = take(8 * <usize>(columns + 1));
  ONE = take(4 * <usize>discs);
  TWO = take(4 * <usize>discs);
  UNSUPPORTED = take(4 * <usize>layerWords);
  CUTS = take(32 * 4);
  COMB = take(8 * <usize>combs);
  LOOSE_FROM = take(4 * <usize>loose);
  LOOSE_TO = take(4 * <usize>loose);
  LOOSE_PIECE = take(4 * <usize>loose);
  LOOSE_START = take(4 * <usize>(rows + 1));
  FAILED = take(16 * <usize>loose);
  FREE_ENDED = take(16 * <usize>loose);
  DEEPEST = take(32 * <usize>loose);
  LONGEST = take(32 * <usize>loose);
  FAILING = take(16 * <usize>layerWords);
  SOLID = take(4 * <usize>layerWords * <usize>layers);
  return end;
}

/** Sets the grid's scales and clears what must begin empty. */
export function begin(pixel: f64, layer: f64, u0: f64, v0: f64, a0: f64): void {
  pixel_mm = pixel;
  layer_mm = layer;
  perPixel = 1 / pixel;
  perLayer = 1 / layer;
  u0_mm = u0;
  v0_mm = v0;
  a0_mm = a0;
  memory.fill(COUNT, 0, 4 * <usize>rows);
  memory.fill(ROW_SUM, 0, 8 * <usize>rows);
  memory.fill(COLUMN_SUM, 0, 8 * <usize>(columns + 1));
}

// @ts-ignore: decorator
@inline export function f(at: usize, i: i32): f64 { return load<f64>(at + (<usize>i << 3)); }
// @ts-ignore: decorator
@inline export function setF(at: usize, i: i32, x: f64): void { store<f64>(at + (<usize>i << 3), x); }
// @ts-ignore: decorator
@inline export function n(at: usize, i: i32): i32 { return load<i32>(at + (<usize>i << 2)); }
// @ts-ignore: decorator
@inline export function setN(at: usize, i: i32, x: i32): void { store<i32>(at + (<usize>i << 2), x); }
