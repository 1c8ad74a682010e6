import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { designFaults, sampleDesign } from '../../src/design/index.ts';
import { createGenome } from '../../src/genome/index.ts';
import type { Genome } from '../../src/genome/index.ts';
import { aBrief } from '../support/plates.ts';

const RUNS = { seed: 2026, numRuns: 150 } as const;

const BRIEFS = [
  aBrief(),
  aBrief({
    plate: {
      outline: { kind: 'rectangle', width_mm: 90, height_mm: 60, cornerRadius_mm: 4 },
      thickness_mm: { min_mm: 6, max_mm: 24 },
      build: 'any',
      mounting: { kind: 'holes', holes: [{ x_mm: 38, y_mm: 0, diameter_mm: 5 }] },
    },
    routes: { bore_mm: { min: 1, max: 12 }, ligament_mm: { min: 0.5, max: 4 }, maxChannels: 120 },
  }),
];

/** Any row within the bounds, ends of the ranges included. */
function anyRow(genome: Genome): fc.Arbitrary<Float64Array> {
  const genes = genome.genes.map((gene) =>
    gene.kind === 'real'
      ? fc.double({ min: gene.min, max: gene.max, noNaN: true })
      : fc.integer({ min: gene.min, max: gene.max }),
  );
  return fc.tuple(...genes).map((values) => Float64Array.from(values));
}

test.each(BRIEFS.map((brief, i) => [i, brief] as const))(
  'decode() is total: any row of brief %d gives a sound design or a reason',
  (_, brief) => {
    const genome = createGenome(brief);
    fc.assert(
      fc.property(anyRow(genome), (row) => {
        const decoded = genome.decode(row, 0);
        if (!decoded.ok) {
          expect(decoded.reason.length).toBeGreaterThan(20);
          return;
        }
        expect(designFaults(decoded.design)).toEqual([]);
        const samples = sampleDesign(decoded.design);
        expect(samples.channelCount).toBeLessThanOrEqual(brief.routes.maxChannels);
        for (const array of [samples.point_mm, samples.area_mm2, samples.curvature_per_mm]) {
          expect(array.every((value) => Number.isFinite(value))).toBe(true);
        }
        for (const bore of samples.bore_mm) {
          expect(bore).toBeGreaterThanOrEqual(brief.routes.bore_mm.min - 1e-9);
          expect(bore).toBeLessThanOrEqual(brief.routes.bore_mm.max + 1e-9);
        }
      }),
      RUNS,
    );
  },
);

test('the same row gives the same design, wherever it stands among others', () => {
  const genome = createGenome(BRIEFS[0]);
  const again = createGenome(aBrief());
  fc.assert(
    fc.property(anyRow(genome), anyRow(genome), (other, row) => {
      const rows = new Float64Array(2 * row.length);
      rows.set(other);
      rows.set(row, row.length);
      genome.decode(rows, 0);
      const alone = again.decode(row, 0);
      expect(genome.decode(rows, row.length)).toEqual(alone);
    }),
    { ...RUNS, numRuns: 60 },
  );
});

test('a design is turned by turning the lattice: lengths, areas and bends stay', () => {
  const genome = createGenome(BRIEFS[0]);
  const turn = genome.genes.findIndex((gene) => gene.name === 'rotation_deg');
  fc.assert(
    fc.property(anyRow(genome), (row) => {
      const straight = row.slice();
      straight[turn] = 0;
      const quarter = row.slice();
      quarter[turn] = 90;
      const [a, b] = [genome.decode(straight, 0), genome.decode(quarter, 0)];
      expect(a.ok).toBe(b.ok);
      if (!a.ok || !b.ok) return;
      const [before, after] = [sampleDesign(a.design), sampleDesign(b.design)];
      // The plate is round, so that as many channels fit, in the same order.
      expect(after.channelCount).toBe(before.channelCount);
      before.length_mm.forEach((value, i) => expect(after.length_mm[i]).toBeCloseTo(value, 9));
      before.area_mm2.forEach((value, i) => expect(after.area_mm2[i]).toBeCloseTo(value, 9));
    }),
    RUNS,
  );
});
