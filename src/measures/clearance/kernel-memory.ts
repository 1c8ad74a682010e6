/** Where a packed plate lies in the memory of the compiled kernel: the arrays of a `Tubes` are views of it. */
import type { WasmKernel } from '../../numeric/index.ts';
import { hullRoom } from './pocket-hulls.ts';
import { CORNERS, MOST_SIDES } from './polygon-corners.ts';
import { BOX } from './tubes.ts';
import type { Tubes } from './tubes.ts';

/** Exports of `kernels/clearance.ts`; addresses are bytes. */
export interface ClearanceExports {
  begin(): number;
  memoBytes(): number;
  setUp(header: number): void;
  pack(shears: boolean): number;
  visitAllBends(): void;
  visitPairs(): void;
  visitShapes(faces: boolean, lip_mm: number): void;
}

/** What the kernel holds besides the arrays of `Tubes`. */
export interface KernelMemory {
  readonly kernel: WasmKernel<ClearanceExports>;
  /** See `setUp` in kernels/clearance/state.ts. */
  header: Int32Array;
  /** Thinnest wall, x, y, z, overlaps of seven kinds, two words of `tallyNotes`, the plate's thickness. */
  tally: Float64Array;
  /** Kind, channel and other of the thinnest wall. */
  tallyNotes: Int32Array;
  // Copies of what `Tubes` borrows from the samples.
  tangent: Float64Array;
  curvature: Float64Array;
  length_mm: Float64Array;
  reach_mm: Float64Array;
  uprightFirst: Float64Array;
  uprightSecond: Float64Array;
  /** 1 where a section was sheared [shapes x stations]. */
  sheared: Uint8Array;
  /** 1 for a shape with pockets. */
  hasPockets: Uint8Array;
  /** Room that is laid out: stations of all shapes, shapes, blocks of all shapes, placements, hulls. */
  rows: number;
  shapes: number;
  blocks: number;
  placed: number;
  hulls: number;
  /** Bytes of the kernel's lists, and where they begin. */
  listBytes: number;
  lists: number;
}

const HEADER_WORDS = 64;
const TALLY_NUMBERS = 14;
const CORNER_NUMBERS = MOST_SIDES * (MOST_SIDES + 1);

export function createKernelMemory(kernel: WasmKernel<ClearanceExports>): KernelMemory {
  const none = new Float64Array(0);
  return {
    kernel,
    header: new Int32Array(0),
    tally: none,
    tallyNotes: new Int32Array(0),
    tangent: none,
    curvature: none,
    length_mm: none,
    reach_mm: none,
    uprightFirst: none,
    uprightSecond: none,
    sheared: new Uint8Array(0),
    hasPockets: new Uint8Array(0),
    rows: 0,
    shapes: 0,
    blocks: 0,
    placed: 0,
    hulls: 0,
    listBytes: 0,
    lists: 0,
  };
}

/** Makes the arrays of a `Tubes` large enough for its counts; what they held is lost when they move. */
export function makeKernelRoom(t: Tubes, memory: KernelMemory): void {
  const rows = t.shapes * t.stations;
  const blocks = t.shapes * t.blocks;
  const hulls = hullRoom(t);
  const listBytes = roomForLists(t);
  if (
    rows > memory.rows ||
    t.shapes > memory.shapes ||
    blocks > memory.blocks ||
    t.placed > memory.placed ||
    hulls > memory.hulls ||
    listBytes > memory.listBytes
  ) {
    memory.rows = Math.max(rows, memory.rows);
    memory.shapes = Math.max(t.shapes, memory.shapes);
    memory.blocks = Math.max(blocks, memory.blocks);
    memory.placed = Math.max(t.placed, memory.placed);
    memory.hulls = Math.max(hulls, memory.hulls);
    memory.listBytes = Math.max(listBytes, memory.listBytes);
    layOut(t, memory);
  }
}

/** Bytes for the lists of kernels/clearance/state.ts, with what aligning them may take. */
function roomForLists({ stations, blocks, blockSize, placed }: Tubes): number {
  const pairs = Math.max(blockSize * blockSize, 0.5 * stations * stations) + 2;
  return 12 * blocks * blocks + 12 * pairs + 64 * blockSize + 8 * stations + 72 * placed + 64;
}

/** Gives every array its place, and the `Tubes` views of them. */
function layOut(t: Tubes, memory: KernelMemory): void {
  const { kernel, rows, shapes, blocks, placed, hulls } = memory;
  const { exports } = kernel;
  let end = exports.begin() + exports.memoBytes();
  const reserve = (bytes: number): number => {
    const at = end;
    end += 64 * Math.ceil(bytes / 64);
    return at;
  };
  const header = reserve(4 * HEADER_WORDS);
  const tally = reserve(8 * TALLY_NUMBERS);
  const vectors = Array.from({ length: 7 }, () => reserve(24 * rows));
  const numbers = Array.from({ length: 9 }, () => reserve(8 * rows));
  // Read two numbers at once, from the last one as well.
  const coordinates = Array.from({ length: 3 }, () => reserve(8 * rows + 16));
  const hullAt = reserve(4 * rows);
  // Kernels read two flags at once.
  const flags = Array.from({ length: 2 }, () => reserve(rows + 1));
  const sizes = Array.from({ length: 3 }, () => reserve(8 * shapes));
  const box = reserve(8 * BOX * shapes);
  const block = reserve(8 * BOX * blocks);
  const kinds = Array.from({ length: 3 }, () => reserve(shapes));
  const counts = Array.from({ length: 2 }, () => reserve(4 * shapes));
  const shapeOf = reserve(4 * placed);
  const offset = reserve(16 * placed);
  const corners = reserve(8 * CORNER_NUMBERS);
  const hullsAt = reserve(8 * hulls);
  memory.lists = reserve(memory.listBytes);
  const buffer = kernel.memory(end);
  memory.header = new Int32Array(buffer, header, HEADER_WORDS);
  memory.tally = new Float64Array(buffer, tally, TALLY_NUMBERS);
  memory.tallyNotes = new Int32Array(buffer, tally + 88, 3);
  const vector = (n: number): Float64Array => new Float64Array(buffer, vectors[n], 3 * rows);
  t.point = vector(0);
  t.first = vector(1);
  t.second = vector(2);
  memory.tangent = vector(3);
  memory.curvature = vector(4);
  memory.uprightFirst = vector(5);
  memory.uprightSecond = vector(6);
  const number = (n: number): Float64Array => new Float64Array(buffer, numbers[n], rows);
  t.bore = number(0);
  t.size = number(1);
  t.reach = number(2);
  memory.reach_mm = number(3);
  t.bend = number(4);
  t.turn = number(5);
  t.bulge = number(6);
  t.spare = number(7);
  t.swell = number(8);
  t.hullAt = new Int32Array(buffer, hullAt, rows);
  memory.sheared = new Uint8Array(buffer, flags[0], rows + 1);
  t.pocketed = new Uint8Array(buffer, flags[1], rows + 1);
  memory.length_mm = new Float64Array(buffer, sizes[0], shapes);
  t.half = new Float64Array(buffer, sizes[1], shapes);
  t.sharpest = new Float64Array(buffer, sizes[2], shapes);
  t.box = new Float64Array(buffer, box, BOX * shapes);
  t.block = new Float64Array(buffer, block, BOX * blocks);
  t.kind = new Uint8Array(buffer, kinds[0], shapes);
  t.sides = new Uint8Array(buffer, kinds[1], shapes);
  memory.hasPockets = new Uint8Array(buffer, kinds[2], shapes);
  t.standing = new Int32Array(buffer, counts[0], shapes);
  t.example = new Int32Array(buffer, counts[1], shapes);
  t.shapeOf = new Int32Array(buffer, shapeOf, placed);
  t.offset = new Float64Array(buffer, offset, 2 * placed);
  t.hulls = new Float64Array(buffer, hullsAt, hulls);
  const table = new Float64Array(buffer, corners, CORNER_NUMBERS);
  let at = 0;
  for (const corner of CORNERS) {
    table.set(corner, at);
    at += corner.length;
  }
  writeAddresses(t, memory, corners, coordinates);
}

/** Writes where the arrays lie. */
function writeAddresses(
  t: Tubes,
  memory: KernelMemory,
  corners: number,
  coordinates: readonly number[],
): void {
  const { header, kernel } = memory;
  header[8] = t.point.byteOffset;
  header[9] = t.first.byteOffset;
  header[10] = t.second.byteOffset;
  header[11] = memory.tangent.byteOffset;
  header[12] = memory.curvature.byteOffset;
  header[13] = t.bore.byteOffset;
  header[14] = t.size.byteOffset;
  header[15] = t.reach.byteOffset;
  header[16] = memory.reach_mm.byteOffset;
  header[17] = t.bend.byteOffset;
  header[18] = t.turn.byteOffset;
  header[19] = t.bulge.byteOffset;
  header[20] = t.spare.byteOffset;
  header[21] = t.swell.byteOffset;
  header[22] = memory.uprightFirst.byteOffset;
  header[23] = memory.uprightSecond.byteOffset;
  header[24] = memory.sheared.byteOffset;
  header[25] = t.pocketed.byteOffset;
  header[26] = t.hullAt.byteOffset;
  header[27] = t.hulls.byteOffset;
  header[28] = memory.length_mm.byteOffset;
  header[29] = t.half.byteOffset;
  header[30] = t.box.byteOffset;
  header[31] = t.sharpest.byteOffset;
  header[32] = t.block.byteOffset;
  header[33] = t.kind.byteOffset;
  header[34] = t.sides.byteOffset;
  header[35] = memory.hasPockets.byteOffset;
  header[36] = t.shapeOf.byteOffset;
  header[37] = t.offset.byteOffset;
  header[38] = t.standing.byteOffset;
  header[39] = t.example.byteOffset;
  header[40] = corners;
  header[41] = memory.tally.byteOffset;
  header[42] = kernel.exports.begin();
  header[43] = memory.lists;
  header.set(coordinates, 44);
}

/** Tells the kernel the counts of a plate; its arrays must have room. */
export function setUp(t: Tubes, { header, tally, kernel }: KernelMemory): void {
  header[0] = t.stations;
  header[1] = t.shapes;
  header[2] = t.channelShapes;
  header[3] = t.channels;
  header[4] = t.placed;
  header[5] = t.blocks;
  header[6] = t.blockSize;
  header[7] = t.plate.holes.length;
  tally[13] = t.plate.thickness_mm;
  kernel.exports.setUp(header.byteOffset);
}
