/** Reach of packed sections, as in src/measures/clearance/section-reach.ts and pocket-hulls.ts. */
import {
  F,
  ROUND,
  SLOT,
  TEARDROP,
  V,
  bore,
  corners,
  first,
  hullAt,
  hulls,
  kind,
  pocketed,
  second,
  sides,
  size,
} from './state';

/** Works out the hull of a station in the engine's own language; returns where it begins. */
// @ts-ignore: decorator
@external('env', 'packHull')
declare function packHull(shape: i32, station: i32): i32;

/** Where in `hulls` the last reach of a pocketed section lies; -1 on the bare section. */
export let furthest: i32 = -1;

/** Reach of a section towards (a, b) in its frame, pockets included. */
export function sectionReach(shape: i32, station: i32, a: f64, b: f64): f64 {
  const at = <usize>station << 3;
  const r = 0.5 * load<f64>(bore + at);
  const k = load<u8>(kind + shape);
  let far: f64;
  if (k === ROUND) far = r * Math.sqrt(a * a + b * b);
  else if (k === SLOT) {
    far = r * Math.sqrt(a * a + b * b) + load<f64>(size + at) * Math.abs(a);
  } else if (k === TEARDROP) {
    far = Math.max(r * Math.sqrt(a * a + b * b), b * load<f64>(size + at));
  } else {
    const c = greatestCorner(shape, a, b);
    far = load<f64>(size + at) * (load<f64>(c) * a + load<f64>(c, 8) * b);
  }
  if (load<u8>(pocketed + station) !== 0) return pocketReach(shape, station, a, b, far);
  return far;
}

/** Reach of a section in a direction of the plate. */
export function reachTowards(shape: i32, station: i32, dx: f64, dy: f64, dz: f64): f64 {
  const i = <usize>station * V;
  const f = first + i;
  const s = second + i;
  const a = dx * load<f64>(f) + dy * load<f64>(f, 8) + dz * load<f64>(f, 16);
  const b = dx * load<f64>(s) + dy * load<f64>(s, 8) + dz * load<f64>(s, 16);
  return sectionReach(shape, station, a, b);
}

export let frameX: f64 = 0;
export let frameY: f64 = 0;

/** Leaves in `frameX`, `frameY` the furthest point of the section without its pockets. */
export function barePoint(shape: i32, station: i32, a: f64, b: f64): void {
  const at = <usize>station << 3;
  const r = 0.5 * load<f64>(bore + at);
  const long = load<f64>(size + at);
  const k = load<u8>(kind + shape);
  const n = Math.sqrt(a * a + b * b);
  const scale = n > 1e-300 ? r / n : 0;
  if (k > SLOT) {
    const c = greatestCorner(shape, a, b);
    frameX = long * load<f64>(c);
    frameY = long * load<f64>(c, 8);
  } else if (k === TEARDROP && b * long > r * n) {
    frameX = 0;
    frameY = long;
  } else {
    frameX = a * scale;
    frameY = b * scale;
    if (k === SLOT) frameX += a < 0 ? -long : long;
  }
}

/** Takes the point of a pocket instead. */
export function hullPoint(at: i32): void {
  const p = hulls + (<usize>at << 3);
  frameX = load<f64>(p);
  frameY = load<f64>(p, 8);
}

function greatestCorner(shape: i32, a: f64, b: f64): usize {
  const n = <usize>load<u8>(sides + shape);
  let p = corners + n * (n - 1) * F;
  const end = p + 2 * n * F;
  let at = p;
  let best = load<f64>(p) * a + load<f64>(p, 8) * b;
  for (p += 16; p < end; p += 16) {
    const dot = load<f64>(p) * a + load<f64>(p, 8) * b;
    if (dot > best) {
      best = dot;
      at = p;
    }
  }
  return at;
}

/** Numbers before the points of a pocket. */
const HEAD: usize = 56;

function pocketReach(shape: i32, station: i32, a: f64, b: f64, least: f64): f64 {
  let at = load<i32>(hullAt + (<usize>station << 2));
  if (at < 0) at = packHull(shape, station);
  const base = hulls;
  let p = base + (<usize>at << 3);
  const end = base + ((<usize>load<f64>(p)) << 3);
  let best = least;
  let found: usize = 0;
  for (p += 8; p < end;) {
    const next = base + ((<usize>load<f64>(p)) << 3);
    const c0 = load<f64>(p, 8);
    const s0 = load<f64>(p, 16);
    const ahead = a * c0 + b * s0;
    const aside = b * c0 - a * s0;
    const inside = load<f64>(p, 24) * (ahead * ahead + aside * aside);
    if (
      (ahead >= 0 && ahead * ahead >= inside) ||
      load<f64>(p, 48) * (ahead * load<f64>(p, 32) + Math.abs(aside) * load<f64>(p, 40)) > best
    ) {
      for (let q = p + HEAD; q < next; q += 16) {
        const far = a * load<f64>(q) + b * load<f64>(q, 8);
        if (far > best) {
          best = far;
          found = q;
        }
      }
    }
    p = next;
  }
  furthest = found === 0 ? -1 : <i32>((found - base) >> 3);
  return best;
}
