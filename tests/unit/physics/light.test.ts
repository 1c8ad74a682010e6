/** Reference table: tests/reference/data/tube-light.json (closed forms and an integral equation). */
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { accessRating, directViewFactor, safetyDistance } from '../../../src/physics/index.ts';

const file = new URL('../../reference/data/tube-light.json', import.meta.url);
const { tables } = JSON.parse(readFileSync(file, 'utf8')) as {
  tables: Record<string, { rows: number[][] }>;
};

it('directViewFactor() follows the table from L/D .25 to 10', () => {
  for (const [slenderness, , direct] of tables.diffuse_entrance.rows) {
    // Seven digits printed.
    expect(Math.abs(directViewFactor(slenderness) / direct - 1)).toBeLessThan(1e-6);
  }
});

it('safetyDistance() never shrinks when the opening grows, nor for the younger group', () => {
  for (const shape of ['slot', 'square', 'round'] as const) {
    let before = 0;
    for (let e = 0.5; e < 130; e += 0.5) {
      const old = safetyDistance(shape, e, 'fromAge14');
      expect(old).toBeGreaterThanOrEqual(before);
      expect(safetyDistance(shape, e, 'fromAge3')).toBeGreaterThanOrEqual(old);
      // A slot contains the square, the square the round hole of the same size.
      expect(safetyDistance('slot', e, 'fromAge14')).toBeGreaterThanOrEqual(old);
      before = old;
    }
  }
});

it('safetyDistance() holds rows of ISO 13857:2019 table 4, from memory and one public page', () => {
  expect(safetyDistance('slot', 4, 'fromAge14')).toBe(2);
  expect(safetyDistance('slot', 9, 'fromAge14')).toBe(80);
  expect(safetyDistance('square', 10, 'fromAge14')).toBe(25);
  expect(safetyDistance('round', 12, 'fromAge14')).toBe(80);
  expect(safetyDistance('round', 25, 'fromAge14')).toBe(120);
  expect(safetyDistance('slot', 25, 'fromAge14')).toBe(850);
});

it('accessRating() changes at the probes of IEC 60529', () => {
  expect(accessRating(50)).toBe('none');
  expect(accessRating(49.9)).toBe('IP1X');
  expect(accessRating(12.5)).toBe('IP1X');
  expect(accessRating(12.4)).toBe('IP2X');
  expect(accessRating(2.4)).toBe('IP3X');
  expect(accessRating(0.9)).toBe('IP4X');
});
