/** Where walls cross the rows of one layer, and the clearing of what lies between. */
import { clearBits } from './grid.ts';
import type { Grid } from './grid.ts';

/** Working memory of carving: a tube's wall on the grid and the crossings of one layer. */
export interface CarveMemory {
  /** Wall in grid coordinates: along the row, across the rows, up. */
  u: Float64Array;
  v: Float64Array;
  a: Float64Array;
  /** Vertex below the layer on each lengthwise line of an upright tube. */
  place: Int32Array;
  /** Lowest and highest of each ring. */
  low: Float64Array;
  high: Float64Array;
  /** First and last layer that cuts each quad of the wall, and by layer the quads it cuts. */
  first: Int32Array;
  last: Int32Array;
  quad: Int32Array;
  quadsFrom: Int32Array;
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
    place: new Int32Array(0),
    low: new Float64Array(0),
    high: new Float64Array(0),
    first: new Int32Array(0),
    last: new Int32Array(0),
    quad: new Int32Array(0),
    quadsFrom: new Int32Array(0),
    crossing: new Float64Array(0),
    sign: new Int8Array(0),
    count: new Int32Array(0),
    room: 0,
  };
}

export function reserveCarving(
  memory: CarveMemory,
  grid: Grid,
  vertices: number,
  rings: number,
): void {
  if (memory.u.length < vertices) {
    memory.place = new Int32Array(vertices);
    memory.u = new Float64Array(vertices);
    memory.v = new Float64Array(vertices);
    memory.a = new Float64Array(vertices);
  }
  if (memory.low.length < rings) {
    memory.low = new Float64Array(rings);
    memory.high = new Float64Array(rings);
  }
  // A row meets each band of the wall in a few places; more room is made when it runs out.
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

/** Forgets the rows touched so far. */
export function startLayer(grid: Grid): void {
  firstRow = grid.rows;
  lastRow = -1;
}

/** Doubles the crossings a row can hold: a flat ceiling in the layer's plane may ripple across it. */
function growRoom(memory: CarveMemory): void {
  const { crossing, sign, count, room } = memory;
  memory.room = 2 * room;
  memory.crossing = new Float64Array(count.length * memory.room);
  memory.sign = new Int8Array(count.length * memory.room);
  for (let row = 0; row < count.length; row++) {
    const from = row * room;
    memory.crossing.set(crossing.subarray(from, from + count[row]), row * memory.room);
    memory.sign.set(sign.subarray(from, from + count[row]), row * memory.room);
  }
}

/** Notes where a directed segment crosses the rows. */
export function addSegment(
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
  const { count } = memory;
  if (from < firstRow) firstRow = from;
  if (to - 1 > lastRow) lastRow = to - 1;
  for (let row = from; row < to; row++) {
    const n = count[row];
    if (n === memory.room) growRoom(memory);
    const { crossing, sign, room } = memory;
    crossing[row * room + n] = u1 + (row - v1) * slope;
    sign[row * room + n] = rising ? 1 : -1;
    count[row] = n + 1;
  }
}

/**
 * Sorts each touched row's crossings and clears where the winding number is not zero.
 *
 * @param last clears the layers from `layer` to this one alike.
 */
export function clearBetween(
  grid: Grid,
  layer: number,
  solid: Int32Array,
  memory: CarveMemory,
  last: number = layer,
): void {
  const { crossing, sign, count, room } = memory;
  const { words, columns, layerWords } = grid;
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
      for (let k = layer; k <= last; k++) {
        clearBits(solid, k * layerWords + row * words, left, right);
      }
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
