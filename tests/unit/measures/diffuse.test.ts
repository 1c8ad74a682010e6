import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Channel, Section } from '../../../src/design/index.ts';
import { diffuseAnalysis } from '../../../src/measures/analyses/diffuse.ts';
import type { DiffuseReport } from '../../../src/measures/analyses/diffuse.ts';
import { COPIES, pointSet } from '../../../src/measures/analyses/diffuse-points.ts';
import { traceRays } from '../../../src/measures/analyses/diffuse-rays.ts';
import { loadTube } from '../../../src/measures/analyses/diffuse-tube.ts';
import { leakAnalysis } from '../../../src/measures/analyses/sight.ts';
import { diffuseLight } from '../../../src/measures/diffuse-light.ts';
import { createStream } from '../../../src/numeric/index.ts';
import { assess } from '../../support/assessments.ts';
import { aBrief, faultsWith } from '../../support/briefs.ts';
import { aChannel, samplesOf } from '../../support/plates.ts';

const file = new URL('../../reference/data/tube-light.json', import.meta.url);
const { tables } = JSON.parse(readFileSync(file, 'utf8')) as {
  tables: Record<string, { rows: number[][] }>;
};
/** Wall reflectances of the table's columns from the fourth on. */
const REFLECTANCES = [0.05, 0.1, 0.2, 0.4, 0.6, 0.8, 1];

function lightOf(channel: Channel, light: object): DiffuseReport {
  return assess(channel, { exact: true, brief: aBrief({ light }) }).get(diffuseAnalysis);
}

const straight = (changes: Partial<Channel> = {}): Channel => aChannel(changes);

/** Bounced share of one channel from several times the rays that a plate gets. */
function manyRays(channel: Channel, reflectance: number): { mean: number; error: number } {
  const sums = { entered: new Float64Array(COPIES), left: new Float64Array(COPIES) };
  const tube = loadTube(samplesOf(channel, 64), 0);
  traceRays(tube, pointSet(), 0, 4e6, { reflectance, gloss: 0 }, sums);
  const shares = Array.from(sums.left, (left, copy) => left / sums.entered[copy]);
  const mean = shares.reduce((sum, share) => sum + share, 0) / COPIES;
  const square = shares.reduce((sum, share) => sum + (share - mean) ** 2, 0);
  return { mean, error: Math.sqrt(square / (COPIES * (COPIES - 1))) };
}

type Vector = readonly [number, number, number];

/**
 * Slow and independent: plain random rays in a straight tube between z = 0 and 20, walls given by a
 * function from a ray to the next hit and its inward normal. Share that leaves after a bounce or more.
 */
function bruteBounced(
  start: (next: () => number) => Vector,
  hit: (p: Vector, d: Vector) => readonly [number, Vector],
  reflectance: number,
  rays: number,
): number {
  const stream = createStream('brute', 'light');
  const next = (): number => stream.next();
  let left = 0;
  for (let k = 0; k < rays; k++) {
    let p = start(next);
    let d = lambert([0, 0, 1], next);
    let weight = 1;
    for (let bounce = 0; bounce < 60; bounce++) {
      const [t, normal] = hit(p, d);
      const z = p[2] + t * d[2];
      if (z > 20 || z < 0) {
        if (z > 20 && bounce > 0) left += weight;
        break;
      }
      weight *= reflectance;
      p = [p[0] + t * d[0], p[1] + t * d[1], z];
      d = lambert(normal, next);
    }
  }
  return left / rays;
}

function lambert(n: Vector, next: () => number): Vector {
  // A point of the unit sphere about the normal's tip: Lambert's law, by another road than the code.
  const z = 2 * next() - 1;
  const a = 2 * Math.PI * next();
  const r = Math.sqrt(1 - z * z);
  const d = [n[0] + r * Math.cos(a), n[1] + r * Math.sin(a), n[2] + z];
  const scale = 1 / Math.hypot(...d);
  return [d[0] * scale, d[1] * scale, d[2] * scale];
}

describe('diffuseLight, traced', () => {
  it('meets the table of round tubes for walls from black to white', () => {
    // Integral equation of the diffuse tube (Walsh 1920, Clausing 1932). Bounced part alone, within
    // four standard errors of the rays and 1 % for planes between which the wall is taken straight.
    for (const row of tables.diffuse_entrance.rows) {
      if (![0.5, 1, 2, 5, 10].includes(row[0])) continue;
      for (const [i, r] of REFLECTANCES.entries()) {
        if (![0.05, 0.4, 1].includes(r)) continue;
        const channel = straight({ bore_mm: [20 / row[0]] });
        const { bounced, error } = lightOf(channel, { wallReflectance: r });
        const wanted = row[3 + i] - row[2];
        expect(error, `error at L/D ${row[0]}, r ${r}`).toBeLessThan(0.06 * wanted);
        expect(Math.abs(bounced[0] - wanted), `L/D ${row[0]}, r ${r}`).toBeLessThan(
          4 * error + 0.01 * wanted,
        );
      }
    }
  });

  it('of white walls gives the transmission probabilities of Clausing and Cole', () => {
    // Clausing 1932, Cole 1977; published column from memory. Within 3 %.
    for (const [ratio, , published] of tables.clausing_check.rows) {
      if (ratio < 1) continue;
      const report = lightOf(straight({ bore_mm: [40 / ratio] }), { wallReflectance: 1 });
      expect(Math.abs(report.plate / published - 1), `L/R ${ratio}`).toBeLessThan(0.03);
    }
  });

  it('of the same tube as a slot without length is the same', () => {
    // Round walls are met in closed form, all others by search: two ways to one answer.
    const round = lightOf(straight(), { wallReflectance: 0.4 });
    const slot = lightOf(straight({ section: { kind: 'slot', aspect: 1.00001 } }), {
      wallReflectance: 0.4,
    });
    expect(Math.abs(slot.bounced[0] - round.bounced[0])).toBeLessThan(
      4 * Math.sqrt(slot.error ** 2 + round.error ** 2),
    );
  });

  it('of a square hole agrees with plain random rays between four planes', () => {
    const half = 4;
    const brute = bruteBounced(
      (next) => [8 * next() - half, 8 * next() - half, 0],
      (p, d) => {
        const tx = d[0] === 0 ? Infinity : (Math.sign(d[0]) * half - p[0]) / d[0];
        const ty = d[1] === 0 ? Infinity : (Math.sign(d[1]) * half - p[1]) / d[1];
        const normal: Vector = tx < ty ? [-Math.sign(d[0]), 0, 0] : [0, -Math.sign(d[1]), 0];
        return [Math.min(tx, ty), normal];
      },
      0.4,
      60000,
    );
    const { bounced, error } = lightOf(
      straight({ section: { kind: 'polygon', sides: 4 }, bore_mm: [8] }),
      { wallReflectance: 0.4 },
    );
    // Brute force itself is good to 1.5 %: some 4000 rays come through, of weights .4 to .01.
    expect(Math.abs(bounced[0] / brute - 1)).toBeLessThan(0.045 + (3 * error) / brute);
  });

  it('of a slanted round hole agrees with plain random rays in a slanted cylinder', () => {
    const tilt = [8, 0, 20] as const;
    const length = Math.hypot(...tilt);
    const axis: Vector = [tilt[0] / length, 0, tilt[2] / length];
    const radius = 3;
    const brute = bruteBounced(
      (next) => {
        // The cylinder's cut by the face: longer along x by the slant.
        const r = radius * Math.sqrt(next());
        const a = 2 * Math.PI * next();
        return [(r * Math.cos(a)) / axis[2], r * Math.sin(a), 0];
      },
      (p, d) => {
        const along = (v: Vector): number => v[0] * axis[0] + v[1] * axis[1] + v[2] * axis[2];
        const flat = (v: Vector): Vector => {
          const s = along(v);
          return [v[0] - s * axis[0], v[1] - s * axis[1], v[2] - s * axis[2]];
        };
        const q = flat(p);
        const e = flat(d);
        const A = e[0] ** 2 + e[1] ** 2 + e[2] ** 2;
        const B = q[0] * e[0] + q[1] * e[1] + q[2] * e[2];
        const C = q[0] ** 2 + q[1] ** 2 + q[2] ** 2 - radius * radius;
        const t = (-B + Math.sqrt(Math.max(0, B * B - A * C))) / A;
        const n = [q[0] + t * e[0], q[1] + t * e[1], q[2] + t * e[2]].map((v) => -v / radius);
        return [t, [n[0], n[1], n[2]]];
      },
      0.4,
      80000,
    );
    const slanted = straight({
      points_mm: [
        [0, 0, 0],
        [8, 0, 20],
      ],
      inletDirection: null,
      outletDirection: null,
      bore_mm: [6],
    });
    const { bounced, error } = lightOf(slanted, { wallReflectance: 0.4 });
    expect(Math.abs(bounced[0] / brute - 1)).toBeLessThan(0.05 + (3 * error) / brute);
    const slot = lightOf(
      { ...slanted, section: { kind: 'slot', aspect: 1.00001 } },
      { wallReflectance: 0.4 },
    );
    expect(Math.abs(slot.bounced[0] / brute - 1)).toBeLessThan(0.05 + (3 * slot.error) / brute);
  });

  it('obeys reciprocity: area times share is the same from either side', () => {
    // Exact for diffuse walls. A bend in a plane, tapered, with a pocket; turned over in z.
    const sections: Section[] = [
      { kind: 'round' },
      { kind: 'slot', aspect: 2 },
      { kind: 'polygon', sides: 6 },
    ];
    for (const section of sections) {
      for (const pockets of [
        [],
        [{ at: 0.4, length_mm: 6, depth_mm: 1.5, width_deg: 120, side_deg: 0 }],
      ]) {
        const there = straight({
          section,
          points_mm: [
            [0, 0, 0],
            [3, 0, 8],
            [1, 0, 20],
          ],
          bore_mm: [6, 5, 4],
          pockets,
        });
        const back = straight({
          section,
          points_mm: [
            [1, 0, 0],
            [3, 0, 12],
            [0, 0, 20],
          ],
          bore_mm: [4, 5, 6],
          pockets: pockets.map((pocket) => ({ ...pocket, at: 0.6 })),
        });
        const one = manyRays(there, 0.5);
        const other = manyRays(back, 0.5);
        const [a, b] = [36 * one.mean, 16 * other.mean];
        const error = Math.hypot(36 * one.error, 16 * other.error);
        const name = `${JSON.stringify(section)}, ${pockets.length} pockets`;
        expect(error, name).toBeLessThan(0.06 * a);
        expect(Math.abs(a - b), name).toBeLessThan(3.5 * error + 0.01 * a);
      }
    }
  });

  it('is less for thicker plates and blacker walls, more for shine', () => {
    const share = (changes: Partial<Channel>, light: object): number =>
      lightOf(straight(changes), light).plate;
    const grey = { wallReflectance: 0.3 };
    const thick: Partial<Channel> = {
      points_mm: [
        [0, 0, 0],
        [0, 0, 30],
      ],
    };
    expect(share(thick, grey)).toBeLessThan(share({}, grey));
    expect(share({}, { wallReflectance: 0.05 })).toBeLessThan(share({}, grey));
    // Grazing light is mirrored on: a glossy black hole shines.
    expect(share({}, { gloss: 1 })).toBeGreaterThan(1.5 * share({}, { gloss: 0 }));
  });

  it('is never less than the light that passes untouched, and the same each time', () => {
    const channel = straight({ bore_mm: [4, 6, 5] });
    const assessment = assess(channel, { exact: true, brief: aBrief({ light: {} }) });
    const { plate } = assessment.get(diffuseAnalysis);
    expect(plate).toBeGreaterThan(assessment.get(leakAnalysis).plate);
    expect(lightOf(straight({ bore_mm: [4, 6, 5] }), {}).plate).toBe(lightOf(channel, {}).plate);
  });

  it('reads a millionth for what is darker', () => {
    const dark = straight({
      points_mm: [
        [0, 0, 0],
        [0, 0, 4],
        [12, 0, 8],
        [-12, 0, 14],
        [0, 0, 20],
      ],
      bore_mm: [2],
    });
    expect(diffuseLight.evaluate(assess(dark, { exact: true, brief: aBrief({ light: {} }) }))).toBe(
      1e-6,
    );
  });
});

describe('light that passes untouched', () => {
  it('through a square hole is the view factor of opposite squares', () => {
    // Howell, catalogue of configuration factors, C-13: X = side/distance,
    //   F = 2/(pi X^2) {ln sqrt[(1+X^2)^2/(1+2X^2)] + 2X sqrt(1+X^2) atan[X/sqrt(1+X^2)] - 2X atan X}.
    for (const side of [20, 10, 5]) {
      const X = side / 20;
      const s = Math.sqrt(1 + X * X);
      const F =
        (2 / (Math.PI * X * X)) *
        (0.5 * Math.log((1 + X * X) ** 2 / (1 + 2 * X * X)) +
          2 * X * s * Math.atan(X / s) -
          2 * X * Math.atan(X));
      const hole = straight({ section: { kind: 'polygon', sides: 4 }, bore_mm: [side] });
      const leak = assess(hole, { exact: true }).get(leakAnalysis).plate;
      expect(Math.abs(leak / F - 1), `side ${side}`).toBeLessThan(0.015);
    }
  });
});

describe('diffuseLight in a brief', () => {
  it('is worked out only for briefs that ask', () => {
    expect(diffuseLight.unavailable?.(aBrief())).toMatch(/"light": \{\}/);
    expect(diffuseLight.unavailable?.(aBrief({ light: {} }))).toBeNull();
    const named = aBrief({ 'goals.objectives': ['diffuseLight'] });
    expect(diffuseLight.unavailable?.(named)).toBeNull();
    expect(diffuseLight.evaluate(assess(straight(), { brief: named }))).toBeGreaterThan(0);
  });

  it('takes reflectances and gloss from 0 to 1', () => {
    expect(faultsWith({ light: { wallReflectance: 1.2 } })[0].message).toContain(
      'light.wallReflectance is 1.2',
    );
    expect(faultsWith({ light: { gloss: -0.1 } })).toHaveLength(1);
  });

  it('says when the rays leave it uncertain', () => {
    const assessment = assess(straight(), { exact: true, brief: aBrief({ light: {} }) });
    expect(diffuseLight.outside?.(assessment)).toBeNull();
  });
});
