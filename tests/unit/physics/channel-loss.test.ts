/** The fast pressure drop against the plain sum over stations it stands for. */
import { describe, expect, it } from 'vitest';
import type { Channel } from '../../../src/design/index.ts';
import { channelPressure } from '../../../src/physics/index.ts';
import { oracleDrop } from '../../support/channel-oracle.ts';
import { aRoute, digestOf, familyOf, routeAlong, samplesOf } from '../../support/flow-channels.ts';
import type { Surroundings } from '../../support/flow-channels.ts';

const printed: Surroundings = { shrinkage_mm: 0.2, layer_mm: 0.2, openShare: 0.3 };
const step = (z: number): number => 3 * (1 - Math.cos((Math.PI * z) / 20));
const out = (z: number): number => 2.5 * (1 - Math.cos((Math.PI * z) / 10));

const CHANNELS: Record<string, Channel> = {
  straight: routeAlong(() => 0, 20),
  'S-bend': routeAlong(step, 20),
  'tight U': routeAlong(out, 20),
  'slot along an S': routeAlong(step, 20, { section: { kind: 'slot', aspect: 2 }, bore_mm: [3] }),
  'square along a U': routeAlong(out, 20, { section: { kind: 'polygon', sides: 4 }, bore_mm: [4] }),
  'leaning teardrop': aRoute(
    [
      [0, 0, 0],
      [6, 0, 10],
      [12, 0, 20],
    ],
    { section: { kind: 'teardrop' }, inletDirection: null, outletDirection: null, bore_mm: [4] },
  ),
  'widening bore': routeAlong(() => 0, 20, { bore_mm: [3, 3.5, 4] }),
  'waist in an S': routeAlong(step, 20, { bore_mm: [5, 4, 3.5, 4.5, 5] }),
  spiral: aRoute(
    Array.from({ length: 41 }, (_, i): [number, number, number] => [
      3 * Math.cos((Math.PI * i) / 20) - 3,
      3 * Math.sin((Math.PI * i) / 20),
      i / 2,
    ]),
    { inletDirection: null, outletDirection: null },
  ),
};

/** Error of the fast form at some stations against the plain sum at 513, at an inlet velocity. */
function errorAt(channel: Channel, velocity: number, stations: number): number {
  const { digests, samples } = digestOf([channel], printed, stations);
  const fine = samplesOf([channel], 513);
  const Q = velocity * samples.area_mm2[0] * 1e-6;
  const reply = new Float64Array(2);
  channelPressure(digests, 0, Q, reply);
  return reply[0] / oracleDrop(fine, familyOf(channel), Q, printed) - 1;
}

describe('channelPressure()', () => {
  for (const [name, channel] of Object.entries(CHANNELS)) {
    // 32 stations and panels of four average what the plain sum takes at 513 stations; 2 % is a
    // sixth of the model's own error against computed flow.
    it(`is within 2 % of the plain, fine sum on a ${name} from creeping to turbulent flow`, () => {
      for (const velocity of [0.1, 0.5, 1, 2, 4, 8, 10, 15, 30]) {
        expect(Math.abs(errorAt(channel, velocity, 32)), `${velocity} m/s`).toBeLessThan(0.02);
      }
    });

    // At equal stations only the panels and tables are left.
    it(`is within 0.3 % of the plain sum on a ${name} when sampled finely`, () => {
      for (const velocity of [0.5, 2, 8, 30]) {
        expect(Math.abs(errorAt(channel, velocity, 513)), `${velocity} m/s`).toBeLessThan(0.003);
      }
    });
  }
});
