import { expect, test } from 'vitest';
import { layPorts } from '../../../src/design/index.ts';
import type { Lattice, Port } from '../../../src/design/index.ts';

function nearestGap(ports: readonly Port[]): number {
  let least = Infinity;
  for (const a of ports) {
    for (const b of ports) {
      if (a !== b) least = Math.min(least, Math.hypot(a.x_mm - b.x_mm, a.y_mm - b.y_mm));
    }
  }
  return least;
}

const lattice = (changes: Partial<Lattice>): Lattice => ({
  kind: 'square',
  pitch_mm: 5,
  stagger: 0,
  rotation_deg: 0,
  ...changes,
});

test('a square lattice has as many points in a circle as the circle problem of Gauss counts', () => {
  // Lattice points with x^2 + y^2 <= r^2 for r = 0..6: OEIS A000328.
  const counts = [0, 1, 2, 3, 4, 5, 6].map((r) => layPorts(lattice({}), 5 * r + 1e-9).length);
  expect(counts).toEqual([1, 5, 13, 29, 49, 81, 113]);
});

test('a hexagonal lattice fills shells of 1, 6, 6, 6, 12 points', () => {
  // Theta series of the hexagonal lattice: 1 + 6q + 6q^3 + 6q^4 + 12q^7 + 6q^9 ... (OEIS A004016).
  const within = [0, 1, 3, 4, 7, 9].map((norm) => {
    const radius = 5 * Math.sqrt(norm) + 1e-6;
    return layPorts(lattice({ kind: 'hexagonal' }), radius).length;
  });
  expect(within).toEqual([1, 7, 13, 19, 31, 37]);
});

test.each(['square', 'hexagonal', 'rings'] as const)(
  '%s ports are no closer than the pitch, however turned',
  (kind) => {
    for (const rotation_deg of [0, 17, 90]) {
      const ports = layPorts(lattice({ kind, rotation_deg }), 31);
      expect(nearestGap(ports)).toBeGreaterThan(5 - 1e-9);
      expect(nearestGap(ports)).toBeLessThan(5 + 1e-9);
    }
  },
);

test('staggered rows of a square lattice are a hexagonal lattice at the right row pitch', () => {
  const rowPitch_mm = 2.5 * Math.sqrt(3);
  const staggered = layPorts(lattice({ stagger: 0.5, rowPitch_mm }), 25);
  expect(staggered).toEqual(layPorts(lattice({ kind: 'hexagonal' }), 25));
});

test('ports come from the centre outwards', () => {
  const ports = layPorts(lattice({ kind: 'rings', stagger: 0.3 }), 30);
  const distances = ports.map((port) => Math.hypot(port.x_mm, port.y_mm));
  expect(distances[0]).toBe(0);
  for (let i = 1; i < distances.length; i++) {
    expect(distances[i]).toBeGreaterThan(distances[i - 1] - 1e-3);
  }
});

test('layPorts() refuses a lattice that would exhaust memory', () => {
  expect(() => layPorts(lattice({ pitch_mm: 0.1 }), 300)).toThrow(RangeError);
});
