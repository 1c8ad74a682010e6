/** Every design the search can make survives its file: written, read, written again. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Design } from '../../src/design/index.ts';
import { createGenome } from '../../src/genome/index.ts';
import { readDesignFile, writeDesignFile } from '../../src/formats/index.ts';
import { aBrief } from '../support/briefs.ts';

const briefs = [
  aBrief({ 'plate.thickness_mm': { min_mm: 8, max_mm: 20 }, 'plate.build': 'any' }),
  aBrief({
    'plate.outline': { kind: 'rectangle', width_mm: 80, height_mm: 80, cornerRadius_mm: 4 },
    'plate.mounting': { kind: 'frame', frame_mm: 80 },
    'plate.build': 'edge',
  }),
];

/** -0 made 0, the one change that a file makes. */
function plain(value: unknown): unknown {
  if (typeof value === 'number') return value + 0;
  if (Array.isArray(value)) return value.map(plain);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, entry]) => [key, plain(entry)]));
}

describe('a decoded design', () => {
  it.each([...briefs.entries()])(
    'of brief %d reads back from its file to the last bit',
    (_, brief) => {
      const genome = createGenome(brief);
      const shares = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), {
        minLength: genome.genes.length,
        maxLength: genome.genes.length,
      });
      let decodedCount = 0;
      fc.assert(
        fc.property(shares, (row) => {
          const genes = Float64Array.from(genome.genes, (gene, i) => {
            const value = gene.min + row[i] * (gene.max - gene.min);
            return gene.kind === 'real' ? value : Math.round(value);
          });
          const decoded = genome.decode(genes, 0);
          if (!decoded.ok) return;
          decodedCount++;
          const design: Design = decoded.design;
          const named = Object.fromEntries(genome.genes.map((gene, i) => [gene.name, genes[i]]));
          const text = writeDesignFile({ name: 'decoded', brief, design, genes: named });
          const back = readDesignFile(text);
          expect(plain(back.design)).toEqual(plain(design));
          expect(back.genes).toEqual(plain(named));
          expect(back.brief).toEqual(brief);
          expect(writeDesignFile(back)).toBe(text);
        }),
        { seed: 20260102, numRuns: 100 },
      );
      // A test that never saw a design would prove nothing.
      expect(decodedCount).toBeGreaterThan(20);
    },
  );
});
