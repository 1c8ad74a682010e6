import { describe, expect, it } from 'vitest';
import type { Channel } from '../../../src/design/index.ts';
import { sampleDesign } from '../../../src/design/index.ts';
import { repeatingCell } from '../../../src/flow/index.ts';
import { boredPlate } from './bored-plate.ts';

function cellOf(
  changes: Partial<Channel>,
  ports: readonly (readonly [number, number])[],
): readonly [number, number] {
  const outline = { kind: 'rectangle', width_mm: 120, height_mm: 120, cornerRadius_mm: 0 } as const;
  const design = boredPlate(ports, changes, outline);
  return repeatingCell(sampleDesign(design, 32), 0);
}

const rows = (a: number, b: number, stagger = 0): (readonly [number, number])[] =>
  Array.from({ length: 49 }, (_, i) => {
    const row = Math.floor(i / 7) - 3;
    return [a * ((i % 7) - 3) + (row % 2 === 0 ? 0 : stagger), b * row];
  });

describe('repeatingCell()', () => {
  it('is the pitch of round bores in rows and columns', () => {
    const [w, h] = cellOf({}, rows(7.2, 7.2));
    expect(w).toBeCloseTo(7.2, 6);
    expect(h).toBeCloseTo(7.2, 6);
  });

  it('has the area of a triangular lattice, p^2 sqrt 3 / 2', () => {
    const [w, h] = cellOf({}, rows(7, 3.5 * Math.sqrt(3), 3.5));
    expect(w * h).toBeCloseTo((49 * Math.sqrt(3)) / 2, 6);
  });

  it('is as long as a slot and as narrow as it is narrow', () => {
    // A slot of 3 mm, 12 mm long, every 14 and 5 mm: web 2 mm along and 2 mm aside.
    const slot: Partial<Channel> = { section: { kind: 'slot', aspect: 4 }, bore_mm: [3] };
    const [w, h] = cellOf(slot, rows(14, 5));
    expect(Math.max(w, h) / Math.min(w, h)).toBeGreaterThan(2.5);
    expect(w * h).toBeLessThan(14 * 5 + 1e-6);
  });

  it('is held where the ports are few', () => {
    const [w, h] = cellOf({}, [[0, 0]]);
    expect(w).toBeCloseTo(5 * 1.62, 6);
    expect(h).toBeCloseTo(5 * 1.62, 6);
  });
});
