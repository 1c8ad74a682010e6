import { totalmem } from 'node:os';
import { describe, expect, it } from 'vitest';
import { workersFor } from '../../../src/cli/verify-drive.ts';
import { VerifyClock } from '../../../src/cli/verify-progress.ts';

describe('VerifyClock', () => {
  it('never goes back, and ends at 1', () => {
    const clock = new VerifyClock([1, 3], 0);
    const seen = [clock.done];
    for (const [pass, step] of [
      [1, 1000],
      [1, 30_000],
      [2, 50],
      [2, 9000],
    ] as const) {
      clock.follow(0, { pass, step, loss: 2 });
      seen.push(clock.done);
    }
    clock.end(0);
    seen.push(clock.done);
    expect(seen).toEqual(seen.toSorted((a, b) => a - b));
    expect(clock.done).toBeCloseTo(0.25, 12);
    clock.end(1);
    expect(clock.done).toBe(1);
    expect(clock.left_s(5000)).toBe(0);
  });

  it('tells the time left by the pace so far', () => {
    const clock = new VerifyClock([1, 3], 1000);
    expect(clock.left_s(1000)).toBeNull();
    clock.end(0);
    // A quarter took 10 s: three quarters take 30 s.
    expect(clock.left_s(11_000)).toBeCloseTo(30, 9);
    clock.follow(1, { pass: 1, step: 700, loss: 1.234 });
    expect(clock.line(11_000, () => 'd001')).toMatch(
      /^flow 2\/2 \[={4}\.{12}\] {2}\d+ s left {2}d001: grid 1 of 2, step 700, loss 1\.234$/,
    );
  });
});

describe('workersFor()', () => {
  const tasks = [{ memory_bytes: 100e6 }, { memory_bytes: 60e6 }, { memory_bytes: 60e6 }];

  it('takes no more workers than tasks, nor than fit into the memory', () => {
    expect(workersFor(tasks, { workers: 8, most: 2, memory_MB: 1000 })).toBe(3);
    expect(workersFor(tasks.slice(0, 1), { workers: null, most: 2, memory_MB: 1000 })).toBe(1);
    expect(workersFor(tasks, { workers: null, most: 2, memory_MB: 100 })).toBe(1);
  });

  it('refuses workers that were asked for and do not fit, and names a number that does', () => {
    expect(() => workersFor(tasks, { workers: 3, most: 2, memory_MB: 250 })).toThrow(
      /300 MB for 3 at once.*within 250 MB.*--workers 2/,
    );
    expect(() => workersFor(tasks, { workers: null, most: 2, memory_MB: 99 })).toThrow(
      /One alone takes 100 MB/,
    );
    const huge = [{ memory_bytes: totalmem() }];
    expect(() => workersFor(huge, { workers: null, most: 2, memory_MB: null })).toThrow(/--memory/);
  });
});
