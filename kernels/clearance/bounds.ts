/** Bounds of packed channels, as in src/measures/clearance/tube-bounds.ts and bend-walls.ts. */
import { arcSlack, hiddenBend, peakBetween } from './bends';
import {
  BOX,
  F,
  V,
  bend,
  block,
  blockSize,
  blocks,
  bore,
  box,
  bulge,
  curvature,
  half,
  length,
  point,
  pointX,
  pointY,
  pointZ,
  reach,
  sharpest,
  spare,
  stations,
  swell,
  tangent,
  turn,
} from './state';

export function packBounds(shape: i32): f64 {
  const base = shape * stations;
  const step = load<f64>(length + (<usize>shape << 3)) / (stations - 1);
  store<f64>(half + (<usize>shape << 3), 0.5 * step);
  const all = box + <usize>shape * BOX;
  for (let d: usize = 0; d < 24; d += 8) {
    store<f64>(all + d, Infinity);
    store<f64>(all + d, -Infinity, 24);
  }
  store<f64>(all, 0, 48);
  let sum = load<f64>(reach + (<usize>base << 3)) + load<f64>(bore + (<usize>base << 3));
  for (let b = 0; b < blocks; b++) {
    const from = base + b * blockSize;
    const at = block + <usize>(shape * blocks + b) * BOX;
    sum += packBlock(from, min(base + stations - 1, from + blockSize), step, at);
    for (let d: usize = 0; d < 24; d += 8) {
      store<f64>(all + d, Math.min(load<f64>(all + d), load<f64>(at + d)));
      store<f64>(all + d, Math.max(load<f64>(all + d, 24), load<f64>(at + d, 24)), 24);
    }
    store<f64>(all, Math.max(load<f64>(all, 48), load<f64>(at, 48)), 48);
  }
  sumTurns(shape, step);
  return sum;
}

/** Points of a straight post by their coordinates. */
export function packPost(shape: i32): void {
  let p = point + <usize>(shape * stations) * V;
  let k = <usize>(shape * stations) * F;
  for (let n = 0; n < stations; n++, k += F, p += V) {
    store<f64>(pointX + k, load<f64>(p));
    store<f64>(pointY + k, load<f64>(p, 8));
    store<f64>(pointZ + k, load<f64>(p, 16));
  }
}

function packBlock(from: i32, end: i32, step: f64, at: usize): f64 {
  const step2 = step * step;
  let i = <usize>from * V;
  let k = <usize>from * F;
  const last = <usize>end * F;
  let p = point + i;
  let c = curvature + i;
  let t = tangent + i;
  let x = load<f64>(p);
  let y = load<f64>(p, 8);
  let z = load<f64>(p, 16);
  let cx = load<f64>(c);
  let cy = load<f64>(c, 8);
  let cz = load<f64>(c, 16);
  let tx = load<f64>(t);
  let ty = load<f64>(t, 8);
  let tz = load<f64>(t, 16);
  store<f64>(pointX + k, x);
  store<f64>(pointY + k, y);
  store<f64>(pointZ + k, z);
  let h = load<f64>(reach + k);
  let here = Math.sqrt(cx * cx + cy * cy + cz * cz);
  store<f64>(bend + k, here);
  let sum = load<f64>(bore + k);
  let lowXY = v128.load(p);
  let highXY = lowXY;
  let lowZ = f64x2.splat(z);
  let highZ = lowZ;
  let most: f64 = 0;
  for (; k < last; k += F) {
    p += V;
    c += V;
    t += V;
    const px = load<f64>(p);
    const py = load<f64>(p, 8);
    const pz = load<f64>(p, 16);
    const dx = px - x;
    const dy = py - y;
    const dz = pz - z;
    const chord2 = dx * dx + dy * dy + dz * dz;
    store<f64>(pointX + k, px, 8);
    store<f64>(pointY + k, py, 8);
    store<f64>(pointZ + k, pz, 8);
    x = px;
    y = py;
    z = pz;
    // One instruction each, unlike least and greatest of numbers that may be NaN.
    const xy = v128.load(p);
    const zz = f64x2.splat(pz);
    lowXY = f64x2.pmin(lowXY, xy);
    highXY = f64x2.pmax(highXY, xy);
    lowZ = f64x2.pmin(lowZ, zz);
    highZ = f64x2.pmax(highZ, zz);
    cx = load<f64>(c);
    cy = load<f64>(c, 8);
    cz = load<f64>(c, 16);
    const next = Math.sqrt(cx * cx + cy * cy + cz * cz);
    store<f64>(bend + k, next, 8);
    const sharper = here > next ? here : next;
    here = next;
    const qx = load<f64>(t);
    const qy = load<f64>(t, 8);
    const qz = load<f64>(t, 16);
    const ax = qx - tx;
    const ay = qy - ty;
    const az = qz - tz;
    tx = qx;
    ty = qy;
    tz = qz;
    const turned2 = ax * ax + ay * ay + az * az;
    const angle2 = sharper * sharper * step2;
    const short2 = arcSlack(chord2, step2);
    store<f64>(
      turn + k,
      turned2 > 2 * angle2 || short2 > 1.5 * angle2
        ? -hiddenBend(turned2, short2, angle2, step)
        : sharper,
      8,
    );
    const g = load<f64>(reach + k, 8);
    const wider = h > g ? h : g;
    h = g;
    let scale = 0.0625 * chord2;
    if (sharper * step > 2) scale *= 2 / (sharper * step);
    store<f64>(bulge + k, scale);
    const slack2 = 0.25 * (step2 - chord2);
    const arc = 0.1625 * sharper * chord2;
    const hidden = slack2 > arc * arc + 2e-5 * chord2 ? Math.sqrt(slack2) - arc : 0;
    store<f64>(spare + k, hidden);
    const leaves = wider + (2 * sharper * scale * (1 + sharper * wider) + hidden);
    store<f64>(swell + k, leaves);
    if (leaves > most) most = leaves;
    sum += chord2 + next + g + load<f64>(bore + k, 8);
  }
  v128.store(at, lowXY);
  store<f64>(at, f64x2.extract_lane(lowZ, 0), 16);
  v128.store(at, highXY, 24);
  store<f64>(at, f64x2.extract_lane(highZ, 0), 40);
  store<f64>(at, most, 48);
  return sum;
}

function sumTurns(shape: i32, step: f64): void {
  const base = <usize>(shape * stations) * F;
  const last = base + <usize>(stations - 1) * F;
  let before = Infinity;
  let here = load<f64>(bend + base);
  let next = load<f64>(bend + base, 8);
  let greatest: f64 = 0;
  let sum: f64 = 0;
  store<f64>(turn + base, 0);
  for (let k = base + F; k <= last; k += F) {
    const after = k < last ? load<f64>(bend + k, 8) : Infinity;
    let most = load<f64>(turn + k);
    if (most < 0) most = -most;
    else if (here > before && next > after) {
      const peak = peakBetween(before, here, next, after);
      if (peak > most) most = peak;
    }
    if (most > greatest) greatest = most;
    sum += most * step;
    store<f64>(turn + k, sum);
    before = here;
    here = next;
    next = after;
  }
  store<f64>(sharpest + (<usize>shape << 3), greatest);
}
