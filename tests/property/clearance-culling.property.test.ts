import { describe, expect, it } from 'vitest';
import { sampleDesign } from '../../src/design/index.ts';
import { createStream } from '../../src/numeric/index.ts';
import { packTubes } from '../../src/measures/clearance/pack-tubes.ts';
import { visitSelf } from '../../src/measures/clearance/own-walls.ts';
import { dropParted } from '../../src/measures/clearance/parting-planes.ts';
import { contact, segmentGap } from '../../src/measures/clearance/segment-gap.ts';
import { createTally } from '../../src/measures/clearance/tally.ts';
import { createTubes } from '../../src/measures/clearance/tubes.ts';
import type { Tubes } from '../../src/measures/clearance/tubes.ts';
import { aTangle, boresOf, clearance } from '../support/clearance-plates.ts';

const FACING = 0.75;
const LEAST_TURN = 1.44;

/** Middle of a piece and its chord. */
function pieceOf(t: Tubes, k: number): { middle: number[]; chord: number[] } {
  const from = t.point.subarray(3 * k, 3 * k + 3);
  const to = t.point.subarray(3 * k + 3, 3 * k + 6);
  return {
    middle: [0, 1, 2].map((d) => 0.5 * (from[d] + to[d])),
    chord: [0, 1, 2].map((d) => to[d] - from[d]),
  };
}

function dot(a: readonly number[], b: readonly number[]): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

/** The rule for a channel against itself, over every pair of its pieces and without any bound. */
function bruteSelf(t: Tubes, shape: number): { wall: number; depth: number } {
  const base = shape * t.stations;
  const step = t.length_mm[shape] / (t.stations - 1);
  let wall = 8;
  let depth = 0;
  for (let i = base; i < base + t.stations - 1; i++) {
    for (let j = i + 2; j < base + t.stations - 1; j++) {
      if (t.turn[j + 1] - t.turn[i] < LEAST_TURN) continue;
      const a = pieceOf(t, i);
      const b = pieceOf(t, j);
      const line = b.middle.map((x, d) => x - a.middle[d]);
      const most = FACING * step * Math.sqrt(dot(line, line));
      const isApart = dot(line, line) > 4 * step * step;
      if (isApart && Math.max(Math.abs(dot(line, a.chord)), Math.abs(dot(line, b.chord))) > most) {
        continue;
      }
      const gap = segmentGap(t, shape, i, shape, j, 0, 0, 1e9, FACING);
      if (gap === Infinity) continue;
      wall = Math.min(wall, gap > 0 ? gap / Math.sqrt(1 - contact.lean * contact.lean) : gap);
      depth = Math.max(depth, -gap);
    }
  }
  return { wall, depth };
}

describe('culling in the clearance kernel', () => {
  it.each([
    ['wild', 8, false],
    ['wilder', 14, false],
    ['mixed', 10, true],
  ] as const)('leaves the wall of a channel to itself as it is: %s', (seed, wander, mixed) => {
    const design = aTangle(seed, 25, wander, 10, mixed);
    const samples = sampleDesign(design, 32);
    const t = createTubes(samples);
    packTubes(t, samples, boresOf(design, samples));
    let seen = 0;
    for (let m = 0; m < 25; m++) {
      const brute = bruteSelf(t, m);
      const tally = createTally(8);
      const depth = visitSelf(t, tally, m, m);
      expect(Math.abs(depth - brute.depth)).toBeLessThan(1e-9);
      expect(Math.abs(tally.thinnest_mm - brute.wall)).toBeLessThan(1e-9);
      if (brute.wall < 8) seen++;
    }
    expect(seen).toBeGreaterThan(5);
  });

  it.each([
    ['parted', 3, 0.4],
    ['touching', 6, 0],
    ['sunken', 10, -0.5],
  ] as const)('passes over no pair of pieces nearer than asked: %s', (seed, wander, cut) => {
    const plain = aTangle(seed, 12, wander, 8, true);
    // Every other channel with a pocket, at a side of its own.
    const channels = plain.channels.map((channel, i) => {
      const side_deg = 40 * i;
      const pocket = { at: 0.5, length_mm: 8, depth_mm: 1.5, width_deg: 80, side_deg };
      return i % 2 === 0 ? channel : { ...channel, pockets: [pocket] };
    });
    const design = { ...plain, channels };
    const samples = sampleDesign(design, 32);
    const t = createTubes(samples);
    packTubes(t, samples, boresOf(design, samples));
    const random = createStream('tests/parting', seed);
    const all = new Int32Array(t.blockSize * t.blockSize);
    const bounds = new Float64Array(all.length);
    let dropped = 0;
    for (let trial = 0; trial < 400; trial++) {
      const [a, b, blockA, blockB] = [12, 12, t.blocks, t.blocks].map((n) =>
        Math.trunc(random.next() * n),
      );
      const ox = t.offset[2 * b] - t.offset[2 * a];
      const oy = t.offset[2 * b + 1] - t.offset[2 * a + 1];
      let count = 0;
      for (let i = blockA * t.blockSize; i < Math.min(31, (blockA + 1) * t.blockSize); i++) {
        for (let j = blockB * t.blockSize; j < Math.min(31, (blockB + 1) * t.blockSize); j++) {
          all[count++] = i * t.stations + j;
        }
      }
      const listed = all.slice(0, count);
      // Mostly towards the other block, else anywhere.
      const from = 3 * (t.shapeOf[a] * t.stations + blockA * t.blockSize);
      const to = 3 * (t.shapeOf[b] * t.stations + blockB * t.blockSize);
      const way = Float64Array.from([ox, oy, 0], (o, d) => {
        return t.point[to + d] + o - t.point[from + d] + 6 * (random.next() - 0.5);
      });
      const length = Math.sqrt(dot([...way], [...way]));
      for (let d = 0; d < 3; d++) way[d] /= length;
      const [shapeA, shapeB] = [t.shapeOf[a], t.shapeOf[b]];
      const left = dropParted(
        t,
        shapeA,
        blockA,
        shapeB,
        blockB,
        ox,
        oy,
        cut,
        all,
        bounds,
        0,
        count,
        way,
      );
      const kept = new Set(all.subarray(0, left));
      for (const pair of listed) {
        if (kept.has(pair)) continue;
        const i = shapeA * t.stations + Math.trunc(pair / t.stations);
        const j = shapeB * t.stations + (pair % t.stations);
        const gap = segmentGap(t, shapeA, i, shapeB, j, ox, oy, 1e9);
        expect(gap).toBeGreaterThanOrEqual(Math.max(cut, 0));
        dropped++;
      }
    }
    expect(dropped).toBeGreaterThan(1000);
  });

  it('gives one report whatever the size of the blocks', () => {
    for (const [seed, wander, mixed] of [
      ['sound', 1, false],
      ['bent', 4, true],
      ['tangled', 9, false],
    ] as const) {
      const design = aTangle(seed, 16, wander, 8, mixed);
      const eight = clearance(design, 32, 8);
      for (const size of [1, 3, 5, 31, 40]) expect(clearance(design, 32, size)).toEqual(eight);
    }
  });
});
