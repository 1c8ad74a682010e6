import { expect, test } from 'vitest';
import {
  circumradius,
  polarRadius,
  sectionArea,
  sectionPerimeter,
  sectionSupport,
} from '../../../src/design/index.ts';
import type { Section } from '../../../src/design/index.ts';

const SECTIONS: readonly (readonly [Section, number])[] = [
  [{ kind: 'round' }, 0],
  [{ kind: 'teardrop' }, 0],
  [{ kind: 'teardrop' }, 0.4],
  [{ kind: 'teardrop' }, 1],
  [{ kind: 'slot', aspect: 3 }, 0],
  [{ kind: 'polygon', sides: 3 }, 0],
  [{ kind: 'polygon', sides: 4 }, 0],
  [{ kind: 'polygon', sides: 7 }, 0],
];

test('sectionArea() and sectionPerimeter() of a full teardrop are R^2 (1 + 3 pi / 4) and 2 A / R', () => {
  // Circle of radius 1 under a 90-degree roof: plane geometry.
  expect(sectionArea({ kind: 'teardrop' }, 2, 1)).toBeCloseTo(1 + 0.75 * Math.PI, 12);
  expect(sectionPerimeter({ kind: 'teardrop' }, 2, 1)).toBeCloseTo(2 + 1.5 * Math.PI, 12);
});

test('sectionArea() of polygons agrees with the regular polygons of plane geometry', () => {
  // Inradius 1: triangle 3 sqrt 3, square 4, hexagon 2 sqrt 3.
  expect(sectionArea({ kind: 'polygon', sides: 3 }, 2, 0)).toBeCloseTo(3 * Math.sqrt(3), 12);
  expect(sectionArea({ kind: 'polygon', sides: 4 }, 2, 0)).toBeCloseTo(4, 12);
  expect(sectionArea({ kind: 'polygon', sides: 6 }, 2, 0)).toBeCloseTo(2 * Math.sqrt(3), 12);
});

test.each(SECTIONS)(
  'the polar radius of %o (roof %d) encloses the area and perimeter',
  (section, roof) => {
    // Independent integration of the outline in small steps.
    const steps = 40000;
    let area = 0;
    let perimeter = 0;
    let [px, py] = [polarRadius(section, 6, roof, 1, 0), 0];
    for (let i = 1; i <= steps; i++) {
      const a = (2 * Math.PI * i) / steps;
      const r = polarRadius(section, 6, roof, Math.cos(a), Math.sin(a));
      const [x, y] = [r * Math.cos(a), r * Math.sin(a)];
      area += 0.5 * (px * y - py * x);
      perimeter += Math.hypot(x - px, y - py);
      [px, py] = [x, y];
    }
    expect(area).toBeCloseTo(sectionArea(section, 6, roof), 3);
    expect(perimeter).toBeCloseTo(sectionPerimeter(section, 6, roof), 2);
  },
);

test.each(SECTIONS)(
  'the support of %o (roof %d) is the greatest reach of its outline',
  (section, roof) => {
    for (let k = 0; k < 40; k++) {
      const psi = (2 * Math.PI * k) / 40 + 0.013;
      let reach = 0;
      for (let i = 0; i < 7200; i++) {
        const a = (2 * Math.PI * i) / 7200;
        const r = polarRadius(section, 6, roof, Math.cos(a), Math.sin(a));
        reach = Math.max(reach, r * Math.cos(a - psi));
      }
      const support = sectionSupport(section, 6, roof, Math.cos(psi), Math.sin(psi));
      expect(support).toBeGreaterThanOrEqual(reach - 1e-9);
      expect(support).toBeLessThan(reach + 5e-3);
    }
  },
);

test.each(SECTIONS)(
  'the polar radius of %o (roof %d) lies between inradius and circumradius',
  (section, roof) => {
    const reach = circumradius(section, 6, roof);
    let least = Infinity;
    let most = 0;
    for (let i = 0; i < 7200; i++) {
      const a = (2 * Math.PI * i) / 7200;
      const r = polarRadius(section, 6, roof, Math.cos(a), Math.sin(a));
      least = Math.min(least, r);
      most = Math.max(most, r);
    }
    expect(least).toBeCloseTo(3, 4);
    expect(most).toBeCloseTo(reach, 2);
    expect(most).toBeLessThanOrEqual(reach + 1e-9);
  },
);
