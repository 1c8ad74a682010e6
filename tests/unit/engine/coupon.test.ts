import { describe, expect, it } from 'vitest';
import { COUPON_DEFAULTS, cutCoupon, measure, pressureCurve } from '../../../src/engine/index.ts';
import type { CouponOptions } from '../../../src/engine/index.ts';
import { aBrief, aDesign, aGrid, anSBend } from '../../support/plates.ts';

const brief = aBrief();
/** Gentle S-bends of 4 mm bore, 9 mm apart, over the whole plate. */
const bend = anSBend({
  points_mm: [
    [0, 0, 0],
    [1.2, 0, 7],
    [-1.2, 0, 13],
    [0, 0, 20],
  ],
  bore_mm: [4],
  placements: aGrid(5, 9),
});
const plate = aDesign({ channels: [bend] });
const cut = (changes: Partial<CouponOptions> = {}) =>
  cutCoupon(brief, plate, { ...COUPON_DEFAULTS, ...changes });

describe('cutCoupon()', () => {
  it('keeps the channels that lie wholly inside, as they are', () => {
    const coupon = cut();
    // Three rows of three: 18 mm between the outer ones, and some 7 mm for bore and swing.
    expect(coupon.channels).toBe(9);
    expect(coupon.share).toBeCloseTo(9 / 25, 9);
    const [channel] = coupon.design.channels;
    expect(channel.points_mm).toBe(plate.channels[0].points_mm);
  });

  it('moves what it keeps to its own middle', () => {
    const moved = cut({ x_mm: 9, y_mm: -9 });
    expect(moved.channels).toBe(9);
    const xs = moved.design.channels[0].placements.map(({ x_mm }) => x_mm);
    expect([Math.min(...xs), Math.max(...xs)]).toEqual([-9, 9]);
  });

  it('has the walls and the pressure drop of the plate at its share of the flow', () => {
    const coupon = cut();
    const whole = measure(brief, plate);
    const part = measure(coupon.brief, coupon.design);
    const read = ({ measures, readings }: typeof whole, id: string): number =>
      readings[measures.findIndex((info) => info.id === id)] ?? Number.NaN;
    expect(read(part, 'overlapDepth_mm')).toBe(0);
    expect(read(part, 'channelVelocity_m_per_s')).toBeCloseTo(
      read(whole, 'channelVelocity_m_per_s'),
      3,
    );
    // The inlet loss knows how open the face is, so a coupon with another border differs a little.
    expect(read(part, 'pressureDrop_Pa') / read(whole, 'pressureDrop_Pa')).toBeCloseTo(1, 1);
    expect(read(part, 'thinnestWall_mm')).toBeGreaterThanOrEqual(brief.process.minimumWall_mm);
  });

  it('says what would do when nothing fits', () => {
    expect(() => cut({ width_mm: 6, height_mm: 6 })).toThrowError(
      /6 x 6 mm at 0, 0.*nearest channel needs \d+ x \d+ mm at 0\.0, 0\.0/s,
    );
  });
});

describe('pressureCurve()', () => {
  it('rises with flow, more than straight and hardly more than square', () => {
    const [slow, fast] = pressureCurve(brief, plate, [10, 20]);
    const ratio = fast.pressureDrop_Pa / slow.pressureDrop_Pa;
    expect(ratio).toBeGreaterThan(2);
    // Separation fades in with the Reynolds number, so bends may go a little beyond the square.
    expect(ratio).toBeLessThan(4.3);
  });
});
