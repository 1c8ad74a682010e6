/** The wall inside bends, as in src/measures/clearance/bend-walls.ts, where the rule is told. */
import { uprightOf } from './ports';
import { sectionReach } from './sections';
import {
  BOX,
  F,
  V,
  bend,
  box,
  curvature,
  first,
  length,
  offset,
  point,
  reach,
  second,
  sharpest,
  stations,
  tangent,
  turn,
  uprightFirst,
  uprightSecond,
} from './state';
import { BEND, noteWall, thinnest } from './tally';

export function visitBends(shape: i32, channel: i32): f64 {
  const bar = Math.max(thinnest(), 0);
  const sharp = load<f64>(sharpest + (<usize>shape << 3));
  if (sharp * (0.5 * bar + load<f64>(box + <usize>shape * BOX, 48)) <= 1) return 0;
  const base = shape * stations;
  const end = base + stations;
  const step = load<f64>(length + (<usize>shape << 3)) / (stations - 1);
  let depth: f64 = 0;
  for (let k = base; k < end; k++) {
    const at = <usize>k * F;
    if (k + 1 < end) {
      const r0 = load<f64>(reach + at);
      const r1 = load<f64>(reach + at, 8);
      const bound = r0 > r1 ? r0 : r1;
      const least = thinnest();
      const cut = least > -depth ? least : -depth;
      const turned = load<f64>(turn + at, 8) - load<f64>(turn + at);
      if (turned * (0.5 * cut + bound) < 0.999999 * step) continue;
    }
    depth = visitStation(shape, channel, k, base, end, step, depth);
  }
  return depth;
}

function visitStation(
  shape: i32,
  channel: i32,
  k: i32,
  base: i32,
  end: i32,
  step: f64,
  before: f64,
): f64 {
  const step2 = step * step;
  let depth = before;
  const b = bend + <usize>k * F;
  let sharp = load<f64>(b);
  let hidden = false;
  let at = k;
  const i = <usize>k * V;
  const p = point + i;
  if (k + 1 < end) {
    const next = load<f64>(b, 8);
    const ends = sharp > next ? sharp : next;
    const t = tangent + i;
    const turned2 = square(
      load<f64>(t, 24) - load<f64>(t),
      load<f64>(t, 32) - load<f64>(t, 8),
      load<f64>(t, 40) - load<f64>(t, 16),
    );
    const chord2 = square(
      load<f64>(p, 24) - load<f64>(p),
      load<f64>(p, 32) - load<f64>(p, 8),
      load<f64>(p, 40) - load<f64>(p, 16),
    );
    const slack2 = arcSlack(chord2, step2);
    const angle2 = ends * ends * step2;
    if (k > base && k + 2 < end) {
      const peak = peakBetween(load<f64>(b - 8), sharp, next, load<f64>(b, 16));
      if (peak > ends) {
        if (next > sharp) at = k + 1;
        sharp = peak;
      }
    }
    if (turned2 > 2 * angle2 || slack2 > 1.5 * angle2) {
      sharp = hiddenBend(turned2, slack2, angle2, step);
      hidden = true;
    }
  }
  const far = load<f64>(reach + <usize>at * F);
  const least = thinnest();
  const cut = least > -depth ? least : -depth;
  if (sharp * (0.5 * cut + far) <= 1) return depth;
  const inner = hidden ? far : innerReach(shape, at);
  const left = 1 / sharp - inner;
  if (-2 * left > depth) depth = -2 * left;
  const o = offset + (<usize>channel << 4);
  const x = load<f64>(o) + load<f64>(p);
  const y = load<f64>(o, 8) + load<f64>(p, 8);
  noteWall(2 * left, BEND, x, y, load<f64>(p, 16), channel, channel);
  return depth;
}

/** Reach of a station's upright section towards its centre of curvature. */
function innerReach(shape: i32, station: i32): f64 {
  const c = curvature + <usize>station * V;
  const sharp = load<f64>(bend + <usize>station * F);
  const x = load<f64>(c) / sharp;
  const y = load<f64>(c, 8) / sharp;
  const z = load<f64>(c, 16) / sharp;
  const f = uprightOf(station, first, uprightFirst);
  const s = uprightOf(station, second, uprightSecond);
  return sectionReach(
    shape,
    station,
    x * load<f64>(f) + y * load<f64>(f, 8) + z * load<f64>(f, 16),
    x * load<f64>(s) + y * load<f64>(s, 8) + z * load<f64>(s, 16),
  );
}

export function peakBetween(before: f64, here: f64, next: f64, after: f64): f64 {
  const rise = here - before;
  const fall = next - after;
  if (rise <= 0 || fall <= 0) return 0;
  const x = (next + fall - here) / (rise + fall);
  if (x <= 0 || x >= 1) return 0;
  return Math.min(here + rise * x, 1.5 * Math.max(here, next));
}

// @ts-ignore: decorator
@inline
export function arcSlack(chord2: f64, step2: f64): f64 {
  const slack = (1 - 2e-4) * step2 - chord2;
  return slack > 0 ? (12 * slack) / step2 : 0;
}

export function hiddenBend(turned2: f64, slack2: f64, angle2: f64, step: f64): f64 {
  return Math.sqrt(Math.max(Math.max(turned2 * (1 + turned2 / 12), slack2), angle2)) / step;
}

// @ts-ignore: decorator
@inline
function square(x: f64, y: f64, z: f64): f64 {
  return x * x + y * y + z * z;
}
