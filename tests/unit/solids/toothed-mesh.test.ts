import { describe, expect, it } from 'vitest';
import { meshDesign } from '../../../src/solids/index.ts';
import type { Channel, Section } from '../../../src/design/index.ts';
import { judge, soupOf } from '../../support/mesh-reader.ts';
import { aChannel, aDesign, slanted, stoodFour } from './plates.ts';

const TEETH = { height_mm: 0.4, pitch_mm: 2.5 };
const SECTIONS: readonly Section[] = [
  { kind: 'round' },
  { kind: 'teardrop' },
  { kind: 'polygon', sides: 4 },
];

/** Leans by 15 degrees over the plate's thickness. */
const LEANING: Partial<Channel> = {
  points_mm: [
    [-7.5 * Math.tan(Math.PI / 12), 0, 0],
    [7.5 * Math.tan(Math.PI / 12), 0, 15],
  ],
  inletDirection: slanted(15),
  outletDirection: slanted(15),
};

describe('meshDesign() of channels with teeth', () => {
  for (const section of SECTIONS) {
    for (const [course, draw] of Object.entries({ straight: {}, leaning: LEANING })) {
      it(`is watertight, of the right genus and volume for ${section.kind} ${course}`, async () => {
        const channel = aChannel(15, { section, ...draw, teeth: TEETH });
        const { mesh, report } = await meshDesign(aDesign([stoodFour(channel, 17)]));
        expect(report.faults).toEqual([]);
        expect(report).toMatchObject({ method: 'stitched', genus: 4, parts: 1, isClosed: true });
        expect(judge(soupOf(mesh)).volume_mm3).toBeCloseTo(report.volume_mm3, 1);
      });
    }
  }

  it('holds the rings of the teeth more than the plain plate, to 1 %', async () => {
    const plain = await meshDesign(aDesign([aChannel(15)]));
    const toothed = await meshDesign(aDesign([aChannel(15, { teeth: TEETH })]));
    // Rings of triangular section about the axis by Pappus's theorem: five fit into 15 - 2 * 0.4 mm;
    // flanks of 0.4 mm (45 degrees) and a quarter of it, centroid a third of the height in.
    const section = 0.5 * 0.4 * (1 + 0.25) * 0.4;
    const rings = 5 * section * 2 * Math.PI * (2 - 0.4 / 3);
    const more = toothed.report.volume_mm3 - plain.report.volume_mm3;
    expect(Math.abs(more / rings - 1)).toBeLessThan(0.01);
  });
});
