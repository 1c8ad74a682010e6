import { describe, expect, it } from 'vitest';
import type { Design, Placement } from '../../../src/design/index.ts';
import { ligamentAnalysis } from '../../../src/measures/analyses/ligaments.ts';
import type { LigamentReport } from '../../../src/measures/analyses/ligaments.ts';
import { pushAnalysis } from '../../../src/measures/analyses/push.ts';
import { tearAnalysis } from '../../../src/measures/analyses/tear.ts';
import { findMeasure } from '../../../src/measures/index.ts';
import { slotStiffness } from '../../../src/physics/index.ts';
import { assess } from '../../support/assessments.ts';
import { aBrief, aChannel, aDesign, aGrid, aPlacement, anSBend } from '../../support/plates.ts';

const PUSH = aBrief({ strength: { push_N: 50, padRadius_mm: 6, modulus_GPa: 2.3 } });

function ligamentsOf(design: Design, exact = false): LigamentReport {
  return assess(design, { exact, brief: PUSH }).get(ligamentAnalysis);
}

/** Rows `across` apart, every other one shifted by `shift`. */
function rows(count: number, along: number, across: number, shift: number): Placement[] {
  return Array.from({ length: count * count }, (_, i) => {
    const [row, column] = [Math.floor(i / count), i % count];
    const x_mm = (column - (count - 1) / 2) * along + (row % 2) * shift;
    return aPlacement({ x_mm, y_mm: (row - (count - 1) / 2) * across });
  });
}

describe('ligaments of round holes', () => {
  it('square lattice: (p - d) / p, slenderness d / (p - d)', () => {
    const design = aDesign({ channels: [aChannel({ bore_mm: [7], placements: aGrid(6, 10) })] });
    for (const exact of [false, true]) {
      const report = ligamentsOf(design, exact);
      expect(report.efficiency).toBeCloseTo(0.3, 9);
      expect(report.pattern).toBe('square');
      expect(report.pitch_mm).toBeCloseTo(10, 9);
      expect(report.slenderness).toBeCloseTo(7 / 3, 9);
      // Periodic cell, square, along the diagonal (tests/reference/data/perforated-elastic.json).
      expect(report.along).toBeCloseTo(0.2252317, 5);
      expect(report.across).toBe(report.along);
    }
  });

  it('triangular lattice: six neighbours alike, its own column of the table', () => {
    const placements = rows(7, 10, 10 * Math.sqrt(0.75), 5);
    const report = ligamentsOf(aDesign({ channels: [aChannel({ bore_mm: [7], placements })] }));
    expect(report.pattern).toBe('triangular');
    expect(report.efficiency).toBeCloseTo(0.3, 6);
    expect(report.along).toBeCloseTo(0.2673911, 5);
    expect(report.poisson).toBeCloseTo(0.3834789, 5);
  });

  it('a widening on the way is met at its depth', () => {
    const placements = aGrid(5, 10);
    const design = aDesign({ channels: [aChannel({ bore_mm: [5, 7, 5], placements })] });
    expect(ligamentsOf(design, true).efficiency).toBeCloseTo(0.3, 2);
  });

  it('bends that run side by side lean: their ligament is thinner than the ports say', () => {
    const straight = ligamentsOf(aDesign({ channels: [aChannel({ placements: aGrid(5, 10) })] }));
    const bent = ligamentsOf(aDesign({ channels: [anSBend({ placements: aGrid(5, 10) })] }));
    expect(bent.efficiency).toBeLessThan(straight.efficiency - 0.03);
  });

  it('a mounting hole nearer than the neighbours is measured and flagged', () => {
    // Channels of 4 on a pitch of 10 leave 6 mm; the screw of 3 at 10, 10 leaves 7.07 - 3.5 = 3.57.
    const holes = [{ x_mm: 10, y_mm: 10, diameter_mm: 3 }];
    const channels = [aChannel({ bore_mm: [4], placements: aGrid(2, 10) })];
    const flagged = (design: Design): string =>
      findMeasure('pushStressShare')?.outside?.(assess(design, { brief: PUSH })) ?? '';
    expect(ligamentsOf(aDesign({ channels })).hole_mm).toBe(Infinity);
    const report = ligamentsOf(aDesign({ plate: { holes }, channels }));
    expect(report.least_mm).toBeCloseTo(6, 9);
    expect(report.hole_mm).toBeCloseTo(Math.sqrt(50) - 3.5, 9);
    expect(flagged(aDesign({ plate: { holes }, channels }))).toMatch(/3\.6 mm to a mounting hole/);
    expect(flagged(aDesign({ channels }))).not.toMatch(/mounting hole/);
  });

  it('one hole has no neighbour and leaves the plate as solid', () => {
    const report = ligamentsOf(aDesign());
    expect(report).toMatchObject({ model: 'solid', efficiency: 1, along: 1, slenderness: 0 });
    // The rim: 40 - 2.5 mm.
    expect(report.edge_mm).toBeCloseTo(37.5, 9);
  });
});

describe('ligaments of slots', () => {
  const slot = { section: { kind: 'slot', aspect: 5 }, bore_mm: [3] } as const;

  it('webs in line: slat, web and pitch as drawn, bent as the beam model says', () => {
    const placements = rows(4, 17, 4.2, 0);
    const report = ligamentsOf(aDesign({ channels: [aChannel({ ...slot, placements })] }));
    const cell = { width: 3, slat: 1.2, pitch: 17, web: 2, shift: 0, thickness: 20 };
    const expected = slotStiffness(cell);
    expect(report.model).toBe('slots');
    expect(report.along).toBeCloseTo(expected.along, 6);
    expect(report.across).toBeCloseTo(expected.across, 6);
    expect(report.slenderness).toBeCloseTo(15 / 1.2, 6);
    expect([report.alongShare, report.acrossShare].map((x) => Math.round(1000 * x))).toEqual([
      286, 118,
    ]);
  });

  it('a brick pattern is far softer across, whichever way the pattern is turned', () => {
    const inLine = ligamentsOf(
      aDesign({ channels: [aChannel({ ...slot, placements: rows(4, 17, 4.2, 0) })] }),
    );
    const placements = rows(4, 17, 4.2, 8.5);
    const brick = ligamentsOf(aDesign({ channels: [aChannel({ ...slot, placements })] }));
    expect(brick.across).toBeLessThan(0.1 * inLine.across);
    const turned = placements.map((p) => aPlacement({ x_mm: -p.y_mm, y_mm: p.x_mm, turn_deg: 90 }));
    const other = ligamentsOf(aDesign({ channels: [aChannel({ ...slot, placements: turned })] }));
    expect(other.across).toBeCloseTo(brick.across, 6);
    expect(Math.abs(other.axisY)).toBeCloseTo(1, 6);
  });

  it('leaning slots lie wider in the plane: slats are as thick as seen along the air', () => {
    const lean = aChannel({
      ...slot,
      points_mm: [
        [0, -7.5, 0],
        [0, 7.5, 20],
      ],
      inletDirection: [0, 0.6, 0.8],
      outletDirection: [0, 0.6, 0.8],
      placements: rows(4, 17, 5, 0),
    });
    // Width 3 / 0.8 = 3.75 in the plane: a slat of 1.25 of 5.
    const report = ligamentsOf(aDesign({ channels: [lean] }));
    expect(report.alongShare).toBeCloseTo(0.25, 6);
  });

  it('ribs shorten slats: two slots for one, slenderness halved', () => {
    const long = aChannel({ ...slot, placements: rows(3, 17, 4.2, 0) });
    const short = aChannel({
      section: { kind: 'slot', aspect: 2.3 },
      bore_mm: [3],
      placements: rows(6, 8.5, 4.2, 0),
    });
    const one = ligamentsOf(aDesign({ channels: [long] })).slenderness;
    const two = ligamentsOf(aDesign({ channels: [short] })).slenderness;
    expect(one).toBeCloseTo(12.5, 6);
    expect(two).toBeCloseTo(6.9 / 1.2, 6);
  });
});

describe('the push', () => {
  it('a plate with one fine hole bends as a solid round plate: 0.67 mm, 5.96 MPa', () => {
    // Timoshenko: a 60, t 4 mm, E 2.3 GPa, 50 N on a radius of 6 mm, simply supported; the pad's width
    // takes 1.5 % off the point load's 0.674 mm, shear adds 0.05 %.
    const design = aDesign({
      plate: { outline: { kind: 'round', diameter_mm: 120 }, thickness_mm: 4 },
      channels: [
        aChannel({
          bore_mm: [1],
          points_mm: [
            [0, 0, 0],
            [0, 0, 4],
          ],
        }),
      ],
    });
    const report = assess(design, { brief: PUSH }).get(pushAnalysis);
    expect(report.deflection_mm).toBeCloseTo(0.667, 2);
    expect(report.stress_MPa).toBeCloseTo(5.96, 1);
    // 40 MPa over 3.
    expect(report.allowed_MPa).toBeCloseTo(40 / 3, 9);
  });

  it('holes at an efficiency of 0.3 make it some 3.4 times as soft and stress the ligaments', () => {
    const plate = { outline: { kind: 'round', diameter_mm: 120 }, thickness_mm: 4 } as const;
    const points_mm = [
      [0, 0, 0],
      [0, 0, 4],
    ] as const;
    const placements = rows(21, 5, 5 * Math.sqrt(0.75), 2.5).filter(
      (p) => p.x_mm * p.x_mm + p.y_mm * p.y_mm < 55 * 55,
    );
    const design = aDesign({
      plate,
      channels: [aChannel({ bore_mm: [3.5], points_mm, placements })],
    });
    const report = assess(design, { brief: PUSH }).get(pushAnalysis);
    // E* = 0.267 E: about 2.3 mm. (3 W / 2 pi t^2) [(1 + nu*) ln 10 + 1] / 0.3 = 20.8 MPa, nu* 0.383.
    expect(report.deflection_mm).toBeGreaterThan(2.2);
    expect(report.deflection_mm).toBeLessThan(2.4);
    const closed_Pa = (150 / (2 * Math.PI * 16e-6)) * (1.3834789 * Math.log(10) + 1);
    expect(report.stress_MPa / (closed_Pa / 0.3e6)).toBeCloseTo(1, 2);
    const outside = findMeasure('pushDeflection_mm')?.outside?.(assess(design, { brief: PUSH }));
    // 4 mm are less than two pitches of 5 mm, and it sags by more than 2 mm.
    expect(outside).toContain('thinner than two pitches of 5 mm');
    expect(outside).toContain('more than half its thickness');
  });

  it('a plate on edge counts by its strength across layers, a lasting push by half the modulus', () => {
    const base = { brief: PUSH };
    const flat = assess(aDesign(), base).get(pushAnalysis);
    const edge = assess(aDesign({ plate: { build: 'edge' } }), base).get(pushAnalysis);
    expect(edge.allowed_MPa).toBeCloseTo(0.5 * flat.allowed_MPa, 9);
    const lasting = aBrief({ strength: { ...PUSH.strength, lasting: true } });
    expect(assess(aDesign(), { brief: lasting }).get(pushAnalysis).deflection_mm).toBeCloseTo(
      2 * flat.deflection_mm,
      9,
    );
  });

  it('needs a section strength, which {} gives by its defaults', () => {
    const measure = findMeasure('pushStressShare');
    expect(measure?.unavailable?.(aBrief())).toContain('strength');
    expect(measure?.unavailable?.(aBrief({ strength: {} }))).toBeNull();
    expect(aBrief({ strength: {} }).strength).toMatchObject({ push_N: 100, support: 'simple' });
  });
});

describe('the weakest tear', () => {
  const square = {
    outline: { kind: 'rectangle', width_mm: 60, height_mm: 60, cornerRadius_mm: 0 },
  } as const;
  const tear = (design: Design, exact = false): number =>
    assess(design, { exact, brief: PUSH }).get(tearAnalysis).share;

  it('runs along a row: what the holes leave of the width', () => {
    // Six holes of 7 at a pitch of 9 in 60 mm: 60 - 42 = 18 mm of solid.
    const channels = [aChannel({ bore_mm: [7], placements: aGrid(6, 9) })];
    for (const exact of [false, true]) {
      expect(tear(aDesign({ plate: square, channels }), exact)).toBeCloseTo(0.3, 9);
    }
  });

  it('runs through mounting holes in the row as through channels', () => {
    // Four channels and two mounting holes of 7 at a pitch of 9 in 60 mm: 18 mm of solid again.
    const holes = [-22.5, 22.5].map((x_mm) => ({ x_mm, y_mm: 0, diameter_mm: 7 }));
    const placements = [-13.5, -4.5, 4.5, 13.5].map((x_mm) => aPlacement({ x_mm, y_mm: 0 }));
    const channels = [aChannel({ bore_mm: [7], placements })];
    for (const exact of [false, true]) {
      expect(tear(aDesign({ plate: { ...square, holes }, channels }), exact)).toBeCloseTo(0.3, 9);
      expect(tear(aDesign({ plate: square, channels }), exact)).toBeCloseTo(32 / 60, 9);
    }
  });

  it('is met whichever way the rows are turned, where flat cuts along x and y miss it', () => {
    // One row of holes across a round plate, turned by 27 degrees.
    const turn = (27 * Math.PI) / 180;
    const placements = Array.from({ length: 9 }, (_, i) =>
      aPlacement({ x_mm: 8 * (i - 4) * Math.cos(turn), y_mm: 8 * (i - 4) * Math.sin(turn) }),
    );
    const channels = [aChannel({ bore_mm: [6], placements })];
    // 80 - 9 * 6 = 26 of 80 mm; from the rays that look for the edge up to 2 % more.
    const found = tear(aDesign({ channels }), true);
    expect(found).toBeGreaterThanOrEqual(26 / 80 - 1e-9);
    expect(found).toBeLessThan(1.02 * (26 / 80));
  });

  it('zigzags where that leaves less solid than any straight cut', () => {
    // Holes of 6 in a zigzag: 7 apart along x, 5 up and down: middles sqrt(74) = 8.602 mm apart.
    const placements = Array.from({ length: 8 }, (_, i) =>
      aPlacement({ x_mm: 7 * (i - 3.5), y_mm: i % 2 === 0 ? 2.5 : -2.5 }),
    );
    const design = aDesign({ plate: square, channels: [aChannel({ bore_mm: [6], placements })] });
    // 7 ligaments of 2.602 and 2 rims of 30 - 24.5 - 3 = 2.5, between ends 60 mm and 5 mm apart.
    const solid = 7 * (Math.sqrt(74) - 6) + 5;
    expect(tear(design, true)).toBeCloseTo(solid / Math.sqrt(3625), 6);
    // A straight cut along the row of four meets 24 mm of holes, one between the rows a little less.
    expect(solid / 60).toBeLessThan(1 - 24 / 60);
    const flat = findMeasure('weakestSection')?.evaluate(assess(design, { exact: true }));
    expect(tear(design, true)).toBeLessThan(Number(flat));
  });

  it('follows channels that lean: seen along the air they are wider by 1 / cosine, at every depth', () => {
    const rise = 20 / Math.sqrt(464);
    const lean = aChannel({
      bore_mm: [7],
      points_mm: [
        [0, -4, 0],
        [0, 4, 20],
      ],
      inletDirection: [0, 8 / Math.sqrt(464), rise],
      outletDirection: [0, 8 / Math.sqrt(464), rise],
      placements: aGrid(5, 9),
    });
    const found = tear(aDesign({ plate: square, channels: [lean] }), true);
    expect(found).toBeCloseTo((60 - 35 / rise) / 60, 6);
  });

  it('does not count the corners that it would take off; runs through a lone hole', () => {
    const corner = [aPlacement({ x_mm: 25, y_mm: 25 }), aPlacement({ x_mm: 18, y_mm: 25 })];
    const design = aDesign({ plate: square, channels: [aChannel({ placements: corner })] });
    expect(tear(design, true)).toBeGreaterThan(0.75);
    // 5 of 80 mm.
    expect(tear(aDesign(), true)).toBeCloseTo(75 / 80, 9);
  });
});
