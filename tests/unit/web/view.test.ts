import { describe, expect, it } from 'vitest';
import { shadeRange, shareOf } from '../../../src/web/solid/shades.ts';
import {
  FIRST_VIEW,
  PRESETS,
  afterKey,
  basisOf,
  turned,
  zoomed,
} from '../../../src/web/solid/view.ts';

const dot = (a: readonly number[], b: readonly number[]): number =>
  a.reduce((sum, value, k) => sum + value * b[k], 0);

describe('basisOf()', () => {
  it('is right-handed and square from everywhere, straight above and below too', () => {
    for (let turn = -180; turn <= 180; turn += 45) {
      for (let raise = -90; raise <= 90; raise += 30) {
        const { right, up, toEye } = basisOf({ ...FIRST_VIEW, turn_deg: turn, raise_deg: raise });
        expect(dot(right, up)).toBeCloseTo(0, 12);
        expect(dot(right, right)).toBeCloseTo(1, 12);
        expect(dot(up, up)).toBeCloseTo(1, 12);
        const cross = [
          right[1] * up[2] - right[2] * up[1],
          right[2] * up[0] - right[0] * up[2],
          right[0] * up[1] - right[1] * up[0],
        ];
        expect(dot(cross, toEye)).toBeCloseTo(1, 12);
      }
    }
  });

  it('shows the outlet face as drawings do: x to the right, y up', () => {
    const outlet = PRESETS.find(({ id }) => id === 'outlet');
    const { right, up } = basisOf({ ...FIRST_VIEW, ...outlet });
    expect(right[0]).toBeCloseTo(1, 12);
    expect(up[1]).toBeCloseTo(1, 12);
  });
});

describe('afterKey()', () => {
  it('turns, raises, zooms, and brings views', () => {
    expect(afterKey(FIRST_VIEW, 'ArrowRight', false)?.turn_deg).toBe(FIRST_VIEW.turn_deg - 10);
    expect(afterKey(FIRST_VIEW, 'ArrowUp', false)?.raise_deg).toBe(FIRST_VIEW.raise_deg + 10);
    expect(afterKey(FIRST_VIEW, '+', false)?.zoom).toBeCloseTo(1.25, 12);
    expect(afterKey(FIRST_VIEW, 'ArrowRight', true)?.panX).toBeCloseTo(-0.1, 12);
    expect(afterKey(FIRST_VIEW, '3', false)?.raise_deg).toBe(-90);
    expect(afterKey(FIRST_VIEW, 'q', false)).toBeNull();
  });

  it('never turns over the top nor loses the part', () => {
    expect(turned(FIRST_VIEW, 0, 500).raise_deg).toBe(90);
    expect(turned(FIRST_VIEW, 725, 0).turn_deg).toBeCloseTo(FIRST_VIEW.turn_deg + 5, 9);
    expect(zoomed(FIRST_VIEW, 1e9).zoom).toBe(40);
  });
});

describe('shadeRange()', () => {
  it('spans all bodies and passes over what has no value', () => {
    const range = shadeRange('dust', [Float32Array.of(NaN, 0.25), Float32Array.of(0.5)]);
    expect(range).toEqual({ low: 0, high: 0.5, isOpen: false });
    expect(shareOf(0.25, range)).toBe(0.5);
  });

  it('ends thickness where walls are thick', () => {
    expect(shadeRange('thickness', [Float32Array.of(1, 30)])).toEqual({
      low: 0,
      high: 8,
      isOpen: true,
    });
  });

  it('has a range where nothing has a value', () => {
    expect(shadeRange('velocity', [Float32Array.of(NaN)])).toEqual({
      low: 0,
      high: 1,
      isOpen: false,
    });
  });
});
