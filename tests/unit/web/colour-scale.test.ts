import { describe, expect, it } from 'vitest';
import { scaleColour } from '../../../src/web/solid/colour-scale.ts';

type Triple = readonly [number, number, number];

const linear = (c: number): number => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4);
const COUNT = 65;
const COLOURS = Array.from({ length: COUNT }, (_, k) => scaleColour(k / (COUNT - 1)));

/** CIELAB of linear sRGB: CIE 15 and IEC 61966-2-1, constants from memory. */
function labOf([r, g, b]: Triple): Triple {
  const f = (t: number): number =>
    t > (6 / 29) ** 3 ? Math.cbrt(t) : t / (3 * (6 / 29) ** 2) + 4 / 29;
  const x = f((0.4124564 * r + 0.3575761 * g + 0.1804375 * b) / 0.95047);
  const y = f(0.2126729 * r + 0.7151522 * g + 0.072175 * b);
  const z = f((0.0193339 * r + 0.119192 * g + 0.9503041 * b) / 1.08883);
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}

const lab = (c: Triple): Triple => labOf([linear(c[0]), linear(c[1]), linear(c[2])]);
const apart = (p: Triple, q: Triple): number => Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);

/** Machado, Oliveira & Fernandes 2009, severity 1.0; matrices from memory, their rows add up to 1. */
const BLINDNESS: Readonly<Record<string, readonly Triple[]>> = {
  protan: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deutan: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
};

function seen(colour: Triple, rows: readonly Triple[]): Triple {
  const l = colour.map(linear);
  const [r, g, b] = rows.map((row) =>
    Math.min(1, Math.max(0, row[0] * l[0] + row[1] * l[1] + row[2] * l[2])),
  );
  return labOf([r, g, b]);
}

describe('scaleColour()', () => {
  it('stays within what a screen shows', () => {
    for (const component of COLOURS.flat()) {
      expect(component).toBeGreaterThanOrEqual(0);
      expect(component).toBeLessThanOrEqual(1);
    }
  });

  it('grows lighter with every step, from dark to light', () => {
    const lightness = COLOURS.map((c) => lab(c)[0]);
    for (let k = 1; k < COUNT; k++) expect(lightness[k]).toBeGreaterThan(lightness[k - 1]);
    expect(lightness[0]).toBeLessThan(25);
    expect(lightness[COUNT - 1]).toBeGreaterThan(88);
  });

  it('takes even steps of CIE 1976 colour difference', () => {
    const steps = COLOURS.slice(1).map((c, k) => apart(lab(c), lab(COLOURS[k])));
    expect(Math.max(...steps) / Math.min(...steps)).toBeLessThan(1.06);
  });

  it('is never grey: chroma stays above 25', () => {
    for (const colour of COLOURS) {
      const [, a, b] = lab(colour);
      expect(Math.hypot(a, b)).toBeGreaterThan(25);
    }
  });

  for (const [kind, rows] of Object.entries(BLINDNESS)) {
    it(`grows lighter for ${kind} eyes too, and ends far apart`, () => {
      const shown = COLOURS.map((c) => seen(c, rows));
      for (let k = 4; k < COUNT; k += 4) {
        expect(shown[k][0]).toBeGreaterThan(shown[k - 4][0]);
        expect(apart(shown[k], shown[k - 4])).toBeGreaterThan(3);
      }
      expect(apart(shown[0], shown[COUNT - 1])).toBeGreaterThan(90);
    });
  }
});
