/** A march broken off and gone on with, on a short bore of few cells. */
import { describe, expect, it } from 'vitest';
import { createPlenumScene } from '../../../src/flow/duct.ts';
import { createGrid, solveBytes } from '../../../src/flow/grid.ts';
import { memoryRefusal, verifyBytes, verifyDuct } from '../../../src/flow/index.ts';
import type { DuctVerified, VerifyState } from '../../../src/flow/index.ts';
import { plenumOf } from '../../../src/flow/levels.ts';
import { createLinks } from '../../../src/flow/links.ts';
import { judgeReadings } from '../../../src/flow/settling.ts';
import { solveDuct } from '../../../src/flow/solve.ts';
import type { MarchState, SolveOptions, Solved } from '../../../src/flow/solve.ts';
import { roundDuct } from '../../support/lattice-fields.ts';

const duct = roundDuct(4, 4);
const options: SolveOptions = {
  side_mm: 5,
  cells: 6,
  inletLength_mm: 3,
  outletLength_mm: 4,
  reynolds: 60,
  tolerance: 0.002,
  maxSteps: 600,
  speed: 0.1,
  subgrid: 0.05,
};

function solve(saved?: MarchState, breakAt = Infinity): Solved | MarchState {
  const march = solveDuct(duct, options, saved);
  for (;;) {
    const next = march.next();
    if (next.done === true) return next.value;
    if (next.value.step >= breakAt) return structuredClone(next.value.save());
  }
}

function solved(from?: MarchState): Solved {
  const found = solve(from);
  if ('loss' in found) return found;
  throw new Error('the march was broken off');
}

describe('solveDuct()', () => {
  it('goes on from a saved state to the same numbers, bit for bit', () => {
    const whole = solved();
    const state = solve(undefined, 144);
    if ('loss' in state) throw new Error('the march ended too soon');
    expect(state.step).toBe(144);
    const resumed = solved(state);
    expect(resumed.loss).toBe(whole.loss);
    expect(resumed.massError).toBe(whole.massError);
    expect(resumed.steps).toBe(whole.steps);
    const { grid } = whole;
    const a = whole.kernel.populations();
    const b = resumed.kernel.populations();
    let differing = 0;
    for (let x = 0; x < grid.nx; x++) {
      for (let y = 0; y < grid.ny; y++) {
        for (let z = 0; z < grid.nz; z++) {
          if (!grid.isFluid(x, y, z)) continue;
          const at = grid.address(x, y, z);
          for (let i = 0; i < 19; i++)
            if (a[i * grid.size + at] !== b[i * grid.size + at]) differing++;
        }
      }
    }
    expect(differing).toBe(0);
  });

  it('refuses a state of another grid', () => {
    const state = solve(undefined, 48);
    if ('loss' in state) throw new Error('the march ended too soon');
    const march = solveDuct(duct, { ...options, cells: 8 }, state);
    expect(() => march.next()).toThrow(/another grid/);
  });

  it('loses no air through walls', () => {
    // Steady flow through solid walls: what goes in comes out (continuity).
    expect(Math.abs(solved().massError)).toBeLessThan(1e-3);
  });
});

describe('verifyDuct()', () => {
  it('goes on from a saved state, on either grid, to the same result', () => {
    const whole = verify();
    for (const breakAt of [1, 2]) {
      const state = verify(undefined, breakAt);
      if (!('march' in state)) throw new Error('the march ended too soon');
      const resumed = verify(structuredClone(state));
      if ('march' in resumed || 'march' in whole) throw new Error('the march was broken off');
      expect(resumed.loss).toBe(whole.loss);
      expect(resumed.uncertainty).toBe(whole.uncertainty);
      expect(resumed.grids).toEqual(whole.grids);
    }
  });

  it('tells how far it is, without going back', () => {
    let before = 0;
    const march = verifyDuct(duct, { side_mm: 5, cells: 6, reynolds: 60, narrowing: 1 });
    for (let next = march.next(); next.done !== true; next = march.next()) {
      expect(next.value.done).toBeGreaterThan(before - 0.05);
      expect(next.value.done).toBeLessThanOrEqual(1);
      expect(next.value.step).toBeLessThanOrEqual(next.value.expected);
      before = next.value.done;
    }
    expect(before).toBeGreaterThan(0.9);
  });
});

function verify(saved?: VerifyState, breakInPass = Infinity): DuctVerified | VerifyState {
  const march = verifyDuct(duct, { side_mm: 5, cells: 6, reynolds: 60, narrowing: 1 }, saved);
  let readings = 0;
  for (;;) {
    const next = march.next();
    if (next.done === true) return next.value;
    if (next.value.pass === breakInPass && ++readings === 5) return next.value.save();
  }
}

describe('judgeReadings()', () => {
  it('foretells what a decaying mode still changes', () => {
    // 2 (1 + 0.1 2^(-n/10)): at n = 60 the mean of the last ten is still off by a known geometric rest.
    const readings = Array.from({ length: 60 }, (_, n) => 2 * (1 + 0.1 * 0.5 ** (n / 10)));
    const verdict = judgeReadings(readings, 10, 1e-9, false);
    const last = readings.slice(50).reduce((a, b) => a + b, 0) / 10;
    expect(verdict.settled).toBe(false);
    expect(verdict.remaining).toBeCloseTo((last - 2) / last, 6);
  });

  it('settles on an even run of readings, and not before it is long enough', () => {
    const even = Array.from({ length: 100 }, () => 2.5);
    expect(judgeReadings(even.slice(0, 20), 10, 0.001, false).settled).toBe(false);
    expect(judgeReadings(even, 10, 0.001, false)).toMatchObject({ settled: true, mean: 2.5 });
  });
});

describe('memoryRefusal()', () => {
  it('names cells, memory and remedy, and the remedy is then taken', () => {
    const long = roundDuct(3, 60);
    const wide = { side_mm: 8, cells: 24, reynolds: 300, narrowing: 1 };
    const refusal = memoryRefusal(long, wide);
    const [, cells, megabytes, fewer] =
      /of ([\d.]+) cells across would take up to (\d+) MB, more than the 150 MB allowed; take (\d+) cells/.exec(
        refusal ?? '',
      ) ?? [];
    expect(Number(cells)).toBe(32);
    expect(Number(megabytes)).toBeGreaterThan(150);
    expect(memoryRefusal(long, { ...wide, cells: Number(fewer) })).toBeNull();
    expect(() => verifyDuct(long, wide).next()).toThrow(/150 MB/);
  });

  it('estimates no less than a solve takes', () => {
    const asked = { side_mm: [6, 5] as const, cells: 10, reynolds: 300, narrowing: 1 };
    const scene = createPlenumScene(roundDuct(4, 8), plenumOf(roundDuct(4, 8), asked, 4 / 3));
    const grid = createGrid(scene);
    const taken = solveBytes(grid.size, createLinks(scene, grid).count);
    const estimate = verifyBytes(roundDuct(4, 8), asked);
    expect(estimate).toBeGreaterThan(taken);
    expect(estimate).toBeLessThan(2 * taken);
  });
});
