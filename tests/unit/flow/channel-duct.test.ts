import { describe, expect, it } from 'vitest';
import type { Channel } from '../../../src/design/index.ts';
import { sampleDesign } from '../../../src/design/index.ts';
import { channelDuct } from '../../../src/flow/index.ts';
import type { Duct } from '../../../src/flow/index.ts';
import { boredPlate } from './bored-plate.ts';

function aDuct(changes: Partial<Channel>): Duct {
  const points_mm = [0, 10, 20].map((z): [number, number, number] => [0, 0, z]);
  const design = boredPlate([[0, 0]], { points_mm, ...changes });
  const duct = channelDuct(sampleDesign(design, 64), 0);
  if (typeof duct === 'string') throw new Error(duct);
  return duct;
}

/** Volume by counting points 0.1 mm apart across, 0.4 mm along. */
function volume(duct: Duct): number {
  const step = 0.1;
  const along = 0.4;
  let count = 0;
  for (let x = -6.03; x < 10; x += step) {
    for (let y = -6.03; y < 6; y += step) {
      for (let z = 0.5 * along; z < 20; z += along) if (duct.inside(x, y, z)) count++;
    }
  }
  return count * step * step * along;
}

describe('channelDuct()', () => {
  // Volumes of prisms, plane geometry; counting errs by about 1 %.
  it.each([
    [{ section: { kind: 'round' } as const }, Math.PI * 6.25 * 20],
    [{ section: { kind: 'slot', aspect: 2 } as const }, 6.25 * (Math.PI + 4) * 20],
    [{ section: { kind: 'polygon', sides: 4 } as const }, 25 * 20],
  ])('holds the volume of %j', (changes, wanted) => {
    expect(volume(aDuct(changes)) / wanted).toBeCloseTo(1, 1.8);
  });

  it('keeps the volume of a bent bore: area times length of the centreline (Pappus)', () => {
    const bent = aDuct({
      points_mm: [
        [0, 0, 0],
        [3, 0, 10],
        [6, 0, 20],
      ],
    });
    const points = Array.from({ length: 2001 }, (_, i) => i / 100);
    expect(bent.outlet_mm[0]).toBeCloseTo(6, 9);
    expect(points.filter((z) => bent.inside(3, 0, z)).length).toBeGreaterThan(500);
    // A spline of 6 mm sideways over 20 mm is 4 to 8 % longer than the plate is thick.
    const longer = volume(bent) / (Math.PI * 6.25 * 20);
    expect(longer).toBeGreaterThan(1.04);
    expect(longer).toBeLessThan(1.08);
  });

  it('opens a pocket on its side only', () => {
    const pocket = { at: 0.5, length_mm: 8, depth_mm: 3, width_deg: 120, side_deg: 0 };
    const duct = aDuct({ pockets: [pocket] });
    expect(duct.inside(5.4, 0, 10)).toBe(true);
    expect(duct.inside(5.6, 0, 10)).toBe(false);
    expect(duct.inside(-2.6, 0, 10)).toBe(false);
    expect(duct.inside(2.6, 0, 2)).toBe(false);
  });
});
