import { expect, it } from 'vitest';
import type { Pocket } from '../../src/design/index.ts';
import { estimatePrint } from '../../src/print/index.ts';
import { meshDesign } from '../../src/solids/index.ts';
import { PROCESS } from '../support/printed-plate.ts';
import { aChannel, aDesign, aGrid, samplesOf } from '../support/plates.ts';

const POCKET: Pocket = { at: 0.5, length_mm: 10, depth_mm: 2, width_deg: 160, side_deg: 40 };

// Winner of a search for pocket capacity: three pockets over the whole channel, two of them on the
// same side and nearly at one place. Their volume once counted twice, 10 % off the plate's mass.
it('mass of a plate whose pockets lie over each other is that of its mesh', async () => {
  const pockets = [POCKET, { ...POCKET, at: 0.58 }, { ...POCKET, side_deg: 220 }];
  const channel = aChannel({ bore_mm: [4], pockets, placements: aGrid(4, 12) });
  const design = aDesign({ channels: [channel] });
  const { report } = await meshDesign(design);
  const bare = await meshDesign(aDesign({ channels: [{ ...channel, pockets: [] }] }));
  const { solidVolume_mm3 } = estimatePrint(samplesOf(design), PROCESS);
  // Outside check: the mesh kernel's volume. Mouths count as rectangles: within a fifth of the
  // pockets, 2 % of the plate.
  const pocketed = bare.report.volume_mm3 - report.volume_mm3;
  expect(Math.abs(solidVolume_mm3 - report.volume_mm3)).toBeLessThan(0.2 * pocketed);
});
