import { describe, expect, it } from 'vitest';
import {
  bouncedShare,
  createZones,
  directViewFactor,
  discOverlap,
  mirrorShare,
  openingToWall,
  ringToOpening,
} from '../../../src/physics/index.ts';

describe('view factors within a round tube', () => {
  it('of wall and openings obey reciprocity: 4 xi G(xi) is what a thin ring gets from an opening', () => {
    // Ring of width dx: area pi D dx against pi D^2/4, hence a factor of 4 d(xi). Exact.
    for (const xi of [0.1, 0.5, 1, 3]) {
      const width = 1e-4;
      const got = openingToWall(xi - width / 2, xi + width / 2) / width;
      expect(got / (4 * ringToOpening(xi))).toBeCloseTo(1, 6);
    }
  });

  it('add up to 1 for an opening: wall and far opening', () => {
    expect(openingToWall(0, 2.5) + directViewFactor(2.5)).toBeCloseTo(1, 12);
  });

  it('for far rings fall with the fourth power of the distance', () => {
    // Series of (xi^2 + 1/2)/sqrt(xi^2 + 1) - xi for large xi: 1/(8 xi^3).
    expect(ringToOpening(1000) * 8 * 1e9).toBeCloseTo(1, 5);
  });
});

describe('bouncedShare()', () => {
  it('of one zone that sees inlet, outlet and itself is a geometric series', () => {
    const zones = createZones(1);
    zones.first[0] = 0.8;
    zones.view[0] = 0.4;
    zones.out[0] = 0.3;
    expect(bouncedShare(zones, 0.5)).toBeCloseTo((0.8 * 0.5 * 0.3) / (1 - 0.5 * 0.4), 12);
  });

  it('of white walls lets out what comes in', () => {
    // Inlet side and outlet side of two zones in a box: with no way back, all leaves by the outlet.
    const zones = createZones(2);
    zones.first.set([0.6, 0.4]);
    zones.view.set([0.5, 0.3, 0.2, 0.1]);
    zones.out.set([0.2, 0.7]);
    expect(bouncedShare(zones, 1)).toBeCloseTo(1, 12);
  });
});

describe('mirrorShare()', () => {
  it('is ((n - 1)/(n + 1))^2 head on and nothing of one polarisation at the Brewster angle', () => {
    expect(mirrorShare(1, 1.5)).toBeCloseTo(0.04, 12);
    // tan(angle) = n: only the part across the plane is mirrored, ((1 - n^2)/(1 + n^2))^2 of it.
    const brewster = mirrorShare(Math.cos(Math.atan(1.5)), 1.5);
    expect(brewster).toBeCloseTo(0.5 * ((1 - 2.25) / (1 + 2.25)) ** 2, 12);
  });

  it('over diffuse light is .092 on the mean', () => {
    // Mean of 2 c R(c) over c: .0918 for n 1.5 (hemispherical reflectance of glass; any handbook of optics).
    let mean = 0;
    for (let i = 0; i < 2000; i++) {
      const c = (i + 0.5) / 2000;
      mean += (2 * c * mirrorShare(c, 1.5)) / 2000;
    }
    expect(mean).toBeCloseTo(0.0918, 3);
  });
});

describe('discOverlap()', () => {
  it('is 1 for no shift, 0 from a diameter on, .391 at half', () => {
    expect(discOverlap(0)).toBe(1);
    expect(discOverlap(1)).toBe(0);
    expect(discOverlap(1.5)).toBe(0);
    // 2/3 - sqrt(3)/(2 pi), the lens of two unit circles one radius apart.
    expect(discOverlap(0.5)).toBeCloseTo(2 / 3 - Math.sqrt(3) / (2 * Math.PI), 12);
  });
});
