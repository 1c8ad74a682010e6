/** Passing over pairs that one plane parts, as in src/measures/clearance/parting-planes.ts. */
import { TOLERANCE } from './convex';
import { sectionReach } from './sections';
import { isPlain } from './segment';
import {
  F,
  PROJECTED,
  ROUND,
  V,
  blockSize,
  bore,
  channelShapes,
  first,
  hasPockets,
  kind,
  nearBound,
  nearPair,
  point,
  projected,
  reach,
  second,
  stations,
  swell,
} from './state';

const SLACK: f64 = 1.1 * TOLERANCE;

export function isSimple(shape: i32): bool {
  return (
    load<u8>(kind + shape) === ROUND &&
    (shape >= channelShapes || load<u8>(hasPockets + shape) === 0)
  );
}

/** Leaves out of the list of near pairs, from `from` on, what the direction parts; returns what is left. */
export function dropParted(
  shapeA: i32,
  blockA: i32,
  shapeB: i32,
  blockB: i32,
  ox: f64,
  oy: f64,
  cut: f64,
  from: i32,
  count: i32,
  dx: f64,
  dy: f64,
  dz: f64,
): i32 {
  project(shapeA, blockA, dx, dy, dz, 0);
  project(shapeB, blockB, -dx, -dy, -dz, 24);
  const firstA = blockA * blockSize;
  const firstB = blockB * blockSize;
  const touching = SLACK - (ox * dx + oy * dy);
  const least = (cut > 0 ? cut : 0) + touching;
  let kept = from;
  for (let n = from; n < count; n++) {
    const pair = load<i32>(nearPair + (<usize>n << 2));
    const a = projected + <usize>((pair >> 16) - firstA) * PROJECTED;
    const b = projected + <usize>((pair & 0xffff) - firstB) * PROJECTED;
    if (
      -load<f64>(b, 24) - load<f64>(a) >= least &&
      -load<f64>(b, 32) - load<f64>(a, 8) >= touching &&
      (load<f64>(a, 16) === 0 || load<f64>(b, 40) === 0)
    ) {
      continue;
    }
    store<f64>(nearBound + (<usize>kept << 3), load<f64>(nearBound + (<usize>n << 3)));
    store<i32>(nearPair + (<usize>kept << 2), pair);
    kept++;
  }
  return kept;
}

/** Reach of each piece of a block with its bulges, of its core, and whether it is plain. */
function project(shape: i32, block: i32, dx: f64, dy: f64, dz: f64, out: usize): void {
  const from = shape * stations + block * blockSize;
  const last = (shape + 1) * stations - 1;
  const end = last < from + blockSize ? last : from + blockSize;
  let before: f64 = 0;
  let middleBefore: f64 = 0;
  let to = projected + out;
  let p = point + <usize>from * V;
  let f = first + <usize>from * V;
  let s = second + <usize>from * V;
  for (let k = from; k <= end; k++) {
    const a = dx * load<f64>(f) + dy * load<f64>(f, 8) + dz * load<f64>(f, 16);
    const b = dx * load<f64>(s) + dy * load<f64>(s, 8) + dz * load<f64>(s, 16);
    const middle = dx * load<f64>(p) + dy * load<f64>(p, 8) + dz * load<f64>(p, 16);
    const far = middle + sectionReach(shape, k, a, b);
    if (k > from) {
      const m = <usize>(k - 1) * F;
      const r0 = load<f64>(reach + m);
      const r1 = load<f64>(reach + m, 8);
      const b0 = load<f64>(bore + m);
      const b1 = load<f64>(bore + m, 8);
      store<f64>(to, (before > far ? before : far) + (load<f64>(swell + m) - (r0 > r1 ? r0 : r1)));
      store<f64>(
        to,
        (middleBefore > middle ? middleBefore : middle) + 0.5 * (b0 < b1 ? b0 : b1),
        8,
      );
      store<f64>(to, isPlain(shape, k - 1) ? 1 : 0, 16);
      to += PROJECTED;
    }
    before = far;
    middleBefore = middle;
    p += V;
    f += V;
    s += V;
  }
}
