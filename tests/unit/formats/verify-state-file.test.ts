import { describe, expect, it } from 'vitest';
import type { VerifyState } from '../../../src/engine/index.ts';
import { readVerifyState, writeVerifyState } from '../../../src/formats/index.ts';

/** A state of invented numbers, in the form of the solver's. */
const state = {
  level: 2,
  attempt: 0,
  kept: [{ cellsAcross: 15, loss: 2.5, retried: null }],
  march: {
    step: 150,
    ends: { drive: 0.1, entered: 1 / 3, behind: -0 },
    readings: Float64Array.of(1 / 3, 2.5e-7),
    populations: Float32Array.from({ length: 1001 }, (_, i) => 1 / (i + 1)),
  },
} as unknown as VerifyState;

describe('state of a flow', () => {
  const bytes = writeVerifyState('task one', state);

  it('comes back to the last bit, also from a buffer that begins anywhere', () => {
    expect(readVerifyState(bytes, 'task one')).toEqual({
      ...state,
      march: { ...state.march, ends: { drive: 0.1, entered: 1 / 3, behind: 0 } },
    });
    const wide = Buffer.alloc(bytes.length + 3);
    wide.set(bytes, 3);
    const back = readVerifyState(wide.subarray(3), 'task one');
    expect(back?.march.populations).toEqual(state.march.populations);
  });

  it('is not read for another task', () => {
    expect(readVerifyState(bytes, 'task two')).toBeNull();
  });

  it.each([
    ['cut off', bytes.subarray(0, 2000), /cut off|be the whole state/],
    ['with more behind it', new Uint8Array([...bytes, 0]), /be the whole state/],
    ['without a head', new Uint8Array(50), /without a head/],
    ['another kind of file', new TextEncoder().encode('{ "format": "anfract-front" }\n'), /format/],
  ])('is refused when %s', (_what, faulty, words) => {
    expect(() => readVerifyState(faulty, 'task one', 'x.state')).toThrow(words);
  });
});
