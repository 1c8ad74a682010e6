/** The compiled passes of the clearance kernel against the plain ones: one report, to the last bit. */
import { describe, expect, it } from 'vitest';
import { sampleDesign } from '../../src/design/index.ts';
import type { Design, Plate, Pocket, Section } from '../../src/design/index.ts';
import { measureClearance } from '../../src/measures/clearance/clearance.ts';
import type { ClearanceForm, ClearanceReport } from '../../src/measures/clearance/clearance.ts';
import { compiledPasses } from '../../src/measures/clearance/compiled.ts';
import { createStream } from '../../src/numeric/index.ts';
import { aLattice, aTangle, boresOf, uniform } from '../support/clearance-plates.ts';
import { aManifold, aSidePlate } from '../support/side-plates.ts';

function report(
  design: Design,
  form: ClearanceForm,
  stations: number,
  blockSize: number,
): ClearanceReport {
  const samples = sampleDesign(design, stations);
  return measureClearance(samples, boresOf(design, samples), 0.8, blockSize, form);
}

function expectAlike(design: Design, stations = 32, blockSize = 8): ClearanceReport {
  const plain = report(design, 'plain', stations, blockSize);
  expect(report(design, 'compiled', stations, blockSize)).toStrictEqual(plain);
  return plain;
}

const SECTIONS: readonly Section[] = [
  { kind: 'round' },
  { kind: 'teardrop' },
  { kind: 'slot', aspect: 1.8 },
  { kind: 'slot', aspect: 3 },
  { kind: 'polygon', sides: 3 },
  { kind: 'polygon', sides: 12 },
];

/** A tangle of one section, some of it with pockets, in a plate with mounting holes. */
function aPlateOf(seed: string, section: Section, wander: number, pockets: number): Design {
  const random = createStream('tests/clearance-kernel', seed);
  const pocket = (): Pocket => ({
    at: uniform(random, 0.1, 0.9),
    length_mm: uniform(random, 2, 8),
    depth_mm: uniform(random, 0.5, 2),
    width_deg: random.next() < 0.5 ? 90 : uniform(random, 40, 200),
    side_deg: uniform(random, 0, 360),
  });
  const { plate, channels } = aTangle(seed, 16, wander, uniform(random, 6, 10));
  const holes = [
    { x_mm: 12, y_mm: 0, diameter_mm: 4 },
    { x_mm: -22, y_mm: 22, diameter_mm: 3 },
  ];
  return {
    plate: { ...plate, holes },
    channels: channels.map((channel, i) => ({
      ...channel,
      section,
      roll_deg: uniform(random, 0, 360),
      pockets: i % 2 === 0 ? Array.from({ length: pockets }, pocket) : [],
    })),
  };
}

describe('the compiled clearance kernel', () => {
  it('runs in this engine', () => {
    expect(compiledPasses()).not.toBeNull();
  });

  it.each(SECTIONS)('reports what the plain one reports: $kind', (section) => {
    const kinds = new Set<string | null>();
    for (const wander of [0.5, 2, 5, 9]) {
      for (const pockets of [0, 1, 3]) {
        for (let n = 0; n < 4; n++) {
          const design = aPlateOf(`${wander} ${pockets} ${n}`, section, wander, pockets);
          kinds.add(expectAlike(design, n === 3 ? 64 : 32).kind);
        }
      }
    }
    expect(kinds.size).toBeGreaterThan(2);
  });

  it('reports the same of motifs, mixed sections, side exits, inward corners and any size of blocks', () => {
    expectAlike(aLattice(100));
    expectAlike(aLattice(9, 4.2));
    expectAlike(aManifold(), 64);
    expectAlike(aSidePlate(6));
    for (const size of [1, 3, 8, 31, 40]) expectAlike(aTangle('mixed', 25, 6, 9, true), 32, size);
    const tangle = aTangle('corner', 16, 3, 8);
    const outline: Plate['outline'] = {
      kind: 'polygon',
      points_mm: [
        [-40, -40],
        [40, -40],
        [40, 40],
        [2, 2],
        [-40, 40],
      ],
    };
    expect(expectAlike({ ...tangle, plate: { ...tangle.plate, outline } }).overlapDepth_mm).toBeGreaterThan(0); // prettier-ignore
  });

  it('has room for a larger plate after a smaller one, and turns down what is not made of numbers', () => {
    for (const count of [4, 100, 9, 225]) expectAlike(aTangle('growing', count, 4));
    const samples = sampleDesign(aTangle('broken', 9, 2));
    samples.curvature_per_mm[100] = NaN;
    const bores = Array.from({ length: 9 }, () => [3]);
    for (const form of ['plain', 'compiled'] as const) {
      expect(measureClearance(samples, bores, 0.8, 8, form).thinnestWall_mm).toBeNaN();
    }
  });
});
