/**
 * The estimate of the weakest section read 0 for sound plates: of slots that lean, whose void it
 * squeezed; of hexagons and discs in staggered rows, seen side by side; of holes that lean by hardly
 * anything, counted twice between two depths. The raster, which counts pixels, is the judge.
 */
import { expect, it } from 'vitest';
import type { Channel } from '../../src/design/index.ts';
import { sampleDesign } from '../../src/design/index.ts';
import { estimatePrint, rasterPrint } from '../../src/print/index.ts';
import { aBrief, aChannel, aDesign, aPlacement } from '../support/plates.ts';

const plate = {
  outline: { kind: 'rectangle', width_mm: 80, height_mm: 80, cornerRadius_mm: 0 },
  thickness_mm: 5,
} as const;
const { process } = aBrief();

/** A channel that leans by so much along y on its way through the plate. */
function leaning(by_mm: number, changes: Partial<Channel>): Channel {
  const length = Math.hypot(by_mm, 5);
  const way = [0, by_mm / length, 5 / length] as const;
  const points_mm = [
    [0, -0.5 * by_mm, 0],
    [0, 0.5 * by_mm, 5],
  ] as const;
  return aChannel({ points_mm, inletDirection: way, outletDirection: way, ...changes });
}

/** Staggered rows, `pitch` along x and its sine of 60 degrees across. */
const staggered = (pitch: number) =>
  Array.from({ length: 121 }, (_, i) => {
    const [row, column] = [Math.floor(i / 11) - 5, (i % 11) - 5];
    return aPlacement({
      x_mm: pitch * (column + 0.5 * Math.abs(row % 2)),
      y_mm: pitch * Math.sqrt(0.75) * row,
    });
  });

const SLOTS = Array.from({ length: 9 }, (_, i) => aPlacement({ y_mm: 8.3 * (i - 4) }));

it.each([
  [
    'slots that lean',
    leaning(3.6, { section: { kind: 'slot', aspect: 6 }, bore_mm: [5.8], placements: SLOTS }),
  ],
  [
    'turned slots that lean',
    leaning(3.6, {
      section: { kind: 'slot', aspect: 4 },
      roll_deg: 20,
      bore_mm: [3],
      placements: SLOTS,
    }),
  ],
  [
    'hexagons in staggered rows',
    leaning(0, {
      section: { kind: 'polygon', sides: 6 },
      bore_mm: [4.9],
      placements: staggered(5.8),
    }),
  ],
  [
    'discs in staggered rows that lean a little',
    leaning(0.3, { bore_mm: [5], placements: staggered(6) }),
  ],
])('%s read as the raster does', (_what, channel) => {
  const design = aDesign({ plate, channels: [channel] });
  const exact = rasterPrint(sampleDesign(design, 64), process).weakestSection;
  const estimate = estimatePrint(sampleDesign(design, 32), process).weakestSection;
  expect(exact).toBeGreaterThan(0.1);
  expect(Math.abs(estimate - exact), `${estimate} for ${exact}`).toBeLessThan(0.06);
});
