/** `src/print/carve.ts`: cutting a tube's wall by the layer planes. */
import { addSegment, clearBetween, startLayer, wasFull } from './crossings';
import {
  A, FIRST, HIGH, LAST, LOW, PLACE, QUAD, QUADS_FROM, U, V, WALL,
  a0_mm, edge, f, layers, mostQuads, mostRings, mostVertices, n, perLayer, perPixel, setF, setN, u0_mm, v0_mm,
} from './state';

/**
 * Clears one placed tube, whose wall stands at `WALL`, from all layers.
 *
 * @returns 0 when there was no room: some of it may be cleared, the plain form then clears all.
 */
export function carveTube(rings: i32, points: i32, x_mm: f64, y_mm: f64): i32 {
  if (rings > mostRings || rings * points > mostVertices) return 0;
  toGrid(rings, points, x_mm, y_mm);
  let bottom = Infinity;
  let top = -Infinity;
  for (let s = 0; s < rings; s++) {
    bottom = Math.min(bottom, f(LOW, s));
    top = Math.max(top, f(HIGH, s));
  }
  const from = max(0, <i32>Math.ceil(bottom));
  const to = min(layers - 1, <i32>Math.floor(top));
  if (to < from) return 1;
  if (isUpright(rings, points)) {
    cutUpright(rings, points, from, to);
    return wasFull() ? 0 : 1;
  }
  if (!listQuads(rings - 1, points, from, to)) return 0;
  for (let layer = from; layer <= to; layer++) {
    startLayer();
    const end = n(QUADS_FROM, layer - from + 1);
    for (let k = n(QUADS_FROM, layer - from); k < end; k++) cutQuad(n(QUAD, k), points, layer);
    clearBetween(layer, layer);
  }
  return wasFull() ? 0 : 1;
}

function toGrid(rings: i32, points: i32, x_mm: f64, y_mm: f64): void {
  for (let s = 0; s < rings; s++) {
    let least = Infinity;
    let most = -Infinity;
    for (let k = s * points; k < (s + 1) * points; k++) {
      const y = f(WALL, 3 * k + 1) + y_mm;
      const z = f(WALL, 3 * k + 2);
      const up = ((edge ? y : z) - a0_mm) * perLayer;
      setF(U, k, (f(WALL, 3 * k) + x_mm - u0_mm) * perPixel);
      setF(V, k, ((edge ? z : y) - v0_mm) * perPixel);
      setF(A, k, up);
      if (up < least) least = up;
      if (up > most) most = up;
    }
    setF(LOW, s, least);
    setF(HIGH, s, most);
  }
}

function isUpright(rings: i32, points: i32): bool {
  for (let k = points; k < rings * points; k++) if (f(A, k) <= f(A, k - points)) return false;
  return true;
}

function isPlumb(rings: i32, points: i32): bool {
  for (let k = points; k < rings * points; k++) {
    if (f(U, k) !== f(U, k - points) || f(V, k) !== f(V, k - points)) return false;
  }
  return true;
}

function cutUpright(rings: i32, points: i32, from: i32, to: i32): void {
  const last = (rings - 1) * points;
  const same = isPlumb(rings, points);
  for (let j = 0; j < points; j++) setN(PLACE, j, j);
  for (let layer = from; layer <= to; layer++) {
    startLayer();
    const height = <f64>layer;
    let u0: f64 = 0;
    let v0: f64 = 0;
    let u1: f64 = 0;
    let v1: f64 = 0;
    for (let j = 0; j < points; j++) {
      let k = n(PLACE, j);
      while (k + points < last && f(A, k + points) <= height) k += points;
      setN(PLACE, j, k);
      const m = k + points;
      const t = (height - f(A, k)) / (f(A, m) - f(A, k));
      const u2 = f(U, k) + t * (f(U, m) - f(U, k));
      const v2 = f(V, k) + t * (f(V, m) - f(V, k));
      if (j === 0) {
        u0 = u2;
        v0 = v2;
      } else addSegment(u1, v1, u2, v2);
      u1 = u2;
      v1 = v2;
    }
    addSegment(u1, v1, u0, v0);
    clearBetween(layer, same ? to : layer);
    if (same) return;
  }
}

/** Lists the quads that each layer cuts, in their order along and around the wall. */
function listQuads(bands: i32, points: i32, from: i32, to: i32): bool {
  const count = to - from + 1;
  memory.fill(QUADS_FROM, 0, 4 * <usize>(count + 1));
  let cuts = 0;
  for (let s = 0; s < bands; s++) {
    let p = (s + 1) * points - 1;
    for (let j = 0; j < points; j++) {
      const q = s * points + j;
      const a = f(A, p);
      const b = f(A, p + points);
      const c = f(A, q);
      const d = f(A, q + points);
      const low = Math.min(Math.min(a, b), Math.min(c, d));
      const high = Math.max(Math.max(a, b), Math.max(c, d));
      // Cut where a corner lies above the layer and another does not.
      const bottom = max(from, <i32>Math.ceil(low));
      const top = min(to, <i32>Math.ceil(high) - 1);
      setN(FIRST, q, bottom);
      setN(LAST, q, top);
      for (let k = bottom - from; k <= top - from; k++) setN(QUADS_FROM, k, n(QUADS_FROM, k) + 1);
      cuts += max(0, top - bottom + 1);
      p = q;
    }
  }
  if (cuts > mostQuads) return false;
  for (let k = 1; k <= count; k++) setN(QUADS_FROM, k, n(QUADS_FROM, k) + n(QUADS_FROM, k - 1));
  // From the last quad back, so that each layer's places fill from their end.
  for (let q = bands * points - 1; q >= 0; q--) {
    const top = n(LAST, q) - from;
    for (let k = n(FIRST, q) - from; k <= top; k++) {
      const place = n(QUADS_FROM, k) - 1;
      setN(QUADS_FROM, k, place);
      setN(QUAD, place, q);
    }
  }
  return true;
}

function cutQuad(q: i32, points: i32, layer: i32): void {
  const height = <f64>layer;
  const p = q % points === 0 ? q + points - 1 : q - 1;
  const r = p + points;
  const s = q + points;
  const pUp = f(A, p) > height;
  const qUp = f(A, q) > height;
  const rUp = f(A, r) > height;
  const sUp = f(A, s) > height;
  if (pUp === qUp && rUp === sUp) {
    // The plane passes between the two rings: one segment, the diagonal is of no interest.
    const p0 = sUp ? p : r;
    const p1 = sUp ? r : p;
    const q0 = sUp ? q : s;
    const q1 = sUp ? s : q;
    const t1 = (height - f(A, p0)) / (f(A, p1) - f(A, p0));
    const t2 = (height - f(A, q0)) / (f(A, q1) - f(A, q0));
    const u1 = f(U, p0) + t1 * (f(U, p1) - f(U, p0));
    const v1 = f(V, p0) + t1 * (f(V, p1) - f(V, p0));
    const u2 = f(U, q0) + t2 * (f(U, q1) - f(U, q0));
    const v2 = f(V, q0) + t2 * (f(V, q1) - f(V, q0));
    if (sUp) addSegment(u1, v1, u2, v2);
    else addSegment(u2, v2, u1, v1);
    return;
  }
  if (pUp !== qUp || pUp !== rUp) cutTriangle(p, q, r, height);
  if (qUp !== sUp || qUp !== rUp) cutTriangle(q, s, r, height);
}

function cutTriangle(p: i32, q: i32, r: i32, height: f64): void {
  const pUp = f(A, p) > height;
  const qUp = f(A, q) > height;
  const rUp = f(A, r) > height;
  // The odd corner goes first.
  if (qUp === rUp) cutCorner(p, q, r, pUp, height);
  else if (pUp === rUp) cutCorner(q, r, p, qUp, height);
  else cutCorner(r, p, q, rUp, height);
}

function cutCorner(odd: i32, next: i32, last: i32, oddUp: bool, height: f64): void {
  // Both triangles at an edge must find the very same point: always go from below to above.
  const a0 = f(A, odd);
  const a1 = f(A, next);
  const a2 = f(A, last);
  if (oddUp) {
    const t1 = (height - a1) / (a0 - a1);
    const t2 = (height - a2) / (a0 - a2);
    addSegment(
      f(U, next) + t1 * (f(U, odd) - f(U, next)),
      f(V, next) + t1 * (f(V, odd) - f(V, next)),
      f(U, last) + t2 * (f(U, odd) - f(U, last)),
      f(V, last) + t2 * (f(V, odd) - f(V, last)),
    );
  } else {
    const t1 = (height - a0) / (a2 - a0);
    const t2 = (height - a0) / (a1 - a0);
    addSegment(
      f(U, odd) + t1 * (f(U, last) - f(U, odd)),
      f(V, odd) + t1 * (f(V, last) - f(V, odd)),
      f(U, odd) + t2 * (f(U, next) - f(U, odd)),
      f(V, odd) + t2 * (f(V, next) - f(V, odd)),
    );
  }
}
