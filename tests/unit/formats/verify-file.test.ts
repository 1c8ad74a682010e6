import { describe, expect, it } from 'vitest';
import {
  mergeCases,
  readVerifyFile,
  schemaFiles,
  verdictLines,
  verifyMark,
  writeVerifyFile,
} from '../../../src/formats/index.ts';
import { aComputedFlow } from '../../support/computed-flows.ts';
import { schemaFaults } from '../../support/json-schema.ts';

const slow = aComputedFlow({ medianVelocity_m_per_s: 0.5, velocity_m_per_s: 0.5 });
const fast = aComputedFlow({ medianVelocity_m_per_s: 1.5, velocity_m_per_s: 1.5 });
const other = aComputedFlow({ design: 'd1002', digest: 'b'.repeat(64) });

describe('file of computed flows', () => {
  it('reads back what was written, in one order whatever order it was computed in', () => {
    const text = writeVerifyFile('0.1.0', [other, fast, slow]);
    expect(readVerifyFile(text)).toEqual([slow, fast, other]);
    expect(writeVerifyFile('0.1.0', [slow, other, fast])).toBe(text);
  });

  it('fits the JSON Schema that is exported', () => {
    const schema: unknown = JSON.parse(schemaFiles()['verify-1.schema.json']);
    const file: unknown = JSON.parse(writeVerifyFile('0.1.0', [slow, other]));
    expect(schemaFaults(schema, file)).toEqual([]);
    expect(schemaFaults(schema, { format: 'anfract-verify' })).not.toEqual([]);
  });

  it.each([
    ['half a file', writeVerifyFile('0.1.0', [slow]).slice(0, 400), /only half written/],
    ['another kind of file', '{ "format": "anfract-front", "version": 1 }', /another kind of file/],
    [
      'a newer file',
      '{ "format": "anfract-verify", "version": 2, "cases": [] }',
      /written by a newer anfract/,
    ],
    [
      'a foreign file name',
      writeVerifyFile('0.1.0', [{ ...slow, slice: '../../etc.svg' }]),
      /cases\[0\]\.slice/,
    ],
    ['an unknown key', '{ "format": "anfract-verify", "version": 1, "flows": [] }', /flows/],
  ])('refuses %s and says why', (_what, text, words) => {
    expect(() => readVerifyFile(text, 'verify.json')).toThrow(words);
  });
});

describe('mergeCases()', () => {
  it('keeps other designs and velocities, and replaces the same flow', () => {
    const again = aComputedFlow({ ...slow, pressureDrop_Pa: 1.6 });
    expect(mergeCases([slow, fast, other], [again])).toEqual([again, fast, other]);
  });

  it('drops results of a plate that no longer bears its id', () => {
    const renewed = aComputedFlow({ digest: 'c'.repeat(64) });
    expect(mergeCases([slow, fast, other], [renewed])).toEqual([renewed, other]);
  });
});

describe('words about computed flows', () => {
  it('tell each verdict once, with its velocities', () => {
    const lines = verdictLines([slow, { ...fast, verdict: 'Another.' }, { ...slow }]);
    expect(lines).toEqual(['At 0.50 m/s: An invented verdict.', 'At 1.50 m/s: Another.']);
    expect(verdictLines([slow, fast])).toEqual(['An invented verdict.']);
  });

  it('mark a design by the median channel', () => {
    expect(verifyMark([{ ...slow, role: 'least', difference: 0.5 }, fast])).toBe(
      'computed, estimate +20 %',
    );
    expect(verifyMark([])).toBeNull();
  });
});
