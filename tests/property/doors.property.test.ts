/** The doors of the program: whatever comes in, they answer with data or with named faults. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { InputError, briefTemplate, readBrief } from '../../src/brief/index.ts';
import {
  jsonFaults,
  readBriefFile,
  readCheckpointFile,
  readDesign,
  readDesignFile,
  readFrontFile,
  readHistoryFile,
  readJson,
  writeCheckpointFile,
  writeDesignFile,
  writeFrontFile,
  writeHistoryFile,
  writeJson,
} from '../../src/formats/index.ts';
import { aBrief } from '../support/briefs.ts';
import { aCheckpoint, aFront, aHistory } from '../support/fronts.ts';

const RUNS = { seed: 20260101, numRuns: 300 };

/** Paths of every value in a piece of data. */
function places(value: unknown, at: readonly string[] = []): (readonly string[])[] {
  if (typeof value !== 'object' || value === null) return [at];
  return [at, ...Object.entries(value).flatMap(([key, entry]) => places(entry, [...at, key]))];
}

/** A copy with the value at a place replaced. */
function replaced(value: unknown, place: readonly string[], by: unknown): unknown {
  const [step, ...rest] = place;
  if (step === undefined) return by;
  if (typeof value !== 'object' || value === null) return value;
  const copy: [string, unknown][] = Object.entries(value).map(([key, entry]) => [
    key,
    key === step ? replaced(entry, rest, by) : entry,
  ]);
  return Array.isArray(value) ? copy.map(([, entry]) => entry) : Object.fromEntries(copy);
}

const template: unknown = JSON.parse(briefTemplate());
const design = writeDesignFile({
  name: 'one bore',
  brief: aBrief(),
  design: {
    plate: {
      outline: { kind: 'round', diameter_mm: 80 },
      thickness_mm: 10,
      rim_mm: 3,
      holes: [],
      build: 'flat',
    },
    channels: [
      {
        points_mm: [
          [0, 0, 0],
          [1, 0, 5],
          [0, 0, 10],
        ],
        inletDirection: [0, 0, 1],
        outletDirection: null,
        section: { kind: 'slot', aspect: 2 },
        bore_mm: [3, 4],
        roll_deg: 10,
        pockets: [],
        placements: [{ x_mm: 0, y_mm: 0, turn_deg: 0, mirrored: false }],
      },
    ],
  },
  genes: { pitch_mm: 4 },
});

const anything = fc.oneof(
  fc.anything({ maxDepth: 3 }),
  fc.double(),
  fc.constantFrom(NaN, Infinity, -0, null, undefined, '', [], {}),
);

describe('readBrief()', () => {
  it('answers to any value', () => {
    fc.assert(
      fc.property(anything, (value) => {
        const read = readBrief(value);
        expect(read.ok || read.faults.length > 0).toBe(true);
      }),
      RUNS,
    );
  });

  it('answers to a brief with any value at any place, and names that place or one that leans on it', () => {
    const spots = places(template);
    fc.assert(
      fc.property(fc.constantFrom(...spots), anything, (place, value) => {
        const read = readBrief(replaced(template, place, value));
        if (read.ok) {
          expect(readBrief(read.brief)).toEqual(read);
          expect(() => writeJson(read.brief, { negativeZero: 'zero' })).not.toThrow();
        } else {
          for (const fault of read.faults) {
            expect(fault.message).toContain('; it must ');
            expect(fault.message).toMatch(/\.$|\?$/u);
          }
        }
      }),
      RUNS,
    );
  });
});

describe('readDesign()', () => {
  it('answers to a design with any value at any place', () => {
    const whole: unknown = JSON.parse(design);
    const spots = places(whole);
    fc.assert(
      fc.property(fc.constantFrom(...spots), anything, (place, value) => {
        const read = readDesign(replaced(whole, place, value));
        expect(read.ok || read.faults.length > 0).toBe(true);
      }),
      RUNS,
    );
  });
});

describe('files', () => {
  const kinds: readonly (readonly [string, string, (text: string) => unknown])[] = [
    ['brief', briefTemplate(), readBriefFile],
    ['design', design, readDesignFile],
    ['front', writeFrontFile(aFront()), readFrontFile],
    ['checkpoint', writeCheckpointFile(aCheckpoint(3)), readCheckpointFile],
    ['history', writeHistoryFile(aHistory(3)), readHistoryFile],
  ];

  it.each(kinds)('a %s with any letter changed is read or refused by name', (_, text, read) => {
    fc.assert(
      fc.property(
        fc.nat(text.length - 1),
        fc.string({ minLength: 0, maxLength: 3, unit: 'binary' }),
        (at, by) => {
          try {
            read(text.slice(0, at) + by + text.slice(at + 1));
          } catch (error) {
            expect(error).toBeInstanceOf(InputError);
          }
        },
      ),
      RUNS,
    );
  });
});

describe('JSON', () => {
  it('read back is what was written, for any data', () => {
    fc.assert(
      fc.property(fc.jsonValue({ maxDepth: 4 }), (value) => {
        expect(readJson(writeJson(value, { negativeZero: 'keep' }), 'x')).toStrictEqual(value);
      }),
      RUNS,
    );
  });

  it('faults are found exactly where the runtime finds one', () => {
    const text = writeJson({ a: [1, -2.5e-7, null], 'b "c"': { d: 'e\\\n\u00e9', f: [true, {}] } });
    const damage = fc.string({
      maxLength: 2,
      unit: fc.constantFrom(...Array.from('{}[],:"\\e0-. \n/tn')),
    });
    fc.assert(
      fc.property(fc.nat(text.length), damage, fc.nat(2), (at, by, gone) => {
        const changed = text.slice(0, at) + by + text.slice(at + gone);
        const parses = (): boolean => {
          try {
            JSON.parse(changed);
            return true;
          } catch {
            return false;
          }
        };
        const found = jsonFaults(changed).filter((fault) => !fault.found.endsWith(' again'));
        expect(found.length === 0).toBe(parses());
      }),
      { ...RUNS, numRuns: 1000 },
    );
  });
});
