/**
 * Convection, fins and exchangers against exact solutions and tables. Same formula: the
 * digits given. Another formula for the same thing: the spread stated beside the check.
 */
import { describe, expect, it } from 'vitest';
import ducts from '../../reference/data/laminar-ducts.json' with { type: 'json' };
import system from '../../reference/data/system.json' with { type: 'json' };
import {
  channelNusselt,
  curvedNusselt,
  effectiveness,
  finEfficiency,
  finParameter,
  gnielinskiNusselt,
  meanNusselt,
  polygonNusselt,
  roundNusselt,
  slotNusselt,
  teardropNusselt,
  thermalEntryNusselt,
  turbulentRise,
} from '../../../src/physics/index.ts';
import type { LaminarDuct } from '../../../src/physics/index.ts';

const ROUND_T: LaminarDuct = {
  fRe: 64,
  developed: roundNusselt('temperature'),
  prandtl: 0.71,
  wall: 'temperature',
};
const ROUND_H: LaminarDuct = { ...ROUND_T, developed: roundNusselt('flux'), wall: 'flux' };

/**
 * Graetz problem: mean Nusselt number of developed flow in a round tube of even wall temperature.
 * Nu = ln(1/theta)/(4 x*), theta = 8 sum G_n/lambda_n^2 exp(-2 lambda_n^2 x*). Eigenvalues and
 * constants: Shah & London 1978, table 11 (first five, from memory; asymptotic beyond).
 */
function graetzMean(x: number): number {
  const known = [
    [2.7043644, 0.7487745],
    [6.6790315, 0.5438294],
    [10.6733795, 0.4628611],
    [14.6710785, 0.4154184],
    [18.6698719, 0.3829192],
  ];
  let theta = 0;
  for (let n = 0; n < 200; n += 1) {
    const lambda = n < 5 ? known[n][0] : 4 * n + 8 / 3;
    const G = n < 5 ? known[n][1] : 1.01276 * Math.cbrt(1 / lambda);
    theta += ((8 * G) / (lambda * lambda)) * Math.exp(-2 * lambda * lambda * x);
  }
  return Math.log(1 / theta) / (4 * x);
}

/** Between parallel plates (Shah & London 1978). */
const PLATES = { temperature: 7.5407, flux: 140 / 17 } as const;

describe('developed Nusselt numbers', () => {
  it('are those of the exact solutions', () => {
    expect(roundNusselt('temperature')).toBeCloseTo(3.6568, 4);
    expect(roundNusselt('flux')).toBeCloseTo(48 / 11, 10);
  });

  it('of the square are those of the table of rectangles', () => {
    const [, , flux, temperature] = ducts.tables.rectangle_nusselt.rows[0];
    expect(polygonNusselt(4, 'flux') / flux).toBeCloseTo(1, 4);
    expect(polygonNusselt(4, 'temperature') / temperature).toBeCloseTo(1, 4);
  });

  it('of triangle and hexagon are those of Shah & London 1978 (from memory)', () => {
    expect(Math.abs(polygonNusselt(3, 'flux') - 3.111)).toBeLessThan(0.001);
    expect(Math.abs(polygonNusselt(3, 'temperature') - 2.47)).toBeLessThan(0.03);
    expect(Math.abs(polygonNusselt(6, 'flux') - 4.002)).toBeLessThan(0.001);
    expect(Math.abs(polygonNusselt(6, 'temperature') - 3.34)).toBeLessThan(0.002);
  });

  it.each(['temperature', 'flux'] as const)('tend to circle and plates, %s', (wall) => {
    expect(polygonNusselt(1000, wall) / roundNusselt(wall)).toBeCloseTo(1, 4);
    expect(polygonNusselt(13, wall)).toBeGreaterThan(polygonNusselt(12, wall));
    expect(teardropNusselt(0, wall) / roundNusselt(wall)).toBeCloseTo(1, 4);
    expect(slotNusselt(1, wall) / roundNusselt(wall)).toBeCloseTo(1, 4);
    expect(slotNusselt(1e12, wall) / PLATES[wall]).toBeCloseTo(1, 4);
  });
});

describe('meanNusselt()', () => {
  it('lies within 4.5 % below the marching solution of both profiles developing', () => {
    for (const row of ducts.tables.developing_round_tube.rows) {
      const ratio = meanNusselt(row[0] / 0.71, ROUND_T) / row[6];
      expect(ratio).toBeGreaterThan(0.955);
      expect(ratio).toBeLessThan(0.99);
    }
  });

  it('tends to the developed values of both wall conditions', () => {
    expect(meanNusselt(1e6, ROUND_T)).toBeCloseTo(3.6568, 3);
    expect(meanNusselt(1e6, ROUND_H)).toBeCloseTo(48 / 11, 3);
  });

  it('never falls below what the thermal entry alone gives', () => {
    for (const x of [1e-4, 1e-3, 1e-2, 0.1]) {
      expect(meanNusselt(x, ROUND_T)).toBeGreaterThan(thermalEntryNusselt(x, ROUND_T));
    }
  });
});

describe('thermal entry of a developed profile', () => {
  it('thermalEntryNusselt() follows the Graetz series within 6 %', () => {
    for (const x of [0.001, 0.003, 0.01, 0.03, 0.1, 0.3, 1]) {
      const ratio = thermalEntryNusselt(x, ROUND_T) / graetzMean(x);
      expect(Math.abs(ratio - 1), `x* ${x}: ${ratio}`).toBeLessThan(0.06);
    }
  });
});

describe('turbulent and curved flow', () => {
  it('gnielinskiNusselt() gives the tabulated values', () => {
    for (const [Re, , long] of system.tables.gnielinski.rows) {
      expect(gnielinskiNusselt(Re, 0.71) / long).toBeCloseTo(1, 5);
    }
  });

  it('channelNusselt() gives the tabulated values at L/D 10', () => {
    for (const [Re, , , short] of system.tables.gnielinski.rows) {
      expect(channelNusselt(Re, 10, ROUND_T) / short).toBeCloseTo(1, 5);
    }
  });

  it('curvedNusselt() gives the tabulated values, some 15-25 % above Schmidt 1967', () => {
    for (const [, , De, schmidt, manlapaz] of system.tables.curved_tube_laminar_Nu.rows) {
      const value = curvedNusselt(De, 0.71, 'temperature');
      expect(value / manlapaz).toBeCloseTo(1, 5);
      expect(value / schmidt).toBeGreaterThan(1.15);
      expect(value / schmidt).toBeLessThan(1.25);
    }
  });

  it('curvedNusselt() tends to the straight tube and rises with De', () => {
    for (const wall of ['temperature', 'flux'] as const) {
      expect(curvedNusselt(1e-6, 0.71, wall) / roundNusselt(wall)).toBeCloseTo(1, 3);
      let before = 0;
      for (let De = 0; De < 2000; De += 10) {
        const value = curvedNusselt(De, 0.71, wall);
        expect(value).toBeGreaterThanOrEqual(before);
        before = value;
      }
    }
  });

  it('turbulentRise() grows from 1 as a bend tightens, but for the 1 % step of the fit of Ito', () => {
    let before = 1;
    for (let ratio = 0; ratio < 0.6; ratio += 0.001) {
      const value = turbulentRise(8000, ratio);
      // The published fit steps down by 1 % at Re ratio^2 = 300.
      expect(value).toBeGreaterThanOrEqual(0.99 * before);
      expect(value - before).toBeLessThan(0.03);
      before = value;
    }
  });

  it('channelNusselt() passes from laminar to turbulent without a jump', () => {
    for (const slender of [1, 4, 20]) {
      let before = channelNusselt(1999, slender, ROUND_T);
      for (let Re = 2000; Re < 5000; Re += 1) {
        const value = channelNusselt(Re, slender, ROUND_T);
        expect(Math.abs(value / before - 1), `Re ${Re}`).toBeLessThan(2e-3);
        before = value;
      }
    }
  });
});

describe('fins and exchangers', () => {
  it('finEfficiency() gives tanh(mL)/(mL) and the handbook value 0.762 at mL 1', () => {
    // Textbook charts of straight rectangular fins: 0.762 at mL 1, 0.482 at 2 (from memory).
    expect(finEfficiency(1)).toBeCloseTo(0.7616, 4);
    expect(finEfficiency(2)).toBeCloseTo(0.482, 3);
    for (const mL of [1e-6, 9e-5, 1.1e-4, 0.3, 5, 40]) {
      expect(finEfficiency(mL) / (Math.tanh(mL) / mL)).toBeCloseTo(1, 8);
    }
  });

  it('finParameter() gives the worked channel cell: PLA 0.12, aluminium near 1', () => {
    // Cell of 6 mm pitch about a 4 mm bore, 20 mm deep, h 60 W/(m2 K).
    const area = 6e-3 * 6e-3 - Math.PI * 4e-6;
    const eta = (k: number) => finEfficiency(0.02 * finParameter(60, Math.PI * 4e-3, k, area));
    expect(eta(0.2)).toBeCloseTo(0.12, 2);
    expect(eta(1)).toBeCloseTo(0.28, 2);
    expect(eta(160)).toBeGreaterThan(0.96);
  });

  it('effectiveness() is 1 - exp(-NTU) without a jump where its form changes', () => {
    for (const NTU of [1e-9, 1e-3, 0.1, 0.2999, 0.3, 0.5, 3, 50]) {
      expect(effectiveness(NTU) / -Math.expm1(-NTU)).toBeCloseTo(1, 4);
    }
    expect(effectiveness(0.3 - 1e-12) / effectiveness(0.3)).toBeCloseTo(1, 4);
  });
});
