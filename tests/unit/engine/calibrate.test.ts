import { describe, expect, it } from 'vitest';
import { LOSS_PARTS } from '../../../src/brief/index.ts';
import type { Brief, LossPart } from '../../../src/brief/index.ts';
import { CALIBRATE_DEFAULTS, calibrate, measure } from '../../../src/engine/index.ts';
import type { BenchReading } from '../../../src/engine/index.ts';
import { createStream } from '../../../src/numeric/index.ts';
import { aBrief, aChannel, aDesign, aGrid, aPlacement, anSBend } from '../../support/plates.ts';

const options = { source: 'test bench', ...CALIBRATE_DEFAULTS };

/** A brief whose losses are scaled: the world that the bench sees. */
function world(factors: Partial<Record<LossPart, number>>): Brief {
  const exact = (part: LossPart) => {
    const value = factors[part] ?? 1;
    return { value, low: value, high: value };
  };
  const [friction, ends, curvature, areaChanges] = LOSS_PARTS.map(exact);
  return aBrief({ calibration: { source: 'made up', friction, ends, curvature, areaChanges } });
}

const bends = aDesign({ channels: [anSBend({ placements: aGrid(4, 9) })] });
const holes = aDesign({ channels: [aChannel({ placements: aGrid(4, 9) })] });
const mixed = aDesign({
  channels: [
    aChannel({ bore_mm: [4], placements: [aPlacement({ x_mm: -20 })] }),
    anSBend({ placements: aGrid(2, 12) }),
  ],
});

/** What the bench reads of a coupon, scattered by a share. */
function readings(truth: Brief, design: typeof bends, scatter = 0): BenchReading[] {
  const stream = createStream('calibrate', String(scatter));
  return [2, 4, 6, 9, 12, 16, 20, 25].map((flow_m3_per_h) => {
    const air = { ...truth.air, supply: { kind: 'flow' as const, flow_m3_per_h } };
    const { measures, readings: values } = measure({ ...truth, air }, design);
    const drop = values[measures.findIndex((info) => info.id === 'pressureDrop_Pa')] ?? 0;
    return { flow_m3_per_h, pressure_Pa: drop * (1 + scatter * (2 * stream.next() - 1)) };
  });
}

describe('calibrate()', () => {
  it('leaves every factor at 1 where the estimate is right', () => {
    const { calibration, noiseFactor } = calibrate(
      aBrief(),
      bends,
      readings(aBrief(), bends),
      options,
    );
    for (const part of LOSS_PARTS) expect(calibration[part].value).toBeCloseTo(1, 2);
    expect(noiseFactor).toBe(1);
  });

  it.each([
    ['straight holes', holes, { friction: 1.3 }],
    ['S-bends', bends, { curvature: 1.5, ends: 0.9 }],
    ['unlike channels side by side', mixed, { curvature: 1.4, friction: 1.15 }],
  ] as const)('brings %s to the readings within their scatter', (_name, design, factors) => {
    const measured = readings(world(factors), design, 0.02);
    const { readings: compared } = calibrate(aBrief(), design, measured, options);
    for (const { pressure_Pa, calibrated_Pa } of compared) {
      expect(Math.abs(calibrated_Pa / pressure_Pa - 1)).toBeLessThan(0.035);
    }
    const off = (key: 'estimated_Pa' | 'calibrated_Pa'): number =>
      compared.reduce((sum, entry) => sum + Math.abs(entry[key] / entry.pressure_Pa - 1), 0);
    expect(off('calibrated_Pa')).toBeLessThan(0.5 * off('estimated_Pa'));
  });

  it('lets the truth lie within the interval of the factor that the coupon shows best', () => {
    const measured = readings(world({ friction: 1.3 }), holes, 0.02);
    const { calibration, parts } = calibrate(aBrief(), holes, measured, options);
    expect(calibration.friction.low).toBeLessThan(1.3);
    expect(calibration.friction.high).toBeGreaterThan(1.3);
    // Straight holes teach nothing of bends or widening bores.
    const learnt = Object.fromEntries(parts.map((entry) => [entry.part, entry.learnt]));
    expect(learnt['curvature']).toBeLessThan(0.01);
    expect(learnt['friction']).toBeGreaterThan(0.5);
    expect(calibration.curvature.value).toBeCloseTo(1, 6);
  });

  it('gives a calibration with which a later run reads what the bench read', () => {
    const measured = readings(world({ curvature: 1.5 }), bends);
    const { calibration } = calibrate(aBrief(), bends, measured, options);
    const later = readings(aBrief({ calibration }), bends);
    later.forEach(({ pressure_Pa }, i) => {
      expect(Math.abs(pressure_Pa / measured[i].pressure_Pa - 1)).toBeLessThan(0.03);
    });
  });

  it('says so when drawing and readings do not belong together', () => {
    const measured = readings(aBrief(), holes).map(({ flow_m3_per_h, pressure_Pa }) => ({
      flow_m3_per_h,
      pressure_Pa: 8 * pressure_Pa,
    }));
    const { parts, noiseFactor } = calibrate(aBrief(), holes, measured, options);
    expect(parts.some((entry) => entry.atBound)).toBe(true);
    expect(noiseFactor).toBeGreaterThan(2);
  });

  it('refuses readings at rest and too few of them, all at once', () => {
    const few = [{ flow_m3_per_h: 0, pressure_Pa: 3 }];
    expect(() => calibrate(aBrief(), holes, few, options)).toThrowError(
      /readings is 1.*at least 3.*readings\[0\]\.flow_m3_per_h is 0/s,
    );
  });
});
