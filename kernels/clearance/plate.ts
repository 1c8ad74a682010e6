/** Walls between all neighbours, as in src/measures/clearance/plate-pairs.ts. */
import { clearMemo, fillMemo, findMemo, memoGap } from './memo';
import { nearestX, nearestY, nearestZ, pairGap, stationA, stationB } from './pairs';
import {
  BOX,
  KEY,
  SORTED,
  box,
  channels,
  holes,
  offset,
  placed,
  pocketed,
  shapeOf,
  shapes,
  sorted,
} from './state';
import { BETWEEN, EDGE, HOLE, POCKET, addOverlap, noteWall, thinnest } from './tally';

const QUANTUM: f64 = 1e-9;

export function visitPairs(): void {
  sortByWest();
  const repeats = placed > shapes;
  if (repeats) clearMemo();
  const end = sorted + <usize>placed * SORTED;
  for (let n = sorted; n < end; n += SORTED) {
    const i = load<i32>(n, 32);
    const east = load<f64>(n, 8);
    const low = load<f64>(n, 16);
    const high = load<f64>(n, 24);
    for (let m = n + SORTED; m < end; m += SORTED) {
      const least = thinnest();
      const cut = least > 0 ? least : 0;
      if (load<f64>(m) - east >= cut) break;
      if (load<f64>(m, 16) - high >= cut || low - load<f64>(m, 24) >= cut) continue;
      const j = load<i32>(m, 32);
      if (i >= channels && j >= channels) continue;
      if (i < j) visitPair(i, j, cut, repeats);
      else visitPair(j, i, cut, repeats);
    }
  }
}

function visitPair(i: i32, j: i32, cut: f64, repeats: bool): void {
  let a = i;
  let b = j;
  const offsetI = offset + (<usize>i << 4);
  const offsetJ = offset + (<usize>j << 4);
  let ox = load<f64>(offsetJ) - load<f64>(offsetI);
  let oy = load<f64>(offsetJ, 8) - load<f64>(offsetI, 8);
  let shapeA = load<i32>(shapeOf + (<usize>i << 2));
  let shapeB = load<i32>(shapeOf + (<usize>j << 2));
  if (
    shapeA > shapeB ||
    (shapeA === shapeB && (ox < -QUANTUM || (ox < QUANTUM && oy < 0)))
  ) {
    a = j;
    b = i;
    ox = -ox;
    oy = -oy;
    const held = shapeA;
    shapeA = shapeB;
    shapeB = held;
  }
  let gap: f64;
  const known = repeats ? findMemo(shapeA, shapeB, ox, oy) : 0;
  if (known !== 0 && memoGap(known) === memoGap(known)) gap = memoGap(known);
  else {
    gap = pairGap(shapeA, shapeB, ox, oy, cut);
    if (known !== 0) fillMemo(known, gap);
    if (gap < thinnest()) {
      let kind = kindOf(a, b);
      if (kind === BETWEEN && nearPocket()) kind = POCKET;
      const from = offset + (<usize>a << 4);
      noteWall(gap, kind, load<f64>(from) + nearestX, load<f64>(from, 8) + nearestY, nearestZ, i, j);
    }
  }
  if (gap < 0) addOverlap(kindOf(a, b), -gap);
}

function kindOf(a: i32, b: i32): i32 {
  const post = a >= channels ? a : b >= channels ? b : -1;
  if (post < 0) return BETWEEN;
  return post - channels < holes ? HOLE : EDGE;
}

function nearPocket(): bool {
  return (load<u16>(pocketed + stationA) | load<u16>(pocketed + stationB)) !== 0;
}

/** Boxes by their west sides, ties by index: f64 west, east, south, north, i32 index. */
function sortByWest(): void {
  const keys = sortedKeys();
  for (let n = 0; n < placed; n++) {
    const key = keys + <usize>n * KEY;
    const i = load<i32>(key, 8);
    const b = box + <usize>load<i32>(shapeOf + (<usize>i << 2)) * BOX;
    const at = offset + (<usize>i << 4);
    const x = load<f64>(at);
    const y = load<f64>(at, 8);
    const reach = load<f64>(b, 48);
    const to = sorted + <usize>n * SORTED;
    store<f64>(to, load<f64>(key));
    store<f64>(to, load<f64>(b, 24) + x + reach, 8);
    store<f64>(to, load<f64>(b, 8) + y - reach, 16);
    store<f64>(to, load<f64>(b, 32) + y + reach, 24);
    store<i32>(to, i, 32);
  }
}

/** Runs of so many are sorted by insertion first. */
const RUN = 8;

/** West sides with their indices, merged run by run from one half to the other; where they ended up. */
function sortedKeys(): usize {
  let from = sorted + <usize>placed * SORTED;
  let to = from + <usize>placed * KEY;
  for (let i = 0; i < placed; i++) {
    const b = box + <usize>load<i32>(shapeOf + (<usize>i << 2)) * BOX;
    const west = load<f64>(b) + load<f64>(offset + (<usize>i << 4)) - load<f64>(b, 48);
    let key = from + <usize>i * KEY;
    const start = from + <usize>(i & -RUN) * KEY;
    for (; key > start && load<f64>(key - KEY) > west; key -= KEY) {
      v128.store(key, v128.load(key - KEY));
    }
    store<f64>(key, west);
    store<i32>(key, i, 8);
  }
  for (let width = RUN; width < placed; width *= 2) {
    let out = to;
    for (let start = 0; start < placed; start += 2 * width) {
      let a = from + <usize>start * KEY;
      const endA = from + <usize>min(start + width, placed) * KEY;
      let b = endA;
      const endB = from + <usize>min(start + 2 * width, placed) * KEY;
      while (a < endA && b < endB) {
        const takesB = load<f64>(b) < load<f64>(a);
        const next = takesB ? b : a;
        v128.store(out, v128.load(next));
        b += takesB ? KEY : 0;
        a += takesB ? 0 : KEY;
        out += KEY;
      }
      for (; a < endA; a += KEY, out += KEY) v128.store(out, v128.load(a));
      for (; b < endB; b += KEY, out += KEY) v128.store(out, v128.load(b));
    }
    const held = from;
    from = to;
    to = held;
  }
  return from;
}
