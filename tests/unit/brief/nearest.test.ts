/** Distances between names and the nearest one. */
import { describe, expect, it } from 'vitest';
import {
  InputError,
  RunError,
  editDistance,
  fault,
  nearestName,
} from '../../../src/brief/index.ts';

describe('editDistance()', () => {
  // Common textbook examples (from memory); the last one tells optimal string alignment (3) from
  // the unrestricted Damerau distance (2).
  it.each([
    ['kitten', 'sitting', 3],
    ['saturday', 'sunday', 3],
    ['', 'abc', 3],
    ['abcd', 'acbd', 1],
    ['ca', 'abc', 3],
  ])('of %s and %s is %d', (a, b, distance) => {
    expect(editDistance(a, b)).toBe(distance);
    expect(editDistance(b, a)).toBe(distance);
  });
});

describe('nearestName()', () => {
  it('prefers the same letters in another case, then a lost unit, then fewer changes', () => {
    expect(nearestName('Flow', ['glow', 'flow'])).toBe('flow');
    expect(nearestName('flow', ['flew', 'flow_m3_per_h'])).toBe('flow_m3_per_h');
  });

  it('finds nothing near a short or foreign name', () => {
    expect(nearestName('xy', ['rim_mm', 'build'])).toBeNull();
    expect(nearestName('', ['rim_mm'])).toBeNull();
  });
});

describe('errors', () => {
  it('InputError lists every fault with its place', () => {
    const error = new InputError(
      [fault('a', '1', 'be 2', 'Use 2.'), fault('', 'null', 'be an object', '')],
      'plate.json',
    );
    expect(error.message).toBe(
      'plate.json: 2 faults\n  a is 1; it must be 2. Use 2.\n  The input is null; it must be an object.',
    );
    expect(error.name).toBe('InputError');
  });

  it('RunError names the path and the remedy and keeps its cause', () => {
    const cause = new Error('low');
    const error = new RunError(
      'disk-full',
      'runs/a',
      'the disk is full',
      'Free some space.',
      cause,
    );
    expect(error.message).toBe('runs/a: the disk is full. Free some space.');
    expect(error.cause).toBe(cause);
  });
});
