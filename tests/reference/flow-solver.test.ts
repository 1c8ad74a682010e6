/**
 * The flow solver against channels computed with OpenFOAM 1912 (tests/reference/data/cfd.json).
 *
 * Two steady cases on 15 cells; asked are 5 %. The test is not wholly blind: the outlet's sponge was once
 * matched to the straight bore (src/flow/solve.ts). All cases are run by the bench lattice/cases.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { CASE_SIDE_MM, caseDuct } from '../../experiments/bench/lattice/cases.ts';
import type { Case } from '../../experiments/bench/lattice/cases.ts';
import { solveDuct } from '../../src/flow/solve.ts';

const file = join(import.meta.dirname, 'data/cfd.json');
const { cases } = JSON.parse(readFileSync(file, 'utf8')) as { readonly cases: readonly Case[] };

describe('solveDuct()', () => {
  it.each(['straight', 'sbend'])(
    'finds the pressure drop of the %s bore at 1 m/s within 2 %',
    (geometry) => {
      const wanted = cases.find(
        (entry) => entry.geometry === geometry && entry.meanVelocity_m_s === 1,
      );
      const march = solveDuct(caseDuct(geometry), {
        side_mm: CASE_SIDE_MM,
        cells: 15,
        inletLength_mm: 10,
        outletLength_mm: 15,
        reynolds: wanted?.reynolds ?? Number.NaN,
        tolerance: 0.002,
        maxSteps: 12_000,
        speed: 0.1,
        subgrid: 0.05,
      });
      let next = march.next();
      while (next.done !== true) next = march.next();
      expect(next.value.converged).toBe(true);
      expect(Math.abs(next.value.massError)).toBeLessThan(0.001);
      const error = next.value.loss / (wanted?.lossCoefficient ?? Number.NaN) - 1;
      expect(Math.abs(error)).toBeLessThan(0.02);
    },
    300_000,
  );
});
