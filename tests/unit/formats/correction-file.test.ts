import { describe, expect, it } from 'vitest';
import { FLOW_FEATURES } from '../../../src/brief/index.ts';
import type { Correction } from '../../../src/brief/index.ts';
import {
  citeCorrection,
  readCorrectionFile,
  schemaFiles,
  writeCorrectionFile,
} from '../../../src/formats/index.ts';
import { schemaFaults } from '../../support/json-schema.ts';

const range = { low: 0, high: 1, middle: 0.5, scale: 0.25 };
const correction: Correction = {
  source: 'invented flows',
  cases: 15,
  designs: 5,
  coefficients: [-0.1, 0, 0, 0.02, 0, 0, 0, 0],
  covariance: Array.from({ length: 64 }, (_, i) => (i % 9 === 0 ? 0.001 : 0)),
  scatter: 0.04,
  width: 2.776,
  leverage: 0.003,
  features: Object.fromEntries(
    FLOW_FEATURES.map((name) => [name, range]),
  ) as Correction['features'],
  error: { before: 0.157, leftOut: 0.031, designLeftOut: 0.042 },
};

describe('correction file', () => {
  const text = writeCorrectionFile('0.1.0', correction);

  it('reads back what was written, and fits the JSON Schema that is exported', () => {
    expect(readCorrectionFile(text)).toEqual(correction);
    const schema: unknown = JSON.parse(schemaFiles()['correction-1.schema.json']);
    expect(schemaFaults(schema, JSON.parse(text))).toEqual([]);
  });

  it.each([
    ['half a file', text.slice(0, 300), /only half written/],
    ['a file of flows', '{ "format": "anfract-verify", "version": 1 }', /another kind of file/],
    ['a newer file', text.replace('"version": 1', '"version": 2'), /newer anfract/],
    ['a short covariance', text.replace('"covariance": [0.001, ', '"covariance": ['), /covariance/],
  ])('refuses %s', (_what, faulty, words) => {
    expect(() => readCorrectionFile(faulty, 'c.json')).toThrow(words);
  });
});

describe('citeCorrection()', () => {
  it('says what stands behind it and what it is worth', () => {
    expect(citeCorrection({})).toBeNull();
    expect(citeCorrection({ correction })).toBe(
      'Pressure drops are corrected by 15 computed flows of 5 designs (invented flows): off by 16 % without it, by 4.2 % with it for designs left out of the fit (root mean square).',
    );
  });
});
