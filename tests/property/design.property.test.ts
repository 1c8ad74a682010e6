import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  POLYGON_SIDES,
  polarRadius,
  sampleDesign,
  sectionSupport,
  wallRadius,
  wallSupport,
} from '../../src/design/index.ts';
import type { Channel, PlateSamples, Section } from '../../src/design/index.ts';
import { aChannel, aDesign, aPlacement, samplesOf } from '../support/plates.ts';

const RUNS = { seed: 20260, numRuns: 60 } as const;

const section: fc.Arbitrary<Section> = fc.oneof(
  fc.constant<Section>({ kind: 'round' }),
  fc.constant<Section>({ kind: 'teardrop' }),
  fc.double({ min: 1, max: 8, noNaN: true }).map((aspect): Section => ({ kind: 'slot', aspect })),
  fc.integer({ ...POLYGON_SIDES }).map((sides): Section => ({ kind: 'polygon', sides })),
);
const angle = fc.double({ min: -7, max: 7, noNaN: true });
const sideways = fc.double({ min: -5, max: 5, noNaN: true });

const channel: fc.Arbitrary<Channel> = fc
  .record({
    section,
    a: fc.tuple(sideways, sideways),
    b: fc.tuple(sideways, sideways),
    roll_deg: fc.double({ min: -180, max: 180, noNaN: true }),
    bore_mm: fc.array(fc.double({ min: 2, max: 6, noNaN: true }), { minLength: 1, maxLength: 5 }),
    side_deg: fc.double({ min: -180, max: 180, noNaN: true }),
    width_deg: fc.double({ min: 10, max: 300, noNaN: true }),
    at: fc.double({ min: 0.2, max: 0.8, noNaN: true }),
  })
  .map(({ section: kind, a, b, roll_deg, bore_mm, side_deg, width_deg, at }) =>
    aChannel({
      section: kind,
      points_mm: [
        [0, 0, 0],
        [a[0], a[1], 7],
        [b[0], b[1], 13],
        [0, 0, 20],
      ],
      roll_deg,
      bore_mm,
      pockets: [{ at, length_mm: 6, depth_mm: 1.5, width_deg, side_deg }],
    }),
  );

test('the support of a section is at least its polar radius, in every direction', () => {
  fc.assert(
    fc.property(section, fc.double({ min: 0, max: 1, noNaN: true }), angle, (kind, roof, a) => {
      const [c, s] = [Math.cos(a), Math.sin(a)];
      const support = sectionSupport(kind, 5, roof, c, s);
      expect(support).toBeGreaterThanOrEqual(polarRadius(kind, 5, roof, c, s) - 1e-9);
      expect(support).toBeGreaterThanOrEqual(2.5 - 1e-9);
    }),
    { ...RUNS, numRuns: 400 },
  );
});

test('wallSupport() is never less than the wall reaches, nor more than the reach', () => {
  fc.assert(
    fc.property(channel, angle, fc.integer({ min: 0, max: 31 }), (drawn, psi, station) => {
      const samples = samplesOf(drawn);
      let reach = 0;
      for (let i = 0; i < 360; i++) {
        const theta = (i * Math.PI) / 180;
        reach = Math.max(reach, wallRadius(samples, 0, station, theta) * Math.cos(theta - psi));
      }
      const support = wallSupport(samples, 0, station, Math.cos(psi), Math.sin(psi));
      expect(support).toBeGreaterThanOrEqual(reach - 1e-9);
      expect(support).toBeLessThanOrEqual(samples.reach_mm[station] + 0.04 * 1.5);
    }),
    RUNS,
  );
});

test('frames stay orthonormal and right-handed in every standing', () => {
  fc.assert(
    fc.property(
      channel,
      fc.double({ min: 0, max: 360, noNaN: true }),
      fc.boolean(),
      (drawn, turn_deg, mirrored) => {
        const placements = [aPlacement({ turn_deg, mirrored })];
        for (const build of ['flat', 'edge'] as const) {
          const design = aDesign({ plate: { build }, channels: [{ ...drawn, placements }] });
          const s = sampleDesign(design);
          for (let i = 0; i < 3 * 32; i += 3) {
            const [t, f, n] = [s.tangent, s.first, s.second].map((rows) =>
              Array.from(rows.slice(i, i + 3)),
            );
            for (const axis of [t, f, n]) expect(Math.hypot(...axis)).toBeCloseTo(1, 9);
            expect(t[0] * f[0] + t[1] * f[1] + t[2] * f[2]).toBeCloseTo(0, 9);
            expect(n[0]).toBeCloseTo(t[1] * f[2] - t[2] * f[1], 9);
            expect(n[2]).toBeCloseTo(t[0] * f[1] - t[1] * f[0], 9);
          }
        }
      },
    ),
    RUNS,
  );
});

function rowsOf(samples: PlateSamples): number[] {
  const bends = Array.from({ length: samples.stations }, (_, k) =>
    Math.hypot(...samples.curvature_per_mm.slice(3 * k, 3 * k + 3)),
  );
  return [samples.length_mm[0], ...samples.area_mm2, ...samples.reach_mm, ...bends];
}

test('turning or mirroring a channel leaves lengths, areas, reach and curvature alone', () => {
  fc.assert(
    fc.property(
      channel,
      fc.constantFrom(90, 180, 270, 33),
      fc.boolean(),
      (drawn, turn_deg, mirrored) => {
        // Built flat, the roof of a teardrop turns with the plate as well.
        const stood = { ...drawn, placements: [aPlacement({ turn_deg, mirrored })] };
        const before = rowsOf(samplesOf(drawn));
        const after = rowsOf(samplesOf(stood));
        before.forEach((value, i) => expect(after[i]).toBeCloseTo(value, 8));
      },
    ),
    RUNS,
  );
});

test('sampling converges: every station of 17 is a station of 129', () => {
  fc.assert(
    fc.property(channel, (drawn) => {
      const coarse = samplesOf(drawn, 17);
      const fine = samplesOf(drawn, 129);
      expect(coarse.length_mm[0]).toBe(fine.length_mm[0]);
      for (let k = 0; k < 17; k++) {
        for (let d = 0; d < 3; d++) {
          expect(coarse.point_mm[3 * k + d]).toBeCloseTo(fine.point_mm[24 * k + d], 9);
          expect(coarse.tangent[3 * k + d]).toBeCloseTo(fine.tangent[24 * k + d], 9);
        }
        expect(coarse.bore_mm[k]).toBeCloseTo(fine.bore_mm[8 * k], 9);
      }
    }),
    RUNS,
  );
});
