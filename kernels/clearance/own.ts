/** A channel against itself, as in src/measures/clearance/own-walls.ts, where the rule is told. */
import { contactLean, contactX, contactY, contactZ, segmentGap } from './segment';
import {
  BOX,
  F,
  V,
  box,
  half,
  lowest,
  nearBound,
  nearPair,
  offset,
  point,
  stations,
  swell,
  turn,
} from './state';
import { SELF, noteWall, thinnest } from './tally';

const FACING: f64 = 0.75;
const LEAST_TURN: f64 = 1.44;
const ROUNDING: f64 = 1e-9;

export function visitSelf(shape: i32, channel: i32): f64 {
  const base = shape * stations;
  if (load<f64>(turn + (<usize>(base + stations - 1) << 3)) < LEAST_TURN) return 0;
  let depth: f64 = 0;
  const least = thinnest();
  let cut = least > 0 ? least : 0;
  const count = listFacing(shape, cut);
  for (let n = 0; n < count; n++) {
    if (load<f64>(nearBound + (<usize>n << 3)) >= cut) continue;
    const pair = load<i32>(nearPair + (<usize>n << 2));
    const i = base + (pair >> 16);
    const j = base + (pair & 0xffff);
    const gap = segmentGap(shape, i, shape, j, 0, 0, cut, FACING);
    if (gap >= cut) continue;
    const wall = gap > 0 ? gap / Math.sqrt(1 - contactLean * contactLean) : gap;
    if (-wall > depth) depth = -wall;
    if (wall < cut) cut = depth > 0 ? -depth : wall;
    const at = offset + (<usize>channel << 4);
    const x = load<f64>(at) + contactX;
    const y = load<f64>(at, 8) + contactY;
    noteWall(wall, SELF, x, y, contactZ, channel, channel);
  }
  return depth;
}

function listFacing(shape: i32, cut: f64): i32 {
  const base = <usize>(shape * stations);
  const end = stations - 1;
  const points = point + base * V;
  const swells = swell + base * F;
  const turns = turn + base * F;
  fillLowest(points, end);
  const total = load<f64>(turns + (<usize>end << 3));
  const halfStep = load<f64>(half + (<usize>shape << 3));
  const step = 2 * halfStep;
  const near2 = 4 * step * step;
  const facing2 = FACING * FACING * step * step;
  const widest = halfStep + load<f64>(box + <usize>shape * BOX, 48);
  let count = 0;
  let from = 2;
  for (let i = 0; i < end - 2; i++) {
    const turned = load<f64>(turns + (<usize>i << 3));
    if (total - turned < LEAST_TURN) break;
    if (from < i + 2) from = i + 2;
    while (load<f64>(turns + (<usize>from << 3), 8) - turned < LEAST_TURN) from++;
    const p = points + <usize>i * V;
    const z0 = load<f64>(p, 16);
    const z1 = load<f64>(p, 40);
    const pz = 0.5 * (z0 + z1);
    const reach = cut + (halfStep + load<f64>(swells + (<usize>i << 3)));
    const top = pz + (reach + widest);
    if (load<f64>(lowest + (<usize>from << 3)) >= top) continue;
    const x0 = load<f64>(p);
    const x1 = load<f64>(p, 24);
    const y0 = load<f64>(p, 8);
    const y1 = load<f64>(p, 32);
    const px = 0.5 * (x0 + x1);
    const py = 0.5 * (y0 + y1);
    const hx = x1 - x0;
    const hy = y1 - y0;
    const hz = z1 - z0;
    let q = points + <usize>from * V;
    let qx = load<f64>(q);
    let qy = load<f64>(q, 8);
    let qz = load<f64>(q, 16);
    for (let j = from; j < end && load<f64>(lowest + (<usize>j << 3)) < top; j++) {
      q += V;
      const nx = load<f64>(q);
      const ny = load<f64>(q, 8);
      const nz = load<f64>(q, 16);
      const x = 0.5 * (qx + nx) - px;
      const y = 0.5 * (qy + ny) - py;
      const z = 0.5 * (qz + nz) - pz;
      const kx = nx - qx;
      const ky = ny - qy;
      const kz = nz - qz;
      qx = nx;
      qy = ny;
      qz = nz;
      const limit = reach + (halfStep + load<f64>(swells + (<usize>j << 3)));
      const square = x * x + y * y + z * z;
      if (square >= limit * limit || limit <= 0) continue;
      if (square > near2) {
        const alongI = x * hx + y * hy + z * hz;
        const alongJ = x * kx + y * ky + z * kz;
        const most = facing2 * square;
        if (alongI * alongI > most || alongJ * alongJ > most) continue;
      }
      store<f64>(nearBound + (<usize>count << 3), Math.sqrt(square) - (limit - cut) - ROUNDING);
      store<i32>(nearPair + (<usize>count << 2), (i << 16) | j);
      count++;
    }
  }
  return count;
}

/** The least height of the middles of each piece and all that follow. */
function fillLowest(points: usize, end: i32): void {
  let least = Infinity;
  let p = points + <usize>end * V;
  let after = load<f64>(p, 16);
  for (let k = end - 1; k >= 0; k--) {
    p -= V;
    const before = load<f64>(p, 16);
    const z = 0.5 * (before + after);
    if (z < least) least = z;
    store<f64>(lowest + (<usize>k << 3), least);
    after = before;
  }
}
