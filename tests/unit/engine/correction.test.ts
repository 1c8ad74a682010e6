import { describe, expect, it } from 'vitest';
import { FLOW_FEATURES, readBrief } from '../../../src/brief/index.ts';
import type { Correction, FlowFeature } from '../../../src/brief/index.ts';
import { fitCorrection, measure, verifyTasks } from '../../../src/engine/index.ts';
import type { VerifyCase } from '../../../src/formats/index.ts';
import { featuresAt } from '../../../src/measures/index.ts';
import { createStream } from '../../../src/numeric/index.ts';
import { aComputedFlow } from '../../support/computed-flows.ts';
import { aBrief, aChannel, aDesign, aGrid, anSBend, samplesOf } from '../../support/plates.ts';

/** A world in which the estimate is off by a known law. */
const law = (features: VerifyCase['features']): number =>
  Math.exp(-0.1 + 0.08 * features.reynolds + 0.12 * features.turning);

/** Three velocities of so many designs, each a different channel; scattered by a share. */
function flows(designs: number, scatter = 0): VerifyCase[] {
  const stream = createStream('correction', String(designs));
  return Array.from({ length: designs }, (_, d) => {
    const turning = 2 * stream.next();
    const slenderness = 1 + stream.next();
    const pockets = 0.2 * stream.next();
    const openShare = 0.2 + 0.3 * stream.next();
    return [-1.5, -0.7, 0.1].map((reynolds, k) => {
      const dean =
        turning === 0 ? 0 : Math.log1p(10 * Math.exp(reynolds) * Math.sqrt(turning / 20));
      const features = { reynolds, slenderness, turning, dean, areaChange: 0, pockets, openShare };
      const wrong = 1 + scatter * (2 * stream.next() - 1);
      const velocity_m_per_s = [0.7, 1.5, 3.3][k];
      return aComputedFlow({
        design: `d${String(d + 1).padStart(3, '0')}`,
        digest: d.toString(16).padStart(64, '0'),
        medianVelocity_m_per_s: velocity_m_per_s,
        velocity_m_per_s,
        features,
        estimate_Pa: 10,
        pressureDrop_Pa: 10 * law(features) * wrong,
        uncertainty_Pa: 0.3,
        trust: 'computed',
      });
    });
  }).flat();
}

describe('fitCorrection()', () => {
  it('learns a law that it was not told, and knows designs it has not seen', () => {
    const { correction, cases } = fitCorrection(flows(12, 0.02), 'invented flows');
    expect(correction).toMatchObject({ cases: 36, designs: 12 });
    for (const { ratio, fitted } of cases) expect(Math.exp(fitted) / ratio).toBeCloseTo(1, 1);
    expect(correction.error.designLeftOut).toBeLessThan(0.4 * correction.error.before);
    // The scatter is even within 2 %: a deviation of 2 / sqrt(3) %.
    expect(correction.error.leftOut).toBeGreaterThan(0.005);
    expect(correction.error.leftOut).toBeLessThan(0.035);
  });

  it('gives a constant where all ratios are alike: every coefficient but the mean stays small', () => {
    const alike = flows(6).map((entry) => ({ ...entry, pressureDrop_Pa: 9 }));
    const { correction } = fitCorrection(alike, 'invented flows');
    // The prior holds the mean back by the share of its own weight: 18 flows of 3 % against 0.3.
    expect(correction.coefficients[0]).toBeCloseTo(Math.log(0.9), 2);
    for (const value of correction.coefficients.slice(1))
      expect(Math.abs(value)).toBeLessThan(0.003);
  });

  it('has an interval that holds most designs left out, and is wide with few of them', () => {
    const many = fitCorrection(flows(12, 0.05), 'many');
    const within = many.cases.filter(
      ({ ratio, leftOut }) =>
        Math.abs(Math.log(ratio) - leftOut) < many.correction.width * many.correction.scatter,
    );
    expect(within.length).toBeGreaterThanOrEqual(34);
    expect(fitCorrection(flows(3, 0.05), 'few').correction.width).toBeCloseTo(4.303, 3);
  });

  it('leaves flows aside that did not come to rest, and refuses too few', () => {
    const all = flows(3);
    const restless = { ...all[0], trust: 'neither' as const };
    const { unsteady, correction } = fitCorrection([...all.slice(1), restless], 'invented');
    expect([unsteady, correction.cases]).toEqual([1, 8]);
    expect(() => fitCorrection(all.slice(0, 3), 'x')).toThrowError(
      /computed flows is 3 at rest of 1 design; it must number at least 4 of 2 designs/,
    );
  });

  it('makes a section that a brief takes, but not beside a calibration', () => {
    const { correction } = fitCorrection(flows(4), 'invented');
    const brief = { ...aBrief(), correction: JSON.parse(JSON.stringify(correction)) as unknown };
    expect(readBrief(brief)).toMatchObject({ ok: true, brief: { correction } });
    const one = { value: 1, low: 0.9, high: 1.1 };
    const calibration = {
      source: 'coupon',
      friction: one,
      ends: one,
      curvature: one,
      areaChanges: one,
    };
    const both = readBrief({ ...brief, calibration });
    expect(both.ok ? [] : both.faults.map(({ message }) => message)).toEqual([
      expect.stringMatching(/^correction is beside a calibration; it must stand without one/),
    ]);
  });
});

/** A correction that knows everything about as wide as plates go, and multiplies by `factor`. */
function flat(factor: number, over: Partial<Record<FlowFeature, number>> = {}): Correction {
  const range = { low: -50, high: 50, middle: 0, scale: 1 };
  const features = Object.fromEntries(FLOW_FEATURES.map((name) => [name, range]));
  return {
    source: 'made up',
    cases: 9,
    designs: 3,
    coefficients: [Math.log(factor), ...FLOW_FEATURES.map((name) => over[name] ?? 0)],
    covariance: Array.from({ length: 64 }, () => 0),
    scatter: 0.05,
    width: 2,
    leverage: 1,
    features: features as Correction['features'],
    error: { before: 0.2, leftOut: 0.05, designLeftOut: 0.05 },
  };
}

const usual = aBrief();
const brief = {
  ...usual,
  air: { ...usual.air, supply: { kind: 'flow' as const, flow_m3_per_h: 4 } },
};
const bends = aDesign({ channels: [anSBend({ placements: aGrid(4, 9) })] });
const mixed = aDesign({
  channels: [aChannel({ placements: aGrid(2, 24) }), anSBend({ placements: aGrid(2, 9) })],
});

function drop(over: Partial<typeof brief>, design = bends): number {
  const { measures, readings } = measure({ ...brief, ...over }, design);
  return readings[measures.findIndex((info) => info.id === 'pressureDrop_Pa')] ?? NaN;
}

describe('a brief with a correction', () => {
  it('reads the estimate times the factor', () => {
    expect(drop({ correction: flat(0.8) }) / drop({})).toBeCloseTo(0.8, 9);
    // The solved split is that of the uncorrected plate when all channels have the same factor.
    expect(drop({ correction: flat(0.8) }, mixed) / drop({}, mixed)).toBeCloseTo(0.8, 6);
  });

  it('shifts the split where only some channels are corrected', () => {
    const { streams } = measure({ ...brief, correction: flat(1, { turning: 0.2 }) }, mixed);
    const plain = measure(brief, mixed).streams;
    expect(streams[1].flow_m3_per_h).toBeLessThan(plain[1].flow_m3_per_h);
    const sum = streams.reduce(
      (all, { channels, flow_m3_per_h }) => all + channels * flow_m3_per_h,
      0,
    );
    expect(sum).toBeCloseTo(4, 6);
  });

  it('never more than doubles an estimate, and holds features within their range', () => {
    expect(drop({ correction: flat(9) }) / drop({})).toBeCloseTo(2, 9);
    const narrow = flat(1, { turning: 0.3 });
    const held = { ...narrow.features, turning: { low: 0, high: 0.5, middle: 0, scale: 1 } };
    const ratio = drop({ correction: { ...narrow, features: held } }) / drop({});
    expect(ratio).toBeCloseTo(Math.exp(0.15), 6);
  });

  it('flags designs outside the computed flows, also a mix that is far from them', () => {
    const told = (correction: Correction, design = bends): string =>
      measure({ ...brief, correction }, design).outside.join('\n');
    expect(told(flat(0.9))).not.toMatch(/computed flows/);
    const narrow = flat(0.9);
    const turning = { low: 0, high: 0.1, middle: 0, scale: 1 };
    expect(told({ ...narrow, features: { ...narrow.features, turning } })).toMatch(
      /pressureDrop_Pa: .*1 of 1 channel shapes lie outside the computed flows.*half turns .* above 0\.1/,
    );
    const covariance = narrow.covariance.map((_, i) => (i % 9 === 0 ? 1 : 0));
    expect(told({ ...narrow, covariance, leverage: 0.5 })).toMatch(/mix of features is far/);
    const toothed = aDesign({ channels: [aChannel({ teeth: { height_mm: 0.4, pitch_mm: 4 } })] });
    expect(told(flat(0.9), toothed)).toMatch(/without teeth, and is left out/);
  });

  it('asks for the same flows and estimates as one without', () => {
    const choice = { cells: 12, velocities_m_per_s: [1], spread: true };
    const [plain] = verifyTasks('d001', brief, mixed, choice).tasks;
    const [again] = verifyTasks('d001', { ...brief, correction: flat(0.5) }, mixed, choice).tasks;
    expect(again.found).toEqual(plain.found);
  });
});

describe('featuresAt()', () => {
  it('reckons what geometry says: no turns in a straight hole, half a turn in each bend', () => {
    const hole = featuresAt(samplesOf(aChannel(), 128), 0, 500);
    expect(hole).toMatchObject({ turning: 0, dean: 0, areaChange: 0, pockets: 0 });
    expect(hole.slenderness).toBeCloseTo(Math.log(4), 6);
    expect(hole.reynolds).toBeCloseTo(Math.log(0.5), 12);
    // Open share of one 5 mm hole in 80 mm: (5 / 80)^2.
    expect(hole.openShare).toBeCloseTo(1 / 256, 6);
    // Along a centreline in one plane the turning is that of its tangents: there and back twice.
    const bend = featuresAt(samplesOf(anSBend(), 128), 0, 500);
    expect(bend.turning).toBeGreaterThan(0.8);
    expect(bend.turning).toBeLessThan(2);
    expect(featuresAt(samplesOf(anSBend(), 128), 0, 1000).dean).toBeGreaterThan(bend.dean);
  });
});
