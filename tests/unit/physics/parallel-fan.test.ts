import { describe, expect, it } from 'vitest';
import system from '../../reference/data/system.json' with { type: 'json' };
import {
  createFlowSplit,
  fanInAir,
  fanPressure,
  freeFlow,
  operatingPoint,
  splitFlow,
  splitSlope,
} from '../../../src/physics/index.ts';
import type { BranchPressure, FanCurve } from '../../../src/physics/index.ts';

const RHO = 1.2041;

function quadratic(areas: readonly number[], losses: readonly number[]): BranchPressure {
  return (i, Q, out) => {
    const U = Q / (areas[i] * 1e-6);
    out[0] = losses[i] * 0.5 * RHO * U * U;
    out[1] = 2 * out[0];
  };
}

/** Two branches whose told slopes are swapped. */
const laws: BranchPressure = (i, Q, out) => {
  out[0] = i === 0 ? 1e6 * Q : 4e10 * Q * Q + 1e5 * Q;
  out[1] = i === 0 ? 2 * out[0] : out[0];
};

/** 5.5 Pa per L/s. */
const lineLaw = (Q: number, out: Float64Array): void => {
  out[0] = 5.5e3 * Q;
  out[1] = out[0];
};

/** The square-law plate of 0.3 Pa per (L/s)^2 in air of half the density. */
const thinPlate = (Q: number, out: Float64Array): void => {
  out[0] = 0.5 * 0.3 * Q * Q * 1e6;
  out[1] = 2 * out[0];
};

describe('splitFlow()', () => {
  it('gives the flows of channels with constant loss coefficients', () => {
    // system.json, flow_split_constant_K: Q_i = A_i sqrt(2 dp/(rho K_i)), exact.
    for (const row of system.tables.flow_split_constant_K.rows) {
      const [dp, channels, flows, total] = row as [number, number[][], number[], number];
      const areas = channels.map(([A]) => A);
      const split = createFlowSplit(
        new Float64Array(areas.length).fill(1),
        Float64Array.from(areas),
      );
      const losses = channels.map(([, K]) => K);
      const p = splitFlow(split, total / 1000, quadratic(areas, losses));
      expect(p / dp).toBeCloseTo(1, 5);
      flows.forEach((Q, i) => expect((split.flow_m3_per_s[i] * 1000) / Q).toBeCloseTo(1, 5));
      // Slopes are chords between trial flows: good to a per mille.
      expect(splitSlope(split) / p).toBeCloseTo(2, 2);
    }
  });

  it('counts every standing of a branch', () => {
    const pressure = quadratic([10, 10], [2, 2]);
    const split = createFlowSplit(Float64Array.from([3, 1]), Float64Array.from([10, 10]));
    splitFlow(split, 4e-4, pressure);
    expect(split.flow_m3_per_s[0]).toBeCloseTo(1e-4, 12);
    expect(split.flow_m3_per_s[1]).toBeCloseTo(1e-4, 12);
  });

  it('settles although branches tell their slopes wrongly', () => {
    const split = createFlowSplit(Float64Array.from([1, 1]), Float64Array.from([1, 1]));
    const p = splitFlow(split, 2e-5, laws);
    // 1e6 a = 4e10 b^2 + 1e5 b with a + b = 2e-5: b = [sqrt(1.1e6^2 + 16e10*20) - 1.1e6]/8e10.
    const b = (Math.sqrt(1.21e12 + 3.2e12) - 1.1e6) / 8e10;
    expect(split.flow_m3_per_s[1] / b).toBeCloseTo(1, 5);
    expect(p / (1e6 * (2e-5 - b))).toBeCloseTo(1, 5);
  });

  it('refuses a flow that is no positive number', () => {
    const split = createFlowSplit(Float64Array.from([1]), Float64Array.from([1]));
    const pressure = quadratic([10], [1]);
    expect(() => splitFlow(split, 0, pressure)).toThrow('total flow is 0 m3/s');
    expect(() => splitFlow(split, Number.NaN, pressure)).toThrow('total flow is NaN m3/s');
  });
});

// INVENTED curve of system.json, litres per second.
const CURVE: FanCurve = {
  flow_m3_per_s: Float64Array.from([0, 2, 4, 6, 8, 10, 12, 13.5], (q) => q / 1000),
  pressure_Pa: Float64Array.from([40, 36, 30, 27, 23, 16, 7, 0]),
};

const square =
  (c: number) =>
  (Q: number, out: Float64Array): void => {
    out[0] = c * Q * Q * 1e6;
    out[1] = 2 * out[0];
  };

describe('operatingPoint()', () => {
  it('finds the crossings of the tabulated fan and square-law plates', () => {
    for (const [c, Q, p] of system.tables.fan_operating_point_INVENTED_CURVE.rows) {
      const point = operatingPoint(CURVE, 5e-3, square(c));
      expect((point.flow_m3_per_s * 1000) / Q).toBeCloseTo(1, 4);
      expect(point.pressure_Pa / p).toBeCloseTo(1, 4);
      expect(point.others_m3_per_s).toEqual([]);
    }
  });

  it('takes the greatest of several crossings and lists the others', () => {
    // A stall dip: rises from 20 to 30 Pa between 2 and 5 L/s. The plate of 0.9 Q^2 + ... meets it thrice.
    const dip: FanCurve = {
      flow_m3_per_s: Float64Array.from([0, 2, 5, 8], (q) => q / 1000),
      pressure_Pa: Float64Array.from([40, 10, 30, 0]),
    };
    const point = operatingPoint(dip, 1e-3, lineLaw);
    // Straight lines: 5.5 q = 30 - 10 (q - 5), 5.5 q = 10 + 20/3 (q - 2), 5.5 q = 40 - 15 q.
    expect(point.flow_m3_per_s * 1000).toBeCloseTo(80 / 15.5, 6);
    expect(point.others_m3_per_s.map((q) => q * 1000)[0]).toBeCloseTo(
      (40 / 3 - 10) / (20 / 3 - 5.5),
      6,
    );
    expect(point.others_m3_per_s.map((q) => q * 1000)[1]).toBeCloseTo(40 / 20.5, 6);
  });

  it('keeps the volume flow and drops the pressure in thin air', () => {
    // Fan laws: plate and fan pressure both go with density, so a square-law plate keeps its flow.
    const thin = fanInAir(CURVE, 0.6);
    const point = operatingPoint(thin, 5e-3, thinPlate);
    const sea = operatingPoint(CURVE, 5e-3, square(0.3));
    expect(point.flow_m3_per_s / sea.flow_m3_per_s).toBeCloseTo(1, 9);
    expect(point.pressure_Pa / sea.pressure_Pa).toBeCloseTo(0.5, 9);
  });

  it('carries a curve that stops above zero on down', () => {
    const stump: FanCurve = {
      flow_m3_per_s: Float64Array.from([0, 1e-3]),
      pressure_Pa: Float64Array.from([40, 20]),
    };
    expect(freeFlow(stump)).toBeCloseTo(2e-3, 12);
    expect(fanPressure(stump, 1.5e-3)).toBeCloseTo(10, 9);
    expect(fanPressure(stump, 3e-3)).toBe(0);
    expect(operatingPoint(stump, 1e-3, square(1e-6)).flow_m3_per_s).toBeCloseTo(2e-3, 6);
  });
});
