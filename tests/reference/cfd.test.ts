/**
 * Single channels against computed flows. Data: tests/reference/data/cfd.json, made with an
 * independent general-purpose finite-volume flow solver (OpenFOAM 1912, steady laminar, 36 cells
 * over the bore), one channel of an endless array of 30 % open area.
 */
import { describe, expect, it } from 'vitest';
import cfd from './data/cfd.json' with { type: 'json' };
import type { Channel } from '../../src/design/index.ts';
import { pocketLoss } from '../../src/physics/index.ts';
import { airOf, aRoute, dropAt, routeAlong } from '../support/flow-channels.ts';

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
const CHANNELS: Record<string, { channel: Channel; pockets: number }> = {
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

function relativeError(row: (typeof cfd.cases)[number], stations = 32): number {
  const { channel, pockets } = CHANNELS[row.geometry];
  const dp = dropAt(channel, row.meanVelocity_m_s, { air, openShare: 0.3, pockets }, stations);
  return dp / row.pressureDrop_Pa - 1;
}

describe('channel pressure drop against computed flow', () => {
  for (const row of cfd.cases.filter((item) => item.steady)) {
    // 15 % is what was asked of the estimate; one model for all, nothing tuned per case.
    it(`channelPressure() is within 15 % of ${row.geometry} at ${row.meanVelocity_m_s} m/s`, () => {
      expect(Math.abs(relativeError(row))).toBeLessThan(0.15);
      expect(Math.abs(relativeError(row, 128))).toBeLessThan(0.15);
    });
  }

  for (const row of cfd.cases.filter((item) => !item.steady)) {
    // Means over iterations of a flow that never settles: a band, here 15 % beside the table's own 4 to 8 %, see the table's note.
    it(`channelPressure() is within 15 % of the unsteady ${row.geometry} at ${row.meanVelocity_m_s} m/s`, () => {
      expect(Math.abs(relativeError(row))).toBeLessThan(0.15);
    });
  }
});
