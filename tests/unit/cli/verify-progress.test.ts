import { totalmem } from 'node:os';
import { describe, expect, it } from 'vitest';
import { workersFor } from '../../../src/cli/verify-drive.ts';
import { VerifyClock } from '../../../src/cli/verify-progress.ts';

describe('VerifyClock', () => {
  const at = (done: number): Parameters<VerifyClock['follow']>[1] => ({
    pass: 1,
    step: 700,
    loss: 1.234,
    done,
  });

  it('never goes back, and ends at 1', () => {
    const clock = new VerifyClock([1, 3], 0);
    const seen = [clock.done];
    for (const done of [0.1, 0.05, 0.9, 1.2]) {
      clock.follow(0, at(done));
      seen.push(clock.done);
    }
    expect(seen).toEqual(seen.toSorted((a, b) => a - b));
    clock.end(0);
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
    clock.follow(1, at(1 / 3));
    expect(clock.line(11_000, () => 'd001')).toBe(
      'flow 2/2 [========........]  10 s left  d001: grid 1 of 2, step 700, loss 1.234',
    );
  });

  it('takes no credit for what was done before it went on', () => {
    const clock = new VerifyClock([1], 0);
    clock.follow(0, at(0.5), true);
    expect(clock.left_s(1000)).toBeNull();
    clock.follow(0, at(0.75));
    // A quarter took 5 s: the last quarter takes as long.
    expect(clock.left_s(5000)).toBeCloseTo(5, 9);
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
