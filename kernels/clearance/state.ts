/**
 * What the kernel knows of a packed plate: the arrays of `Tubes` (src/measures/clearance/tubes.ts), where
 * they lie in the memory. All are byte addresses; f64 unless told.
 */

/** Bytes of a number and of a vector. */
export const F: usize = 8;
export const V: usize = 24;
/** Bytes of a box, see `Tubes`. */
export const BOX: usize = 64;

export const ROUND: u8 = 0;
export const TEARDROP: u8 = 1;
export const SLOT: u8 = 2;

export let stations: i32 = 0;
export let shapes: i32 = 0;
export let channelShapes: i32 = 0;
export let channels: i32 = 0;
export let placed: i32 = 0;
export let blocks: i32 = 0;
export let blockSize: i32 = 0;
export let holes: i32 = 0;
export let point: usize = 0;
export let first: usize = 0;
export let second: usize = 0;
export let tangent: usize = 0;
export let curvature: usize = 0;
export let bore: usize = 0;
export let size: usize = 0;
export let reach: usize = 0;
export let bareReach: usize = 0;
export let bend: usize = 0;
export let turn: usize = 0;
export let bulge: usize = 0;
export let spare: usize = 0;
export let swell: usize = 0;
export let uprightFirst: usize = 0;
export let uprightSecond: usize = 0;
/** u8: whether a section was sheared; else its upright axes are its axes. */
export let sheared: usize = 0;
/** u8 */
export let pocketed: usize = 0;
/** i32 */
export let hullAt: usize = 0;
export let hulls: usize = 0;
export let length: usize = 0;
export let half: usize = 0;
export let box: usize = 0;
export let sharpest: usize = 0;
export let block: usize = 0;
/** u8 */
export let kind: usize = 0;
/** u8 */
export let sides: usize = 0;
/** u8: whether a shape has pockets. */
export let hasPockets: usize = 0;
/** i32 */
export let shapeOf: usize = 0;
export let offset: usize = 0;
/** i32: how often each shape stands, and the first channel that has it. */
export let standing: usize = 0;
/** i32 */
export let example: usize = 0;
/** Corners of a polygon of n sides from n (n - 1) numbers on. */
export let corners: usize = 0;
/** See tally.ts. */
export let tally: usize = 0;
/** The points once more by their coordinates, to be read two at once. */
export let pointX: usize = 0;
export let pointY: usize = 0;
export let pointZ: usize = 0;
/** Gaps of pairs already known, see memo.ts; `MEMO_BYTES` that nobody else writes to. */
export let memo: usize = 0;
/** Room for lists: pairs of blocks, ... */
export let blockBound: usize = 0;
/** ... i32, ... */
export let blockPair: usize = 0;
/** ... pairs of pieces, of two blocks or of one channel, ... */
export let nearBound: usize = 0;
/** ... i32, ... */
export let nearPair: usize = 0;
/** ... pieces of two blocks, see parting.ts, ... */
export let projected: usize = 0;
/** ... pieces of a channel, ... */
export let lowest: usize = 0;
/** ... boxes of all that is placed, see plate.ts. */
export let sorted: usize = 0;
export let thickness: f64 = 0;

/** Bytes of a projected pair of pieces and of a sorted box. */
export const PROJECTED: usize = 48;
export const SORTED: usize = 40;
/** Of what is sorted: f64 west, i32 index, in two halves of so many that take turns. */
export const KEY: usize = 16;

/** Longest list of pairs of pieces. */
function mostNear(): i32 {
  const ofBlocks = blockSize * blockSize;
  const ofShape = (stations * stations) / 2;
  return ofBlocks > ofShape ? ofBlocks : ofShape;
}

/** Reads all of the above up to the room for lists from i32 words, the thickness from the tally. */
export function setUp(at: usize): void {
  stations = load<i32>(at);
  shapes = load<i32>(at, 4);
  channelShapes = load<i32>(at, 8);
  channels = load<i32>(at, 12);
  placed = load<i32>(at, 16);
  blocks = load<i32>(at, 20);
  blockSize = load<i32>(at, 24);
  holes = load<i32>(at, 28);
  point = load<u32>(at, 32);
  first = load<u32>(at, 36);
  second = load<u32>(at, 40);
  tangent = load<u32>(at, 44);
  curvature = load<u32>(at, 48);
  bore = load<u32>(at, 52);
  size = load<u32>(at, 56);
  reach = load<u32>(at, 60);
  bareReach = load<u32>(at, 64);
  bend = load<u32>(at, 68);
  turn = load<u32>(at, 72);
  bulge = load<u32>(at, 76);
  spare = load<u32>(at, 80);
  swell = load<u32>(at, 84);
  uprightFirst = load<u32>(at, 88);
  uprightSecond = load<u32>(at, 92);
  sheared = load<u32>(at, 96);
  pocketed = load<u32>(at, 100);
  hullAt = load<u32>(at, 104);
  hulls = load<u32>(at, 108);
  length = load<u32>(at, 112);
  half = load<u32>(at, 116);
  box = load<u32>(at, 120);
  sharpest = load<u32>(at, 124);
  block = load<u32>(at, 128);
  kind = load<u32>(at, 132);
  sides = load<u32>(at, 136);
  hasPockets = load<u32>(at, 140);
  shapeOf = load<u32>(at, 144);
  offset = load<u32>(at, 148);
  standing = load<u32>(at, 152);
  example = load<u32>(at, 156);
  corners = load<u32>(at, 160);
  tally = load<u32>(at, 164);
  memo = load<u32>(at, 168);
  blockBound = load<u32>(at, 172);
  pointX = load<u32>(at, 176);
  pointY = load<u32>(at, 180);
  pointZ = load<u32>(at, 184);
  const pairs = <usize>(blocks * blocks);
  blockPair = blockBound + pairs * F;
  nearBound = (blockPair + pairs * 4 + 15) & ~15;
  // Lists are written two ahead.
  const most = <usize>mostNear() + 2;
  nearPair = nearBound + most * F;
  projected = (nearPair + most * 4 + 15) & ~15;
  lowest = projected + <usize>blockSize * PROJECTED;
  sorted = lowest + <usize>stations * F;
  thickness = load<f64>(tally, 104);
}
