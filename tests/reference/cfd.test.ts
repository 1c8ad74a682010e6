/**
 * Single channels against computed flows. Data: tests/reference/data/cfd.json, made with an
 * independent general-purpose finite-volume flow solver (OpenFOAM 1912, steady laminar, 36 cells
 * over the bore), one channel of an endless array of 30 % open area.
 */
import { describe, expect, it } from 'vitest';
import cfd from './data/cfd.json' with { type: 'json' };
import { estimateOf } from '../support/cfd-channels.ts';

function relativeError(row: (typeof cfd.cases)[number], stations = 32): number {
  return estimateOf(row, stations) / row.pressureDrop_Pa - 1;
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
