/** The conduction solver on nets whose answers are known in closed form. */
import { describe, expect, it } from 'vitest';
import {
  AIR_WAY,
  addStream,
  createLayerHeat,
  solveHeat,
  solveLayers,
  startLayers,
} from '../../../src/physics/index.ts';
import {
  apply,
  applyBetween,
  prepare,
  solveLower,
  solveUpper,
  sumAstray,
} from '../../../src/physics/heat-factors.ts';
import type { HeatNet } from '../../../src/physics/index.ts';
import { createStream } from '../../../src/numeric/index.ts';

/** A bar of cells from the hot body on, each with one patch; streams as given by their rings' cells. */
function aBar(
  cells: number,
  between: number,
  face: number,
  streams: readonly { capacity: number; patch: number; cells: readonly number[]; way?: number }[],
): HeatNet {
  const next = new Int32Array(3 * cells).fill(cells);
  const toNext = new Float64Array(3 * cells);
  for (let i = 0; i + 1 < cells; i += 1) {
    next[3 * i] = i + 1;
    toNext[3 * i] = between;
  }
  const toFace = new Float64Array(cells);
  toFace[0] = face;
  const patchCell = streams.flatMap((stream) => stream.cells);
  const streamStart = [0];
  let rings = 0;
  for (const stream of streams) {
    rings += stream.cells.length;
    streamStart.push(rings);
  }
  return {
    count: cells,
    next,
    toNext_W_per_K: toNext,
    toFace_W_per_K: toFace,
    streams: streams.length,
    streamStart: Int32Array.from(streamStart),
    capacity_W_per_K: Float64Array.from(streams, (stream) => stream.capacity),
    way: Int8Array.from(streams, (stream) => stream.way ?? AIR_WAY.through),
    ringStart: Int32Array.from({ length: patchCell.length + 1 }, (_, r) => r),
    patchCell: Int32Array.from(patchCell),
    patch_W_per_K: Float64Array.from(
      streams.flatMap((stream) => stream.cells.map(() => stream.patch)),
    ),
  };
}

const upTo = (count: number): number[] => Array.from({ length: count }, (_, i) => i);

describe('solveHeat()', () => {
  it.each([0.4, 1, 3])('gives the straight fin at mL %d', (mL) => {
    const n = 200;
    // k A/L = 1, h P L = mL^2, air that cannot warm up.
    const net = aBar(n, n, 2 * n, [{ capacity: 1e9, patch: (mL * mL) / n, cells: upTo(n) }]);
    const solved = solveHeat(net, new Float64Array(n + 1));
    expect(solved.settled).toBe(true);
    expect(solved.fromFace_W_per_K / (mL * Math.tanh(mL))).toBeCloseTo(1, 3);
  });

  it('gives a wall of one temperature its exchanger', () => {
    const net = aBar(4, 1e7, 1e7, [{ capacity: 0.5, patch: 0.25, cells: upTo(4) }]);
    const solved = solveHeat(net, new Float64Array(5));
    expect(solved.toAir_W_per_K / (0.5 * -Math.expm1(-2))).toBeCloseTo(1, 5);
  });

  it('mixes the air of streams that meet, and carries it on', () => {
    const net = aBar(2, 1e7, 1e7, [
      { capacity: 1, patch: 0.4, cells: [0], way: AIR_WAY.mixes },
      { capacity: 3, patch: 0.6, cells: [1], way: AIR_WAY.mixes },
      { capacity: 4, patch: 2, cells: [0], way: AIR_WAY.shares },
    ]);
    const mixed = (1 * -Math.expm1(-0.4) + 3 * -Math.expm1(-0.2)) / 4;
    const out = 1 - (1 - mixed) * Math.exp(-0.5);
    const solved = solveHeat(net, new Float64Array(3));
    expect(solved.toAir_W_per_K / (4 * out)).toBeCloseTo(1, 4);
    const heat = createLayerHeat(2);
    heat.between_W_per_K.fill(1e7);
    startLayers(heat, 1e7);
    const ways = [
      [1, 0.4, AIR_WAY.mixes],
      [3, 0.2, AIR_WAY.mixes],
      [4, 0.5, AIR_WAY.shares],
    ] as const;
    for (const [capacity_W_per_K, units, way] of ways) {
      addStream(heat, {
        count: 1,
        capacity_W_per_K,
        steps: 1,
        units: Float64Array.of(units),
        scale: 1,
        place: Float64Array.of(0.5),
        way,
      });
    }
    expect(solveLayers(heat, 1e7) / (4 * out)).toBeCloseTo(1, 4);
  });

  it('takes the same heat from air that runs the other way', () => {
    const run = (cells: readonly number[]): number =>
      solveHeat(aBar(30, 20, 50, [{ capacity: 0.7, patch: 0.2, cells }]), new Float64Array(31))
        .fromFace_W_per_K;
    expect(run(upTo(30)) / run(upTo(30).toReversed())).toBeCloseTo(1, 4);
  });

  it('gives to the air what leaves the hot body on any net, crumbs included', () => {
    const random = createStream('conduction-net');
    for (let trial = 0; trial < 20; trial += 1) {
      const n = 40;
      const streams = upTo(5).map(() => ({
        capacity: 0.1 + 3 * random.next(),
        patch: 0.05 + random.next(),
        cells: upTo(12).map(() => Math.trunc(random.next() * (n - 2))),
      }));
      const net = aBar(n, 5 * random.next() + 0.1, 3, streams);
      // The last two cells hang together and touch nothing else.
      net.toNext_W_per_K[3 * (n - 3)] = 0;
      const solved = solveHeat(net, new Float64Array(n + 1).fill(0.3));
      expect(solved.settled).toBe(true);
      expect(Math.abs(solved.toAir_W_per_K / solved.fromFace_W_per_K - 1)).toBeLessThan(1e-9);
      for (const share of solved.share.subarray(0, n - 2)) {
        expect(share).toBeGreaterThan(0);
        expect(share).toBeLessThan(1);
      }
    }
  });
});

describe('the factors of a net', () => {
  const net = aBar(30, 2, 5, [
    { capacity: 0.7, patch: 0.3, cells: upTo(30) },
    { capacity: 1.1, patch: 0.2, cells: upTo(30).toReversed() },
  ]);
  const random = createStream('factors');
  const p = Float64Array.from({ length: 31 }, (_, i) => (i < 30 ? random.next() - 0.5 : 0));

  it('applyBetween() is the product with the matrix between the two factors', () => {
    const work = prepare(net);
    const [y, product, lower, between] = [0, 0, 0, 0].map(() => new Float64Array(31));
    solveUpper(work, p, y);
    apply(work, y, product);
    solveLower(work, product, lower);
    applyBetween(work, p, y, between);
    for (let i = 0; i < 30; i++) expect(between[i]).toBeCloseTo(lower[i], 12);
  });

  it('sumAstray() gives back the heats that solveLower() was given', () => {
    const work = prepare(net);
    const r = new Float64Array(31);
    solveLower(work, p.slice(), r);
    const sum = p.reduce((all, each) => all + Math.abs(each), 0);
    expect(sumAstray(work, r)).toBeCloseTo(sum, 12);
  });
});
