import { describe, expect, it } from 'vitest';
import { rankCorrelation } from '../../../src/numeric/index.ts';
import { boreOverlap } from '../../../src/measures/analyses/dust-chances.ts';
import { dustConstants, tabulatedBendRate } from '../../../src/measures/analyses/dust-classes.ts';
import { createLedger, marchDust } from '../../../src/measures/analyses/dust-march.ts';
import { ownPocketVolume, purgeAngle } from '../../../src/measures/analyses/dust-pockets.ts';
import { dustAnalysis } from '../../../src/measures/analyses/dust.ts';
import type { Channel, PlateSamples, Pocket } from '../../../src/design/index.ts';
import { wallRadius } from '../../../src/design/index.ts';
import { laminarBendRate, plugDriftLoss } from '../../../src/physics/index.ts';
import { assess } from '../../support/assessments.ts';
import { aBrief, aChannel, aGrid, aPlacement, anSBend, samplesOf } from '../../support/plates.ts';

const AIR = { density_kg_per_m3: 1.2041, viscosity_Pa_s: 1.8134e-5, meanFreePath_m: 66e-9 };
const POCKET: Pocket = { at: 0.5, length_mm: 5, depth_mm: 2, width_deg: 120, side_deg: 0 };

/** A straight leg, a circular bend of 90 degrees about y, a straight leg; sampled by hand. */
function aBend(bore_mm: number, radius_mm: number, leg_mm: number, stations: number): PlateSamples {
  const samples = samplesOf(aChannel({ bore_mm: [bore_mm] }), stations);
  const arc_mm = (Math.PI / 2) * radius_mm;
  samples.length_mm[0] = arc_mm + 2 * leg_mm;
  for (let i = 0; i < stations; i++) {
    const s = (samples.length_mm[0] * i) / (stations - 1);
    const a = Math.min(Math.PI / 2, Math.max(0, (s - leg_mm) / radius_mm));
    const bends = s > leg_mm && s < leg_mm + arc_mm;
    samples.tangent.set([Math.sin(a), 0, Math.cos(a)], 3 * i);
    samples.first.set([Math.cos(a), 0, -Math.sin(a)], 3 * i);
    samples.second.set([0, 1, 0], 3 * i);
    const k = bends ? 1 / radius_mm : 0;
    samples.curvature_per_mm.set([Math.cos(a) * k, 0, -Math.sin(a) * k], 3 * i);
  }
  return samples;
}

/** Share of grains of one size that strikes, with nothing lost or kept twice. */
function struck(samples: PlateSamples, diameter_um: number, speed_m_per_s: number): number {
  const dust = dustConstants(
    { density_kg_per_m3: 2650, classes: [{ diameter_um, massShare: 1 }] },
    AIR,
  );
  const ledger = createLedger(1);
  const flow_m3_per_s = speed_m_per_s * samples.area_mm2[0] * 1e-6;
  // Friction near zero and no rebound: everything that strikes stays.
  dust.rebound.fill(0);
  marchDust(samples, 0, { flow_m3_per_s, reynolds: 1000, friction: 1e-9 }, dust, 0.8, 1, ledger);
  expect(ledger.carried[0] + ledger.skimming[0] + ledger.onWalls[0]).toBeCloseTo(1, 9);
  return ledger.onWalls[0];
}

describe('dust', () => {
  it('in a long 90 degree bend is lost as the laminar fit of Pui et al. 1987 says', () => {
    // 4 mm bore, R/D 4, quartz at 1 m/s: Stk .0088 (2 um) to .13 (8 um).
    for (const [d_um, tau] of [
      [2, 3.516843e-5],
      [5, 2.096997e-4],
      [8, 5.2973e-4],
    ]) {
      const stokes = tau / 0.004;
      const expected = 1 - Math.exp((-laminarBendRate(stokes) * Math.PI) / 2);
      const found = struck(aBend(4, 16, 8, 400), d_um, 1);
      // Geometry takes a share of (2 Stk)^2 of the sum, the rational exponential 0.4 %.
      expect(Math.abs(found - expected), `${d_um} um: ${found}, ${expected}`).toBeLessThan(
        0.01 * expected + 4 * stokes * stokes * 0.5,
      );
    }
  });

  it('much too heavy to follow is lost as in straight flight: by the overlap of two circles', () => {
    // The channel jogs by a fifth of its bore; grains of 80 um at 10 m/s fly straight on (Stk 130).
    const jog = aChannel({
      points_mm: [
        [0, 0, 0],
        [0, 0, 5],
        [0.8, 0, 15],
        [0.8, 0, 20],
      ],
      bore_mm: [4],
    });
    const samples = samplesOf(jog, 200);
    // The spline swings a little past the jog: the lens of the two circles at its true reach.
    let reach_mm = 0;
    for (let i = 0; i < 200; i++) reach_mm = Math.max(reach_mm, samples.point_mm[3 * i]);
    // 0.008 from the lens formula, 0.004 from paths taken along the arc instead of along z.
    expect(Math.abs(struck(samples, 80, 10) - plugDriftLoss(reach_mm / 4, 1))).toBeLessThan(0.012);
  });

  it('boreOverlap() is within 0.008 of the exact lens', () => {
    for (let s = 0; s <= 1; s += 0.05) {
      expect(Math.abs(boreOverlap(s) - (1 - plugDriftLoss(s, 1)))).toBeLessThan(0.008);
    }
  });

  it('table of loss rates is within 0.3 % of the formula', () => {
    for (let u = -12; u < 4; u += 0.0137) {
      expect(Math.abs(tabulatedBendRate(u) / laminarBendRate(2 ** u) - 1)).toBeLessThan(0.003);
    }
  });

  it('is not caught at all in straight holes', () => {
    const report = assess(aChannel({ placements: aGrid(5, 8) })).get(dustAnalysis);
    expect(report.capture).toBe(0);
    expect(report.purge).toBe(0);
  });

  it('is hardly caught by fast wiggles that a grain cannot follow', () => {
    const wiggle = (amplitude: number, waves: number): Channel =>
      aChannel({
        points_mm: Array.from({ length: 61 }, (_, i): [number, number, number] => [
          amplitude * (1 - Math.cos((2 * Math.PI * waves * i) / 60)),
          0,
          (20 * i) / 60,
        ]),
      });
    // Six waves of 0.1 mm turn as much in sum as one of 0.6 mm, yet a coarse grain flies through.
    const many = struck(samplesOf(wiggle(0.1, 6), 240), 20, 6);
    const one = struck(samplesOf(wiggle(0.6, 1), 240), 20, 6);
    expect(many).toBeLessThan(0.5 * one);
  });

  const two: Pocket[] = [
    { ...POCKET, at: 0.35, side_deg: 180 },
    { ...POCKET, at: 0.65, side_deg: 0 },
  ];
  const placements = aGrid(6, 9);

  it('pockets on the outer side keep more than on the inner side, and than none', () => {
    const capture = (pockets: Pocket[]): number =>
      assess(anSBend({ pockets, placements })).get(dustAnalysis).inPockets;
    const inner = two.map((pocket) => ({ ...pocket, side_deg: 180 - pocket.side_deg }));
    const outerSide = Math.max(capture(two), capture(inner));
    const innerSide = Math.min(capture(two), capture(inner));
    expect(capture([])).toBe(0);
    expect(outerSide).toBeGreaterThan(2 * innerSide);
    expect(outerSide).toBeGreaterThan(0.05);
  });

  it('a pocket listed twice neither keeps nor holds more', () => {
    const once = assess(anSBend({ pockets: two, placements })).get(dustAnalysis);
    const twice = assess(anSBend({ pockets: [...two, ...two], placements })).get(dustAnalysis);
    expect(twice.capture).toBeCloseTo(once.capture, 12);
    expect(twice.inPockets).toBeCloseTo(once.inPockets, 12);
    expect(twice.capacity_g).toBeCloseTo(once.capacity_g, 9);
  });

  it('a pocket shallower than the process can print is worth next to nothing', () => {
    const flat = two.map((pocket) => ({ ...pocket, depth_mm: 0.05 }));
    const report = assess(anSBend({ pockets: flat, placements })).get(dustAnalysis);
    expect(report.inPockets).toBeLessThan(1e-3);
  });

  it('a pocket where no dust arrives adds no capacity', () => {
    const report = assess(aChannel({ pockets: two, placements })).get(dustAnalysis);
    expect(report.capacity_g).toBe(0);
  });

  it('volume of a pocket agrees with a fine sum over the wall', () => {
    for (const section of [{ kind: 'round' }, { kind: 'polygon', sides: 8 }] as const) {
      const samples = samplesOf(aChannel({ section, pockets: [POCKET] }), 401);
      const bare = samplesOf(aChannel({ section }), 401);
      let sum = 0;
      for (let i = 0; i < 401; i++) {
        for (let k = 0; k < 360; k++) {
          const theta = (2 * Math.PI * k) / 360;
          const r = wallRadius(samples, 0, i, theta);
          const b = wallRadius(bare, 0, i, theta);
          sum += (((r * r - b * b) / 2) * (2 * Math.PI)) / 360;
        }
      }
      const volume = (sum * 20) / 400;
      // Round: exact but for the sum's steps. Octagon: the wall's radius varies by 8 % over the mouth.
      const slack = section.kind === 'round' ? 0.003 : 0.04;
      expect(Math.abs(ownPocketVolume(samples, 0, 0) / volume - 1)).toBeLessThan(slack);
    }
  });

  it('a pocket that faces the reversed stream is met at its full speed, one behind it is not', () => {
    const out = { angle: 0, reach: 0 };
    const facing = [0, 90, 180, 270].map((side_deg) => {
      const samples = samplesOf(
        anSBend({
          points_mm: [
            [0, 0, 0],
            [5, 0, 7],
            [-5, 0, 13],
            [0, 0, 20],
          ],
          pockets: [{ ...POCKET, at: 0.25, side_deg }],
        }),
        64,
      );
      purgeAngle(samples, 0, 0, out);
      return { ...out };
    });
    const reaches = facing.map(({ reach }) => reach);
    expect(Math.max(...reaches)).toBe(1);
    expect(Math.min(...reaches)).toBeCloseTo(0.2, 9);
  });

  it('moves smoothly when a pocket is moved and when a bend is deepened', () => {
    const at = (share: number, swing: number): number =>
      assess(
        aChannel({
          points_mm: [
            [0, 0, 0],
            [swing, 0, 7],
            [-swing, 0, 13],
            [0, 0, 20],
          ],
          pockets: [{ ...POCKET, at: share }],
          placements,
        }),
      ).get(dustAnalysis).capture;
    for (let i = 0; i < 40; i++) {
      const move = Math.abs(at(0.3 + 0.01 * (i + 1), 2) - at(0.3 + 0.01 * i, 2));
      expect(move).toBeLessThan(0.012);
      const bend = Math.abs(at(0.4, 0.1 * (i + 1)) - at(0.4, 0.1 * i));
      expect(bend).toBeLessThan(0.05);
    }
  });

  it('fast form is within three tenths below the exact one, never above it, and ranks alike', () => {
    const fast: number[] = [];
    const exact: number[] = [];
    for (let swing = 0.5; swing <= 4; swing += 0.25) {
      for (const pockets of [[], two]) {
        const channel = anSBend({
          points_mm: [
            [0, 0, 0],
            [swing, 0, 7],
            [-swing, 0, 13],
            [0, 0, 20],
          ],
          pockets,
          placements,
        });
        fast.push(assess(channel).get(dustAnalysis).capture);
        exact.push(assess(channel, { exact: true }).get(dustAnalysis).capture);
      }
    }
    for (let i = 0; i < fast.length; i++) {
      // Steps of two stations average opposite curvatures out: the coarse form never flatters.
      // Most of what counts sits in pockets, whose mouths it sees in a few steps only.
      expect(fast[i]).toBeLessThan(exact[i]);
      expect(fast[i]).toBeGreaterThan(0.7 * exact[i]);
    }
    expect(rankCorrelation(fast, exact)).toBeGreaterThan(0.97);
  });

  it('does not depend on where the plate stands or how it is turned', () => {
    const brief = aBrief();
    const turned = (turn_deg: number, mirrored: boolean): number =>
      assess(anSBend({ pockets: two, placements: [aPlacement({ turn_deg, mirrored })] }), {
        brief,
      }).get(dustAnalysis).capture;
    expect(turned(37, false)).toBeCloseTo(turned(0, false), 10);
    expect(turned(0, true)).toBeCloseTo(turned(0, false), 10);
  });
});
