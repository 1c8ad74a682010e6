/** Front, history, checkpoint and brief files, and the table of a front. */
import { describe, expect, expectTypeOf, it } from 'vitest';
import type * as z from 'zod';
import type { Front, FrontDesign, HistoryEntry, MeasureInfo } from '../../../src/engine/index.ts';
import type { frontSchema, historySchema } from '../../../src/formats/front-schema.ts';
import {
  frontJsonSchema,
  readBriefFile,
  readCheckpointFile,
  readFrontFile,
  readHistoryFile,
  schemaFiles,
  writeBriefFile,
  writeCheckpointFile,
  writeFrontCsv,
  writeFrontFile,
  writeHistoryFile,
} from '../../../src/formats/index.ts';
import { aBrief } from '../../support/briefs.ts';
import { aCheckpoint, aFront, aHistory } from '../../support/fronts.ts';
import { schemaFaults } from '../../support/json-schema.ts';

/** The front's text with one place changed. */
function damaged(change: (front: Record<string, unknown>) => void): string {
  const front: Record<string, unknown> = JSON.parse(writeFrontFile(aFront()));
  change(front);
  return JSON.stringify(front);
}

/** Cells of RFC 4180 text: a second reader for the table. */
function cells(text: string): string[][] {
  return text
    .split('\r\n')
    .slice(0, -1)
    .map((row) =>
      [...row.matchAll(/(?:^|,)(?:"((?:[^"]|"")*)"|([^,"]*))/gu)].map(
        (match) => match[1]?.replaceAll('""', '"') ?? match[2],
      ),
    );
}

describe('front file', () => {
  it('reads back to the same front and the same bytes', () => {
    const text = writeFrontFile(aFront());
    expect(readFrontFile(text)).toEqual(aFront());
    expect(writeFrontFile(readFrontFile(text))).toBe(text);
  });

  it('is accepted by its JSON Schema', () => {
    expect(schemaFaults(frontJsonSchema(), JSON.parse(writeFrontFile(aFront())))).toEqual([]);
  });

  it('knows every key of the engine types', () => {
    type Read = z.output<typeof frontSchema>;
    expectTypeOf<keyof Read>().toEqualTypeOf<keyof Front>();
    expectTypeOf<keyof Read['designs'][number]>().toEqualTypeOf<keyof FrontDesign>();
    expectTypeOf<keyof Read['measures'][number]>().toEqualTypeOf<keyof MeasureInfo>();
    expectTypeOf<keyof z.output<typeof historySchema>>().toEqualTypeOf<keyof HistoryEntry>();
  });

  it('refuses an id that is no plain name, since files are named after it', () => {
    const text = writeFrontFile(aFront()).replace('"d001"', '"../d001"');
    expect(() => readFrontFile(text)).toThrow(
      /designs\[0\]\.id is "\.\.\/d001"; it must be a text of the form/,
    );
  });

  it('says which version a newer file needs', () => {
    const text = damaged((front) => Object.assign(front, { version: 4, designs: 'other' }));
    expect(() => readFrontFile(text, 'front.json')).toThrow(
      'front.json: 1 fault\n  version is 4; it must be at most 1. The file was written by a newer ' +
        'anfract: use one that reads anfract-front version 4.',
    );
  });

  it('names lists that lost entries and objectives that are not measured', () => {
    const text = damaged((front) => {
      Object.assign(front, { genes: [], objectives: ['other'] });
    });
    expect(() => readFrontFile(text)).toThrow(
      /designs\[0\]\.genes is a list of 2 entries; it must have 0/u,
    );
    expect(() => readFrontFile(text)).toThrow(/objectives\[0\] is 'other'/u);
  });

  it('names a faulty brief inside', () => {
    const text = damaged((front) =>
      Object.assign(front, { brief: { format: 'anfract-brief', version: 1 } }),
    );
    expect(() => readFrontFile(text)).toThrow(/brief\.plate is missing/u);
  });

  it('refuses to write a number that is not finite, with its place', () => {
    const front = aFront();
    const bad = { ...front, hypervolume: { ...front.hypervolume, value: NaN } };
    expect(() => writeFrontFile(bad)).toThrow('$.hypervolume.value is NaN');
  });
});

describe('history file', () => {
  it('reads back, one line per generation', () => {
    const text = writeHistoryFile(aHistory(3));
    expect(text.split('\n')).toHaveLength(4);
    expect(readHistoryFile(text)).toEqual({ entries: aHistory(3), torn: null });
  });

  it('leaves out a last line cut at any place and says so', () => {
    const text = writeHistoryFile(aHistory(3));
    const start = writeHistoryFile(aHistory(2)).length;
    for (let cut = start + 1; cut < text.length; cut++) {
      const read = readHistoryFile(text.slice(0, cut), 'history.jsonl');
      expect(read.entries).toEqual(aHistory(2));
      expect(read.torn).toBe('history.jsonl: line 3 was only half written and is left out');
    }
  });

  it('names a broken line in the middle and a generation out of order', () => {
    const [a, b] = [1, 2].map((n) => writeHistoryFile(aHistory(n).slice(-1)));
    expect(() => readHistoryFile(`${a.slice(0, 20)}\n${b}`, 'h')).toThrow(/^h, line 1: 1 fault/u);
    expect(() => readHistoryFile(b + a, 'h')).toThrow(
      /line 2: generation is 1; it must be greater than 2/u,
    );
  });
});

describe('checkpoint file', () => {
  it('brings every bit back, the sign of zero included', () => {
    const back = readCheckpointFile(writeCheckpointFile(aCheckpoint(2)));
    expect(back).toStrictEqual(aCheckpoint(2));
  });

  it('is refused as half written wherever it is cut', () => {
    const text = writeCheckpointFile(aCheckpoint(2));
    for (let cut = 0; cut < text.length - 1; cut += 53) {
      expect(() => readCheckpointFile(text.slice(0, cut), 'c')).toThrow(/^c: 1 fault/u);
    }
  });
});

describe('brief file', () => {
  it('reads back to the same brief', () => {
    expect(readBriefFile(writeBriefFile(aBrief()))).toEqual(aBrief());
  });

  it('refuses a key written twice', () => {
    const text = writeBriefFile(aBrief()).replace('"rim_mm": 3', '"rim_mm": 3, "rim_mm": 5');
    expect(() => readBriefFile(text, 'b.json')).toThrow(/"rim_mm" again/u);
  });
});

describe('writeFrontCsv()', () => {
  it('gives one row per design under a header with units, as RFC 4180 reads it', () => {
    expect(cells(writeFrontCsv(aFront()))).toEqual([
      ['id', 'origin', 'pressureDrop_Pa [Pa]', 'mass_g [g]', 'gene pitch_mm', 'gene section'],
      ['d001', 'straight, "plain"', '4.25', '', '3.5', '1'],
      ['d002', 'evolved', '0.3333333333333333', '2e-7', '0.1', '0'],
    ]);
  });
});

describe('schemaFiles()', () => {
  it('gives one JSON Schema of draft 2020-12 per format', () => {
    const files = schemaFiles(['mass_g']);
    expect(Object.keys(files)).toEqual([
      'brief-1.schema.json',
      'design-1.schema.json',
      'front-1.schema.json',
      'correction-1.schema.json',
      'verify-1.schema.json',
    ]);
    for (const text of Object.values(files)) {
      expect(JSON.parse(text)).toMatchObject({
        $schema: 'https://json-schema.org/draft/2020-12/schema',
        type: 'object',
      });
    }
  });
});
