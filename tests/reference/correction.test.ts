/**
 * The correction fitted to an independent solver's flows. Data: tests/reference/data/cfd.json (OpenFOAM
 * 1912, see cfd.test.ts): every steady flow there, with the table's own uncertainty.
 */
import { describe, expect, it } from 'vitest';
import cfd from './data/cfd.json' with { type: 'json' };
import { fitCorrection } from '../../src/engine/index.ts';
import type { VerifyCase } from '../../src/formats/index.ts';
import { featuresAt } from '../../src/measures/index.ts';
import { aComputedFlow } from '../support/computed-flows.ts';
import { CHANNELS, estimateOf } from '../support/cfd-channels.ts';
import { samplesOf } from '../support/flow-channels.ts';

const geometries = Object.keys(CHANNELS);

function flowOf(row: (typeof cfd.cases)[number]): VerifyCase {
  const { channel } = CHANNELS[row.geometry];
  const plain = featuresAt(samplesOf([channel], 128), 0, row.reynolds);
  const side = row.geometry === 'pocket' ? (5 * 3.54) / (Math.PI * 5 * 5 * 20) : 0;
  return aComputedFlow({
    design: row.geometry,
    digest: geometries.indexOf(row.geometry).toString(16).padStart(64, '0'),
    velocity_m_per_s: row.meanVelocity_m_s,
    medianVelocity_m_per_s: row.meanVelocity_m_s,
    reynolds: row.reynolds,
    estimate_Pa: estimateOf(row, 128),
    pressureDrop_Pa: row.pressureDrop_Pa,
    uncertainty_Pa: row.relativeUncertainty * row.pressureDrop_Pa,
    features: { ...plain, openShare: 0.3, pockets: side },
    trust: 'computed',
  });
}

describe('fitCorrection() on flows of an independent solver', () => {
  const { correction, spread, cases } = fitCorrection(cfd.cases.map(flowOf), 'cfd.json');

  it('finds nothing to correct in six unlike channels, where errors point both ways', () => {
    // The estimate is off by +12 % in one bend and by -12 % in another of the same turning and Re: no
    // feature tells them apart, so every fit does worse on a channel left out than no fit at all.
    expect(correction).toMatchObject({ cases: 12, designs: 6 });
    expect(correction.error.before).toBeLessThan(0.1);
    expect(correction.error.designLeftOut ?? 0).toBeGreaterThan(correction.error.before);
    expect(spread).toBe(0.005);
    for (const { fitted } of cases) expect(Math.abs(fitted)).toBeLessThan(0.05);
  });

  it('states a doubt that holds every channel left out', () => {
    for (const { ratio, leftOut } of cases) {
      const miss = Math.abs(Math.log(ratio) - leftOut);
      expect(miss).toBeLessThan(correction.width * correction.scatter);
    }
  });
});
