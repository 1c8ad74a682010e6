import { expect, test } from 'vitest';
import { sampleDesign } from '../../../src/design/index.ts';
import type { Channel, PlateSamples } from '../../../src/design/index.ts';
import { aChannel, aDesign, anSBend, aPlacement, samplesOf } from '../../support/plates.ts';

/** Points on a circular arc of radius R in the x-z plane, from the inlet upwards. */
function arcPoints(radius: number, angle: number, count: number): [number, number, number][] {
  return Array.from({ length: count }, (_, i) => {
    const a = (angle * i) / (count - 1);
    return [radius * (1 - Math.cos(a)), 0, radius * Math.sin(a)];
  });
}

function anArc(radius: number, angle: number, count: number): Channel {
  return aChannel({
    points_mm: arcPoints(radius, angle, count),
    outletDirection: [Math.sin(angle), 0, Math.cos(angle)],
  });
}

function at(array: Float64Array, samples: PlateSamples, shape: number, k: number): number[] {
  const i = 3 * (shape * samples.stations + k);
  return [array[i], array[i + 1], array[i + 2]];
}

const dot = (a: number[], b: number[]): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

test('sampleDesign() gives a bent tube the volume of Pappus', () => {
  // Pappus: volume = section area x path of its centroid = pi r^2 x R angle.
  const samples = samplesOf(anArc(12, 1.2, 9), 64);
  const volume = samples.area_mm2[0] * samples.length_mm[0];
  expect(volume / (Math.PI * 2.5 * 2.5 * 12 * 1.2)).toBeCloseTo(1, 5);
});

test('sampleDesign() finds the curvature of a circular arc', () => {
  const samples = samplesOf(anArc(12, 1.2, 9), 64);
  for (let k = 8; k < 56; k++) {
    const curvature = at(samples.curvature_per_mm, samples, 0, k);
    expect(Math.sqrt(dot(curvature, curvature))).toBeCloseTo(1 / 12, 3);
    // Towards the centre (12, 0, 0).
    const [x, y, z] = at(samples.point_mm, samples, 0, k);
    expect(dot(curvature, [(12 - x) / 12, -y / 12, -z / 12])).toBeCloseTo(1 / 12, 3);
  }
});

test('sampleDesign() steps equally along the arc', () => {
  const fine = 4000;
  const samples = samplesOf(anSBend(), fine + 1);
  const coarse = samplesOf(anSBend(), 33);
  let travelled = 0;
  const steps: number[] = [0];
  for (let k = 1; k <= fine; k++) {
    const a = at(samples.point_mm, samples, 0, k - 1);
    const b = at(samples.point_mm, samples, 0, k);
    travelled += Math.hypot(b[0] - a[0], b[1] - a[1], b[2] - a[2]);
    steps.push(travelled);
  }
  expect(samples.length_mm[0]).toBeCloseTo(travelled, 5);
  for (let k = 0; k <= fine; k++) {
    expect(Math.abs(steps[k] - (travelled * k) / fine)).toBeLessThan(1e-6 * travelled);
  }
  for (let k = 0; k <= 32; k++) {
    const a = at(coarse.point_mm, coarse, 0, k);
    const b = at(samples.point_mm, samples, 0, (k * fine) / 32);
    expect(Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2])).toBeLessThan(1e-9);
  }
});

test('sampleDesign() runs through the points and leaves along the end directions', () => {
  const channel = anSBend({ inletDirection: [0, 0.6, 0.8], outletDirection: null });
  const samples = samplesOf(channel, 5001);
  for (const point of channel.points_mm) {
    let nearest = Infinity;
    for (let k = 0; k < samples.stations; k++) {
      const [x, y, z] = at(samples.point_mm, samples, 0, k);
      nearest = Math.min(nearest, Math.hypot(x - point[0], y - point[1], z - point[2]));
    }
    expect(nearest).toBeLessThan(4e-3);
  }
  expect(at(samples.tangent, samples, 0, 0)).toEqual([
    expect.closeTo(0, 12),
    expect.closeTo(0.6, 12),
    expect.closeTo(0.8, 12),
  ]);
  expect(at(samples.point_mm, samples, 0, 0)).toEqual([0, 0, 0]);
  expect(at(samples.point_mm, samples, 0, 5000)).toEqual([0, 0, 20]);
});

test('sampleDesign() matches the natural cubic spline of a reference library', () => {
  // Natural spline through (0,0,0), (3,0,7), (-3,0,13), (0,0,20) on chord length, at the middle of
  // each segment; computed with scipy 1.17.1 CubicSpline(bc_type='natural').
  const channel = anSBend({ inletDirection: null, outletDirection: null });
  const samples = samplesOf(channel, 20001);
  for (const [x, y, z] of NATURAL_MIDDLES) {
    let nearest = Infinity;
    for (let k = 0; k < samples.stations; k++) {
      const p = at(samples.point_mm, samples, 0, k);
      nearest = Math.min(nearest, Math.hypot(p[0] - x, p[1] - y, p[2] - z));
    }
    expect(nearest).toBeLessThan(1e-3);
  }
});

const NATURAL_MIDDLES = [
  [2.509718401, 0.0, 3.694453997],
  [0.0, 0.0, 10.0],
  [-2.509718401, 0.0, 16.305546003],
];

test('sampleDesign() keeps frames orthonormal and without twist', () => {
  const samples = samplesOf(anSBend({ roll_deg: 30 }), 400);
  for (let k = 0; k < samples.stations; k++) {
    const t = at(samples.tangent, samples, 0, k);
    const f = at(samples.first, samples, 0, k);
    const s = at(samples.second, samples, 0, k);
    expect(dot(t, t)).toBeCloseTo(1, 10);
    expect(dot(f, f)).toBeCloseTo(1, 10);
    expect(dot(t, f)).toBeCloseTo(0, 10);
    expect(s[0]).toBeCloseTo(t[1] * f[2] - t[2] * f[1], 12);
    // A plane curve carries its normal along: the angle to it stays the roll.
    expect(f[1]).toBeCloseTo(Math.sin(Math.PI / 6), 9);
  }
});

test('sampleDesign() closes a spatial curve with the holonomy of a helix', () => {
  // On a helix of radius a and pitch 2 pi b the rotation-free frame turns against the Frenet frame
  // by -torsion x length, torsion = b / (a^2 + b^2): differential geometry.
  const [a, b] = [4, 3];
  const turn = 2 * Math.PI;
  const points = Array.from({ length: 41 }, (_, i): [number, number, number] => {
    const u = (turn * i) / 40;
    return [a * Math.cos(u) - a, a * Math.sin(u), b * u];
  });
  const way: [number, number, number] = [0, 0.8, 0.6];
  const helix = aChannel({ points_mm: points, inletDirection: way, outletDirection: way });
  const samples = samplesOf(helix, 800);
  const first = at(samples.first, samples, 0, 799);
  const second = at(samples.second, samples, 0, 799);
  const start = at(samples.first, samples, 0, 0);
  const angle = Math.atan2(dot(start, second), dot(start, first));
  const expected = ((b / (a * a + b * b)) * Math.sqrt(a * a + b * b) * turn) % (2 * Math.PI);
  expect(Math.cos(angle - expected)).toBeCloseTo(1, 4);
});

test('sampleDesign() shares one shape among placements that are only moved', () => {
  const placements = [
    aPlacement({ x_mm: 10 }),
    aPlacement({ x_mm: -10, turn_deg: 360 }),
    aPlacement({ turn_deg: 90 }),
    aPlacement({ y_mm: 10, mirrored: true }),
  ];
  const samples = samplesOf(anSBend({ placements }));
  expect(samples.channelCount).toBe(4);
  expect([...samples.shapeOf]).toEqual([0, 0, 1, 2]);
  expect([...samples.offset_mm]).toEqual([10, 0, -10, 0, 0, 0, 0, 10]);
});

test('sampleDesign() turns by quarter turns exactly and mirrors x', () => {
  const placements = [aPlacement(), aPlacement({ turn_deg: 90 }), aPlacement({ mirrored: true })];
  const channel = anSBend({ placements, section: { kind: 'slot', aspect: 2 }, roll_deg: 20 });
  const samples = samplesOf(channel);
  for (let k = 0; k < 32; k++) {
    for (const array of [samples.point_mm, samples.tangent, samples.first]) {
      const [x, y, z] = at(array, samples, 0, k);
      expect(at(array, samples, 1, k).map((v) => v + 0)).toEqual([-y + 0, x, z]);
      expect(at(array, samples, 2, k).map((v) => v + 0)).toEqual([-x + 0, y, z]);
    }
    // second = tangent x first holds in the mirror image, too.
    const [t, f, s] = [samples.tangent, samples.first, samples.second].map((array) =>
      at(array, samples, 2, k),
    );
    expect(s[0]).toBeCloseTo(t[1] * f[2] - t[2] * f[1], 12);
  }
});

test('sampleDesign() reads a single bore, and passes through three at equal arc steps', () => {
  const samples = samplesOf(anSBend({ bore_mm: [4, 6, 3] }), 33);
  expect(samples.bore_mm[0]).toBe(4);
  expect(samples.bore_mm[16]).toBeCloseTo(6, 12);
  expect(samples.bore_mm[32]).toBeCloseTo(3, 12);
  expect(Math.max(...samples.bore_mm)).toBeLessThanOrEqual(6 + 1e-12);
  expect(Math.min(...samples.bore_mm)).toBeGreaterThanOrEqual(3 - 1e-12);
});

test.each(['flat', 'edge'] as const)(
  'a teardrop roof points up at every station, built %s',
  (build) => {
    const up = build === 'flat' ? [0, 0, 1] : [0, 1, 0];
    const channel = anSBend({
      points_mm: [
        [0, 0, 0],
        [9, 4, 7],
        [-9, 2, 13],
        [0, 0, 20],
      ],
      section: { kind: 'teardrop' },
      placements: [aPlacement(), aPlacement({ turn_deg: 37, mirrored: true })],
    });
    const samples = sampleDesign(aDesign({ plate: { build }, channels: [channel] }), 64);
    for (let shape = 0; shape < 2; shape++) {
      for (let k = 0; k < 64; k++) {
        const t = at(samples.tangent, samples, shape, k);
        const s = at(samples.second, samples, shape, k);
        const lie = Math.sqrt(Math.max(0, 1 - dot(t, up) ** 2));
        if (lie < 1e-5) continue;
        // The steepest direction across the channel rises at the sine of its angle to upright.
        expect(dot(s, up)).toBeCloseTo(lie, 9);
        const roof = samples.roof[shape * 64 + k];
        if (lie >= Math.SQRT1_2 + 1e-9) expect(roof).toBe(1);
        if (lie <= Math.sin((25 * Math.PI) / 180) - 1e-9) expect(roof).toBe(0);
      }
    }
  },
);

test('sampleDesign() gives the same numbers in memory used before', () => {
  const design = aDesign({ channels: [anSBend(), aChannel({ section: { kind: 'teardrop' } })] });
  const big = aDesign({ channels: [anSBend(), anSBend(), anSBend({ bore_mm: [7] })] });
  const fresh = sampleDesign(design, 20);
  const again = sampleDesign(design, 20, sampleDesign(big, 32));
  expect(again.point_mm).toEqual(fresh.point_mm);
  expect(again.twist).toEqual(fresh.twist);
  expect(again.roof).toEqual(fresh.roof);
  expect(again.area_mm2).toEqual(fresh.area_mm2);
  expect(again.shapeOf).toEqual(fresh.shapeOf);
});
