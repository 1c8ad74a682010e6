import { describe, expect, it } from 'vitest';
import { sampleDesign } from '../../../src/design/index.ts';
import { createLayerBook, pictureLayer } from '../../../src/print/index.ts';
import { smallBrief } from '../../support/small-brief.ts';
import { COURSES, aChannel, aDesign, stoodFour } from '../solids/plates.ts';

describe('createLayerBook()', () => {
  const { process } = smallBrief();
  const bent = sampleDesign(aDesign([stoodFour(aChannel(15, COURSES.sBend(15)), 17)]), 64);
  const book = createLayerBook(bent, process);

  it('holds a layer per layer height of the plate', () => {
    expect(book.layers).toBe(Math.round(15 / process.layerHeight_mm));
    expect(book.picture(0).height_mm).toBeCloseTo(process.layerHeight_mm / 2, 9);
  });

  it('keeps its layers when another plate is drawn after it', () => {
    const before = book.picture(20);
    pictureLayer(sampleDesign(aDesign([]), 2), process, 20);
    expect(book.picture(20)).toEqual(before);
    expect(before).toEqual(pictureLayer(bent, process, 20));
  });

  it('shows the plate less its channels', () => {
    const { solid, pixel_mm } = book.picture(20);
    let pixels = 0;
    for (let k = 0; k < solid.length; k += 3) pixels += solid[k + 2] - solid[k + 1];
    const empty = createLayerBook(sampleDesign(aDesign([]), 2), process).picture(20);
    let full = 0;
    for (let k = 0; k < empty.solid.length; k += 3) full += empty.solid[k + 2] - empty.solid[k + 1];
    // Four round bores of 4 mm, cut a little aslant.
    const open_mm2 = (full - pixels) * pixel_mm * pixel_mm;
    expect(open_mm2).toBeGreaterThan(4 * Math.PI * 4 * 0.97);
    expect(open_mm2).toBeLessThan(4 * Math.PI * 4 * 1.3);
  });
});
