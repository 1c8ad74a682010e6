import { describe, expect, it } from 'vitest';
import { pictureLayer } from '../../../src/print/index.ts';
import type { LayerPicture } from '../../../src/print/index.ts';
import { aBrief, aChannel, aDesign, samplesOf } from '../../support/plates.ts';

const { process } = aBrief();

/** Area of stretches [mm2]. */
function area(picture: LayerPicture, of: 'solid' | 'hanging'): number {
  const stretches = picture[of];
  let pixels = 0;
  for (let k = 0; k < stretches.length; k += 3) pixels += stretches[k + 2] - stretches[k + 1];
  return pixels * picture.pixel_mm * picture.pixel_mm;
}

describe('pictureLayer()', () => {
  it('shows the plate less its bore, and nothing that hangs in a straight one', () => {
    const picture = pictureLayer(samplesOf(aChannel()), process, 40);
    // A round plate of 80 mm with one bore of 5 mm.
    const expected = Math.PI * (40 * 40 - 2.5 * 2.5);
    expect(area(picture, 'solid') / expected).toBeCloseTo(1, 2);
    expect(picture.hanging).toHaveLength(0);
    expect([picture.layer, picture.layers]).toEqual([40, 100]);
  });

  it('finds the layer of which most hangs: the roof of a bore that lies across', () => {
    // Built on its edge, a straight channel lies flat; its roof closes at the top of the bore.
    // A square plate, since a round one itself hangs over its first layers.
    const outline = { kind: 'rectangle', width_mm: 80, height_mm: 80, cornerRadius_mm: 0 } as const;
    const design = aDesign({ plate: { build: 'edge', outline } });
    const picture = pictureLayer(samplesOf(design), process, null);
    expect(area(picture, 'hanging')).toBeGreaterThan(1);
    // The bore's middle is 40 mm above the bed: its roof lies between there and 42.5 mm.
    expect(picture.height_mm).toBeGreaterThan(40.8);
    expect(picture.height_mm).toBeLessThan(42.7);
  });
});
