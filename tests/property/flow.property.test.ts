/** What must hold for the pressure drop of any channel, whatever a search makes of it. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Channel } from '../../src/design/index.ts';
import { channelPressure } from '../../src/physics/index.ts';
import { aRoute, digestOf, dropAt } from '../support/flow-channels.ts';

const SEED = { seed: 20240611, numRuns: 150 };
const around = { shrinkage_mm: 0.2, layer_mm: 0.2, openShare: 0.3 };

const shift = fc.double({ min: -4, max: 4, noNaN: true });
const bore = fc.double({ min: 2, max: 8, noNaN: true });
const section = fc.constantFrom<Channel['section']>(
  { kind: 'round' },
  { kind: 'teardrop' },
  { kind: 'slot', aspect: 2 },
  { kind: 'polygon', sides: 4 },
);

const route = fc
  .record({
    bends: fc.array(fc.tuple(shift, shift), { minLength: 1, maxLength: 4 }),
    bores: fc.array(bore, { minLength: 1, maxLength: 5 }),
    section,
  })
  .map(({ bends, bores, section: kind }) => {
    const points = [[0, 0] as const, ...bends, [0, 0] as const].map(
      ([x, y], i): [number, number, number] => [x, y, (24 * i) / (bends.length + 1)],
    );
    return aRoute(points, { bore_mm: bores, section: kind });
  });

function pressures(channel: Channel, flows: readonly number[]): number[] {
  const { digests } = digestOf([channel], around);
  const reply = new Float64Array(2);
  return flows.map((Q) => {
    channelPressure(digests, 0, Q, reply);
    return reply[0];
  });
}

describe('pressure drop of any channel', () => {
  it('rises strictly with flow and without a jump, through the transition too', () => {
    const flows = Array.from({ length: 400 }, (_, i) => 1e-6 * 1.025 ** i);
    fc.assert(
      fc.property(route, (channel) => {
        const dp = pressures(channel, flows);
        for (let i = 1; i < dp.length; i += 1) {
          expect(dp[i]).toBeGreaterThan(dp[i - 1]);
          // A step of 2.5 % in flow may raise dp by 2.5 % x 2 for a square law, and by three times
          // as much where friction itself rises from laminar to turbulent; a jump would show as more.
          expect(dp[i] / dp[i - 1]).toBeLessThan(1.15);
        }
      }),
      SEED,
    );
  });

  it('rises when every bore shrinks, at equal flow', () => {
    fc.assert(
      fc.property(route, fc.double({ min: 0.7, max: 0.98, noNaN: true }), (channel, scale) => {
        const smaller = { ...channel, bore_mm: channel.bore_mm.map((d) => d * scale) };
        const flows = [1e-6, 2e-5, 1e-4, 5e-4];
        const wide = pressures(channel, flows);
        const narrow = pressures(smaller, flows);
        wide.forEach((dp, i) => expect(narrow[i]).toBeGreaterThan(dp));
      }),
      SEED,
    );
  });

  it('rises with the length of a straight channel beyond the reattachment of its inlet', () => {
    fc.assert(
      fc.property(
        bore,
        fc.double({ min: 2.5, max: 8, noNaN: true }),
        fc.double({ min: 0.05, max: 30, noNaN: true }),
        (d, slender, U) => {
          const along = (L: number): number =>
            dropAt(
              aRoute(
                [
                  [0, 0, 0],
                  [0, 0, L],
                ],
                { bore_mm: [d] },
              ),
              U,
              around,
            );
          expect(along(d * slender * 1.1)).toBeGreaterThan(along(d * slender));
        },
      ),
      SEED,
    );
  });

  it('settles as stations are refined', () => {
    fc.assert(
      fc.property(route, fc.double({ min: 0.1, max: 20, noNaN: true }), (channel, U) => {
        const coarse = dropAt(channel, U, around, 32);
        const middle = dropAt(channel, U, around, 257);
        const fine = dropAt(channel, U, around, 513);
        // Bends are counted from 60-degree drift and half turns, which may fall to either side of a
        // station: hence a band for 32 stations, and a close one between fine samplings.
        expect(Math.abs(coarse / fine - 1)).toBeLessThan(0.12);
        expect(Math.abs(middle / fine - 1)).toBeLessThan(0.02);
      }),
      SEED,
    );
  });
});

function straight(bore_mm: number[]): Channel {
  return aRoute(
    [
      [0, 0, 0],
      [0, 0, 24],
    ],
    { bore_mm },
  );
}

function ripple(count: number, low: number, high: number): number[] {
  return Array.from({ length: count }, (_, i) => (i % 2 === 0 ? low : high));
}

describe('a search gains nothing', () => {
  it('from cutting one widening into many thin slices', () => {
    // The same cone from 3 to 6 mm given by 2 and by 25 values; Borda-Carnot slice by slice would vanish.
    const slices = Array.from({ length: 25 }, (_, i) => 3 + (3 * i) / 24);
    for (const U of [1, 5, 20, 40]) {
      const whole = dropAt(straight([3, 6]), U, {}, 129);
      const sliced = dropAt(straight(slices), U, {}, 129);
      expect(sliced / whole).toBeGreaterThan(0.99);
      expect(sliced / whole).toBeLessThan(1.01);
    }
  });

  it('from a saw-toothed bore over a plain one of its narrow size', () => {
    for (const U of [1, 5, 20, 40]) {
      const narrowest = 4;
      // Its wide halves rub less (2 % of the whole in turbulent flow), which is real; no more than that.
      const plain = dropAt(straight([narrowest]), U, {}, 129);
      for (const depth of [0.1, 0.3, 1, 2]) {
        expect(
          dropAt(straight(ripple(9, narrowest, narrowest + depth)), U, {}, 129),
        ).toBeGreaterThan(plain * 0.97);
      }
    }
  });

  it('from splitting a pipe in two sizes over the mean of both', () => {
    for (const U of [1, 5, 20]) {
      const Q = (U * Math.PI * 4.5 * 4.5) / 4;
      const at = (bores: number[]): number =>
        dropAt(straight(bores), Q / ((Math.PI * bores[0] * bores[0]) / 4), {}, 129);
      expect(at([4, 4, 4, 5, 5, 5])).toBeGreaterThan(at([4.5]));
    }
  });

  it('from a pocket', () => {
    for (const U of [1, 5, 20]) {
      expect(dropAt(straight([4]), U, { pockets: 0.0025 })).toBeGreaterThan(
        dropAt(straight([4]), U),
      );
    }
  });
});
