/**
 * A leaning channel that widens faster than it rises leaves its face, comes back in and leaves it again:
 * a second opening beside its port. In thin plates the wall to the face, counted from the end of the
 * port on, saw nothing of it. Channels of random rows of a finger guard's genome, which the mesh, cut by
 * other code, refuses.
 */
import { expect, it } from 'vitest';
import type { Channel, Design } from '../../src/design/index.ts';
import { clearanceAnalysis } from '../../src/measures/clearance/clearance.ts';
import { meshDesign } from '../../src/solids/index.ts';
import { assess } from '../support/assessments.ts';
import { aChannel, aDesign } from '../support/plates.ts';

function aLeaning(
  thickness_mm: number,
  lean: readonly [number, number],
  channel: Partial<Channel>,
): Design {
  const [x, y] = lean;
  const size = Math.sqrt(x * x + y * y + thickness_mm * thickness_mm);
  const direction = [x / size, y / size, thickness_mm / size] as const;
  return aDesign({
    plate: { outline: { kind: 'round', diameter_mm: 200 }, thickness_mm },
    channels: [
      aChannel({
        points_mm: [
          [-x / 2, -y / 2, 0],
          [x / 2, y / 2, thickness_mm],
        ],
        inletDirection: direction,
        outletDirection: direction,
        ...channel,
      }),
    ],
  });
}

const DIPPING: readonly (readonly [string, Design])[] = [
  [
    'a long slot',
    aLeaning(6.816, [-0.17, 5.57], {
      section: { kind: 'slot', aspect: 8.332 },
      bore_mm: [3.112, 2.733, 4.679],
      roll_deg: 57.71,
    }),
  ],
  [
    'a shorter slot',
    aLeaning(5.446, [-1.794, -2.19], {
      section: { kind: 'slot', aspect: 3.64 },
      bore_mm: [6.17, 5.368, 9.26],
      roll_deg: 74.474,
    }),
  ],
  [
    'a slot with a waist',
    aLeaning(5.061, [-6.93, 0.778], {
      section: { kind: 'slot', aspect: 5.304 },
      bore_mm: [9.63, 5.405, 8.244],
      roll_deg: 38.594,
    }),
  ],
  ['a round hole with a waist', aLeaning(2.325, [1.684, 3.424], { bore_mm: [7.861, 3.41, 7.026] })],
];

it.each(DIPPING)('%s that dips through its own face is no sound part', async (_, design) => {
  const { report } = await meshDesign(design);
  // It cannot be stitched, or holds another volume than drawn.
  expect(report.faults.length).toBeGreaterThan(0);
  for (const exact of [false, true]) {
    const found = assess(design, { exact }).get(clearanceAnalysis);
    expect(found.overlaps_mm.face).toBeGreaterThan(0.05);
    expect(found.thinnestWall_mm).toBeLessThan(0);
    expect(found.kind).toBe('face');
  }
});

it('the same channels of one bore cross their faces once and pass', () => {
  for (const [, design] of DIPPING) {
    const [channel] = design.channels;
    const even = { ...design, channels: [{ ...channel, bore_mm: [channel.bore_mm[0]] }] };
    expect(assess(even).get(clearanceAnalysis).overlaps_mm.face).toBe(0);
  }
});
