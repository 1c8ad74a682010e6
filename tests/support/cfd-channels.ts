/** The channels of tests/reference/data/cfd.json, and what the estimate says of them. */
import cfd from '../reference/data/cfd.json' with { type: 'json' };
import type { Channel } from '../../src/design/index.ts';
import { pocketLoss } from '../../src/physics/index.ts';
import { airOf, aRoute, dropAt, routeAlong } from './flow-channels.ts';

const air = airOf(cfd.air.density_kg_m3, cfd.air.kinematicViscosity_m2_s);

function doubleStep(z: number): number {
  if (z < 10) return 2.5 * (1 - Math.cos((Math.PI * z) / 10));
  if (z < 30) return 5 * Math.cos((Math.PI * (z - 10)) / 20);
  return -2.5 * (1 + Math.cos((Math.PI * (z - 30)) / 10));
}

const straight: [number, number, number][] = [
  [0, 0, 0],
  [0, 0, 20],
];
export const CHANNELS: Record<string, { channel: Channel; pockets: number }> = {
  straight: { channel: aRoute(straight), pockets: 0 },
  sbend: { channel: routeAlong((z) => 3 * (1 - Math.cos((Math.PI * z) / 20)), 20), pockets: 0 },
  ubend: { channel: routeAlong((z) => 2.5 * (1 - Math.cos((Math.PI * z) / 10)), 20), pockets: 0 },
  doubles40: { channel: routeAlong(doubleStep, 40, {}, 81), pockets: 0 },
  // 5 mm of mouth on a 5 mm bore, 3.54 mm = 90 degrees of it wide.
  pocket: { channel: aRoute(straight), pockets: pocketLoss(1, 0.25) },
  square: {
    channel: aRoute(straight, { section: { kind: 'polygon', sides: 4 }, bore_mm: [4.43] }),
    pockets: 0,
  },
};

/** Estimated pressure drop of a row [Pa]. */
export function estimateOf(row: (typeof cfd.cases)[number], stations = 32): number {
  const { channel, pockets } = CHANNELS[row.geometry];
  return dropAt(channel, row.meanVelocity_m_s, { air, openShare: 0.3, pockets }, stations);
}
