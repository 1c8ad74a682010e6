import { expect, it } from 'vitest';
import {
  accessDigit,
  fingerReach,
  irregularDistance,
  safetyDistance,
  sphereDip,
} from '../../../src/physics/index.ts';
import type { OpeningShape, ReachGroup } from '../../../src/physics/index.ts';

/**
 * ISO 13857:2019 tables 4 and 5, from memory and one public page; where two secondary sources differ
 * (round up to 8 mm: 5 or 15; round up to 40 mm: 120 or 200) the larger. Rows: e up to, slot, square,
 * round [mm].
 */
const TABLES: Readonly<Record<ReachGroup, readonly (readonly number[])[]>> = {
  fromAge14: [
    [4, 2, 2, 2],
    [6, 10, 5, 5],
    [8, 20, 15, 15],
    [10, 80, 25, 20],
    [12, 100, 80, 80],
    [20, 120, 120, 120],
    [30, 850, 120, 120],
    [40, 850, 200, 200],
    [120, 850, 850, 850],
  ],
  fromAge3: [
    [4, 2, 2, 2],
    [6, 20, 10, 10],
    [8, 40, 30, 20],
    [10, 80, 60, 60],
    [12, 100, 80, 80],
    [20, 900, 120, 120],
    [30, 900, 550, 120],
    [100, 900, 900, 900],
  ],
};
const SHAPES: readonly OpeningShape[] = ['slot', 'square', 'round'];

for (const group of ['fromAge14', 'fromAge3'] as const) {
  it(`safetyDistance() holds every cell of the table ${group}, up to and including its opening`, () => {
    let before = 0;
    for (const [e, ...cells] of TABLES[group]) {
      SHAPES.forEach((shape, i) => {
        expect(safetyDistance(shape, e, group)).toBe(cells[i]);
        expect(safetyDistance(shape, before + 1e-9, group)).toBe(cells[i]);
      });
      before = e;
    }
    // Beyond the table an arm reaches through: 1100 mm or more (from memory of table 2).
    for (const shape of SHAPES) expect(safetyDistance(shape, before + 0.1, group)).toBe(1100);
  });
}

it('irregularDistance() asks for the least that a containing opening asks for', () => {
  // Slot 9 mm 80, square 9.5 mm 25, round 11 mm 80: the square governs.
  expect(irregularDistance({ slot: 9, square: 9.5, round: 11 }, 0, 'fromAge14')).toBe(25);
  // 1 mm wider: slot 10 -> 80, square 10.5 -> 80, round 12 -> 80.
  expect(irregularDistance({ slot: 9, square: 9.5, round: 11 }, 1, 'fromAge14')).toBe(80);
});

it('accessDigit() falls at the probes of IEC 60529 (from memory) and needs room for the finger', () => {
  expect(accessDigit(0.99, 0)).toBe(4);
  expect(accessDigit(1, 0)).toBe(3);
  expect(accessDigit(2.49, 0)).toBe(3);
  expect(accessDigit(2.5, 11)).toBe(2);
  // The tip of the finger comes out 10 mm (own allowance), the whole finger is 80 mm long.
  expect(accessDigit(8, 10)).toBe(1);
  expect(accessDigit(8, 10.1)).toBe(2);
  expect(accessDigit(12.4, 80.1)).toBe(2);
  expect(accessDigit(12.4, 80)).toBe(1);
  expect(accessDigit(12.5, 500)).toBe(1);
  expect(accessDigit(50, 500)).toBe(0);
  expect(fingerReach(11.9)).toBe(10);
});

it('sphereDip() is the height of a cap: 3-4-5 triangle of a sphere of 50 mm', () => {
  expect(sphereDip(40)).toBeCloseTo(25 - 15, 12);
  expect(sphereDip(60)).toBe(25);
  // A sphere that touches the blades through the opening is no protection.
  expect(accessDigit(40, 9.9)).toBe(0);
  expect(accessDigit(40, 10.1)).toBe(1);
});
