import { describe, expect, it } from 'vitest';
import { channelVelocity } from '../../../src/measures/channel-velocity.ts';
import { fastestOutlet } from '../../../src/measures/fastest-outlet.ts';
import { outletUniformity } from '../../../src/measures/outlet-uniformity.ts';
import { packingDensity } from '../../../src/measures/packing-density.ts';
import { slowestOutlet } from '../../../src/measures/slowest-outlet.ts';
import { assess } from '../../support/assessments.ts';
import { aBrief } from '../../support/briefs.ts';
import { aChannel, aDesign, aGrid, aPlacement } from '../../support/plates.ts';

const brief = aBrief({ 'air.supply': { kind: 'flow', flow_m3_per_h: 2 } });

describe('speed over the outlet', () => {
  it('is that of the channel where all are straight and alike, and uniform', () => {
    const at = assess(aDesign({ channels: [aChannel({ placements: aGrid(3, 12) })] }), { brief });
    expect(slowestOutlet.evaluate(at)).toBeCloseTo(channelVelocity.evaluate(at), 6);
    expect(fastestOutlet.evaluate(at)).toBeCloseTo(slowestOutlet.evaluate(at), 9);
    expect(outletUniformity.evaluate(at)).toBeCloseTo(1, 9);
  });

  it('falls by continuity where the bore widens towards the outlet', () => {
    const at = assess(aChannel({ bore_mm: [4, 6] }), { brief });
    // 2 m3/h through 6 mm less the default shrinkage of 0.2 mm.
    const expected = 2 / 3600 / (Math.PI * 2.9e-3 * 2.9e-3);
    expect(fastestOutlet.evaluate(at) / expected).toBeCloseTo(1, 3);
  });

  it('weighs by area: half the area at rest gives one half', () => {
    // By definition of the index; a needle among equal bores lets almost nothing through.
    const channels = [
      aChannel({ bore_mm: [6], placements: [aPlacement({ x_mm: -10 })] }),
      aChannel({ bore_mm: [6, 0.8, 6], placements: [aPlacement({ x_mm: 10 })] }),
    ];
    const uniformity = outletUniformity.evaluate(assess(aDesign({ channels }), { brief }));
    expect(uniformity).toBeGreaterThan(0.5);
    expect(uniformity).toBeLessThan(0.53);
  });
});

describe('packingDensity', () => {
  it('is the volume of straight bores over that of the plate, in both forms', () => {
    const bores = aDesign({ channels: [aChannel({ placements: aGrid(5, 10) })] });
    // 25 bores of 5 mm in a round plate of 80 mm.
    const expected = (25 * 2.5 * 2.5) / (40 * 40);
    for (const exact of [false, true]) {
      const density = packingDensity.evaluate(assess(bores, { brief, exact }));
      expect(density / expected).toBeGreaterThan(0.98);
      expect(density / expected).toBeLessThan(1.02);
    }
  });
});
