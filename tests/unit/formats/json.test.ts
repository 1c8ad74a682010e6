/** Canonical JSON and the reader that says where a text breaks. */
import { describe, expect, it } from 'vitest';
import { jsonFaults, readJson, writeJson, writeJsonLine } from '../../../src/formats/index.ts';

const messages = (text: string): string[] => jsonFaults(text).map((fault) => fault.message);

describe('writeJson()', () => {
  it('keeps the order of keys, puts rows of numbers on one line and ends with a line break', () => {
    const data = {
      b: 1,
      a: { points: [[1, 2.5, null], [0.1]], words: ['x'], none: {}, empty: [] },
    };
    expect(writeJson(data)).toBe(
      '{\n  "b": 1,\n  "a": {\n    "points": [\n      [1, 2.5, null],\n      [0.1]\n    ],\n' +
        '    "words": ["x"],\n    "none": {},\n    "empty": []\n  }\n}\n',
    );
  });

  it.each([0.1, 1 / 3, 5e-324, 1.7976931348623157e308, 123456789012345680000, 1e21, -1e-7])(
    'writes %d so that it reads back to the same bits',
    (value) => {
      expect(JSON.parse(writeJson(value))).toBe(value);
    },
  );

  it.each([
    [{ a: [1, NaN] }, '$.a[1] is NaN'],
    [{ a: { b: Infinity } }, '$.a.b is Infinity'],
    [[{ c: -0 }], '$[0].c is -0'],
    [{ a: [undefined] }, '$.a[0] is undefined'],
    [{ a: new Float64Array(2) }, '$.a is no plain data'],
    [{ f: () => 1 }, '$.f is function'],
  ])('refuses %o and names the place', (data, place) => {
    expect(() => writeJson(data)).toThrow(place);
    expect(() => writeJsonLine(data)).toThrow(place);
  });

  it('writes -0 as 0 or as -0 when told to', () => {
    expect(writeJson([-0], { negativeZero: 'zero' })).toBe('[0]\n');
    expect(Object.is(JSON.parse(writeJson([-0], { negativeZero: 'keep' }))[0], -0)).toBe(true);
  });

  it('leaves out keys without a value', () => {
    expect(writeJsonLine({ a: undefined, b: 1 })).toBe('{"b":1}\n');
  });
});

describe('jsonFaults()', () => {
  // Grammar: RFC 8259. The runtime's own parser is the second judge of what is valid.
  const texts = [
    '',
    ' ',
    '{}',
    '[]',
    '[1,]',
    '{"a":1,}',
    '{"a" 1}',
    '{a:1}',
    '[1 2]',
    '01',
    '1.',
    '.5',
    '-',
    '+1',

    '1e5',
    '1E+05',
    '-0',
    '"\\u12G4"',
    '"\\x"',
    '"a\nb"',
    '"open',
    '[',
    '{"a":',
    'nul',
    'true',
    'true1',

    '{"a":1}}',
    '// no',
    '[NaN]',
    '[Infinity]',
    "{'a':1}",
    '"\\ud800"',
    '\u00a01',
    '[[[[]]]]',
    '{"a":[1,{"b":null}]}',
  ];
  it.each(texts)('agrees with the runtime on %j', (text) => {
    let valid = true;
    try {
      JSON.parse(text);
    } catch {
      valid = false;
    }
    expect(jsonFaults(text).length === 0).toBe(valid);
  });

  it('names line and column, what stands there and what may', () => {
    expect(messages('{\n  "a": 1,\n  b: 2\n}')).toEqual([
      'line 3, column 3 is "b"; it must be a key in double quotes. Correct the file there.',
    ]);
    expect(messages('[1,\n]')[0]).toContain('Remove the comma before it.');
  });

  it('says that a file ends half way, wherever it is cut', () => {
    const text = writeJson({ a: [1, 2], b: { c: 'some text', d: true } });
    const cuts = [1, 5, 12, 20, 30, 40, text.length - 3];
    for (const cut of cuts) {
      const torn = text.slice(0, cut);
      // A cut inside a word or number may leave another valid one; the end is missing all the same.
      expect(messages(torn)[0]).toMatch(/half written|"(t|tr|tru)"/u);
    }
  });

  it('reads a text of many megabytes', () => {
    const letters = 'x\\n'.repeat(4e6);
    expect(jsonFaults(`{"a": "${letters}"}`)).toEqual([]);
    expect(messages(`{"a": "${letters}`)).toEqual([
      expect.stringContaining('line 1, column 7 is the end of the file'),
    ]);
  });

  it('finds keys that stand twice', () => {
    expect(messages('{"a": 1,\n "b": {"a": 2}, "a": 3}')).toEqual([
      'line 2, column 17 is "a" again; it must be a new key of this object. ' +
        'Only one of the two can count: remove or rename the other.',
    ]);
  });
});

describe('readJson()', () => {
  it('ignores a byte order mark', () => {
    expect(readJson('\uFEFF{"a":1}', 'x')).toEqual({ a: 1 });
  });

  it('refuses twice-written keys only when strict', () => {
    expect(readJson('{"a":1,"a":2}', 'x')).toEqual({ a: 2 });
    expect(() => readJson('{"a":1,"a":2}', 'x.json', { strict: true })).toThrow(
      /^x\.json: 1 fault/u,
    );
  });
});
