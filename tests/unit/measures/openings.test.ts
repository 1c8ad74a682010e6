import { expect, it } from 'vitest';
import { openingsAnalysis } from '../../../src/measures/analyses/openings.ts';
import { assess } from '../../support/assessments.ts';
import { aBrief, aChannel, aGrid, anSBend } from '../../support/plates.ts';

it('largest opening is the narrowest place plus 0.3 mm', () => {
  const report = assess(aChannel({ bore_mm: [6, 4, 6] })).get(openingsAnalysis);
  // 32 stations do not fall on the middle: within 0.01 of the waist of 4 mm.
  expect(report.probeOpening_mm).toBeGreaterThanOrEqual(4.3);
  expect(report.probeOpening_mm).toBeLessThan(4.31);
});

it('a pocket beside the waist widens it, one elsewhere does not', () => {
  const pocket = { at: 0.5, length_mm: 8, depth_mm: 2, width_deg: 90, side_deg: 0 };
  const bores = [4, 4];
  const beside = assess(aChannel({ bore_mm: bores, pockets: [pocket] })).get(openingsAnalysis);
  expect(beside.probeOpening_mm).toBeCloseTo(4.3, 9);
  const all = assess(aChannel({ bore_mm: bores, pockets: [{ ...pocket, length_mm: 60 }] }));
  expect(all.get(openingsAnalysis).probeOpening_mm).toBeCloseTo(6.3, 9);
});

it('reach margin of a straight hole is thickness and blade distance beyond the table', () => {
  // Hole 5 mm + 0.3 mm: round up to 6 mm needs 5 mm (ISO 13857 table 4, from memory).
  const report = assess(aChannel()).get(openingsAnalysis);
  expect(report.reachMargin_mm).toBeCloseTo(10 + 20 - 5, 9);
  // From age 3: 10 mm.
  const brief = aBrief({ safety: { reach: 'fromAge3' } });
  expect(assess(aChannel(), { brief }).get(openingsAnalysis).reachMargin_mm).toBeCloseTo(20, 9);
});

it('a bend earns no reach: an S-bend has the margin of the straight hole', () => {
  const straight = assess(aChannel()).get(openingsAnalysis).reachMargin_mm;
  expect(assess(anSBend()).get(openingsAnalysis).reachMargin_mm).toBeCloseTo(straight, 9);
});

it('a waist deep inside counts with the distance that is left behind it', () => {
  // 14 mm at the inlet face falling to 5 mm at the outlet.
  const report = assess(aChannel({ bore_mm: [14, 5] })).get(openingsAnalysis);
  // Opening 14.3 - 0.45 z; up to 6 mm (from z = 18.44) it needs 5 mm: 10 + 20 - 18.44 - 5 = 6.56.
  // Elsewhere less: up to 8 mm from z = 14 needs 15 -> 1. The stations stand 0.65 mm apart.
  expect(report.reachMargin_mm).toBeLessThanOrEqual(6.5556);
  expect(report.reachMargin_mm).toBeGreaterThan(6.5556 - 0.65);
});

it('open area of 9 holes of 5 mm within an 80 mm round with a 3 mm rim', () => {
  const report = assess(aChannel({ placements: aGrid(3, 10) })).get(openingsAnalysis);
  expect(report.openArea).toBeCloseTo((9 * 25) / (74 * 74), 9);
});

it('slots count by their short side and by the slot column', () => {
  const report = assess(aChannel({ section: { kind: 'slot', aspect: 3 }, bore_mm: [6.5] }));
  expect(report.get(openingsAnalysis).probeOpening_mm).toBeCloseTo(6.8, 9);
  // Slot up to 8 mm: 20 mm.
  expect(report.get(openingsAnalysis).reachMargin_mm).toBeCloseTo(10, 9);
});

it('a hexagon may count as the square about it, a teardrop too', () => {
  // Hexagon 5 mm across flats: square about it 5 cos 15 / cos 30 = 5.577 + 0.3 mm: up to 6 mm, 5 mm.
  // (The round about it, 5.774 + 0.3, would ask for 15 mm, the slot 5.3 for 10 mm.)
  const hexagon = assess(aChannel({ section: { kind: 'polygon', sides: 6 } }));
  expect(hexagon.get(openingsAnalysis).reachMargin_mm).toBeCloseTo(30 - 5, 9);
  // Triangle 5 mm about its circle: width 7.5, square 8.365, round 10, each + 0.3: 20, 25, 80.
  const triangle = assess(aChannel({ section: { kind: 'polygon', sides: 3 } }));
  expect(triangle.get(openingsAnalysis).reachMargin_mm).toBeCloseTo(30 - 20, 9);
  const teardrop = assess(aChannel({ section: { kind: 'teardrop' } }));
  expect(teardrop.get(openingsAnalysis).reachMargin_mm).toBeCloseTo(30 - 5, 9);
});

it('square holes count by the square column', () => {
  // 9.8 + 0.3 mm: square up to 12 mm, 80 mm; 9.6 + 0.3: 25 mm.
  const section = { kind: 'polygon', sides: 4 } as const;
  const wide = assess(aChannel({ section, bore_mm: [9.8] }));
  expect(wide.get(openingsAnalysis).reachMargin_mm).toBeCloseTo(30 - 80, 9);
  const narrow = assess(aChannel({ section, bore_mm: [9.6] }));
  expect(narrow.get(openingsAnalysis).reachMargin_mm).toBeCloseTo(30 - 25, 9);
});

it('access digit: the finger must end short of the blades, wherever it is held up', () => {
  const digit = (bore_mm: readonly number[], bladeDistance_mm: number): number => {
    const brief = aBrief({ safety: { bladeDistance_mm } });
    return assess(aChannel({ bore_mm }), { brief }).get(openingsAnalysis).accessDigit;
  };
  // Held up at the inlet face, the tip ends 20 - 10 mm before the outlet.
  expect(digit([6], 0)).toBe(2);
  // The whole finger of 80 mm passes 12.1 + 0.3 mm: 20 + 50 mm are too little, 20 + 70 enough.
  expect(digit([12.1], 50)).toBe(1);
  expect(digit([12.1], 70)).toBe(2);
  // Held up only at the outlet: the tip comes out to the blades 5 mm behind.
  expect(digit([16, 11], 5)).toBe(1);
  expect(digit([2.1], 0)).toBe(3);
  expect(digit([0.6], 0)).toBe(4);
});
