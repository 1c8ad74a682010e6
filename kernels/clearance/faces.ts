/** Walls to the faces, as in src/measures/clearance/face-walls.ts, where the rule is told. */
import { aboveFace, mouthLength, towardsFace } from './ports';
import {
  BOX,
  F,
  V,
  bareReach,
  block,
  blockSize,
  blocks,
  bore,
  length,
  offset,
  point,
  stations,
  tangent,
  thickness,
} from './state';
import { FACE, noteWall, thinnest } from './tally';

const UPRIGHT: f64 = 0.5868240888334652;
const BESIDE: f64 = 0.6427876096865393;
const BELOW: f64 = 0.8660254037844386;
const STRAY: f64 = 1e-6;
const FAR: f64 = 1e-9;

export function visitFace(shape: i32, lipLength: f64, channel: i32, end: i32): f64 {
  const base = shape * stations;
  const step = load<f64>(length + (<usize>shape << 3)) / (stations - 1);
  const origin = end === 0 ? base : base + stations - 1;
  const longest = 2 * mouthLength(shape, end) + 0.5 * load<f64>(bore + <usize>origin * F);
  const at = offset + (<usize>channel << 4);
  const ox = load<f64>(at);
  const oy = load<f64>(at, 8);
  let depth: f64 = 0;
  let lip: f64 = -1;
  let before: f64 = 0;
  const way = end === 0 ? 1 : -1;
  let b = end === 0 ? 1 : blocks - 2;
  let gate = end === 0 ? blockSize : (blocks - 1) * blockSize;
  for (let s = origin - base; s >= 0 && s < stations; s += way) {
    if (s === gate) {
      if (lip >= 0) {
        while (isFar(shape, b, end)) {
          b += way;
          gate += way * blockSize;
          if (b < 0 || b >= blocks) return depth;
        }
        s = gate;
      }
      b += way;
      gate += way * blockSize;
    }
    const n = end === 0 ? s : stations - 1 - s;
    const k = base + s;
    const p = point + <usize>k * V;
    const rise = load<f64>(tangent + <usize>k * V, 16);
    const pz = load<f64>(p, 16);
    const height = end === 0 ? pz : thickness - pz;
    if (height < -STRAY) {
      if (-height > depth) depth = -height;
      noteWall(height, FACE, ox + load<f64>(p), oy + load<f64>(p, 8), pz, channel, -1);
    }
    if (lip >= 0) {
      const spare = height - load<f64>(bareReach + <usize>k * F);
      if (spare >= 0 && (rise * rise >= UPRIGHT || spare >= thinnest())) continue;
    }
    const clear = height - towardsFace(shape, k, end);
    const arc = n * step;
    if (lip < 0) {
      if (clear >= -1e-9) lip = before < 0 ? arc - (step * clear) / (clear - before) : arc;
      else if (arc >= longest) lip = longest;
    }
    if (lip >= 0) {
      if (clear < 0 && -clear > depth) depth = clear > -1e-6 ? depth : -clear;
      const past = arc - lip - lipLength;
      if (past >= 0) {
        const x = ox + load<f64>(p);
        const y = oy + load<f64>(p, 8);
        const z = end === 0 ? 0.5 * clear : thickness - 0.5 * clear;
        if (past < step && n > 0) {
          const share = past / step;
          const back = end === 0 ? k - 1 : k + 1;
          before = aboveFace(back, end) - towardsFace(shape, back, end);
          const start = clear + share * (before - clear);
          noteWall(faceWall(start, rise), FACE, x, y, z, channel, -1);
        }
        noteWall(faceWall(clear, rise), FACE, x, y, z, channel, -1);
      }
    }
    before = clear;
  }
  return depth;
}

function isFar(shape: i32, b: i32, end: i32): bool {
  if (b < 0 || b >= blocks) return false;
  const o = block + <usize>(shape * blocks + b) * BOX;
  const height = end === 0 ? load<f64>(o, 16) : thickness - load<f64>(o, 40);
  const least = thinnest();
  return height - load<f64>(o, 48) > (least > 0 ? least : 0) + FAR;
}

function faceWall(clear: f64, rise: f64): f64 {
  const lean = Math.sqrt(Math.max(0, 1 - rise * rise));
  if (lean <= BESIDE) return Infinity;
  if (clear <= 0) return clear;
  const share = lean >= BELOW ? 1 : (lean - BESIDE) / (BELOW - BESIDE);
  return clear / (lean * share * share * (3 - 2 * share));
}
