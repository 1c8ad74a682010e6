import { describe, expect, it } from 'vitest';
import {
  addBeside,
  addBranch,
  addDuct,
  addMass,
  bandFrequency,
  cutOnFrequency,
  endLength,
  flowNoiseIndex,
  neighbourFactor,
  powerBeside,
  powerThrough,
  roomAir,
  speedPower,
  startChain,
  transmissionLoss,
  wallDamping,
  whistleRange,
} from '../../../src/physics/index.ts';

/** Ducts in a row, lossless: area and k times length of each. */
function aChain(...ducts: readonly (readonly [area_m2: number, kL: number])[]): Float64Array {
  const chain = new Float64Array(8);
  startChain(chain);
  for (const [area, kL] of ducts) addDuct(chain, area, Math.cos(kL), Math.sin(kL), 0, 0);
  return chain;
}

function besides(...chains: readonly Float64Array[]): Float64Array {
  const bank = new Float64Array(6);
  for (const chain of chains) addBeside(bank, chain, 1);
  return bank;
}

const loss = (chain: Float64Array, inlet = 1, outlet = inlet): number =>
  transmissionLoss(powerThrough(chain, inlet, outlet));

/** Share of the power that a chain throws back, from its own definition of the input impedance. */
function reflected(chain: Float64Array, inlet: number, outlet: number): number {
  // p2 = 1, v2 = S2: p1 = A + B S2, v1 = C + D S2; reflection = (S1 p1 - v1)/(S1 p1 + v1).
  const part = (i: number): [number, number] => {
    const p = chain[i] + chain[i + 2] * outlet;
    const v = chain[i + 4] + chain[i + 6] * outlet;
    return [inlet * p - v, inlet * p + v];
  };
  const [re, im] = [part(0), part(1)];
  return (re[0] ** 2 + im[0] ** 2) / (re[1] ** 2 + im[1] ** 2);
}

describe('plane waves in ducts', () => {
  it('an expansion chamber loses 10 log10[1 + (m - 1/m)^2 sin^2(kL)/4]', () => {
    // Davis, Stokes, Moore & Stevens, NACA report 1192 (1954); exact for plane waves.
    for (const m of [0.25, 2, 4, 9]) {
      for (const kL of [0.01, 0.5, Math.PI / 2, 2.5, Math.PI]) {
        const wanted = 10 * Math.log10(1 + 0.25 * (m - 1 / m) ** 2 * Math.sin(kL) ** 2);
        expect(loss(aChain([m, kL])), `m ${m}, kL ${kL}`).toBeCloseTo(wanted, 9);
      }
    }
    // Peaks of the report's curves: 6.55 dB at m 4, 13.17 dB at m 9.
    expect(loss(aChain([4, Math.PI / 2]))).toBeCloseTo(6.55, 2);
    expect(loss(aChain([9, Math.PI / 2]))).toBeCloseTo(13.17, 2);
  });

  it('a chamber cut into many ducts is the same chamber', () => {
    const cut = aChain(...Array.from({ length: 30 }, () => [4, 1.2 / 30] as const));
    expect(loss(cut)).toBeCloseTo(loss(aChain([4, 1.2])), 10);
  });

  it('a closed branch loses 10 log10[1 + (Sb tan(kL)/2S)^2] and all at a quarter wave', () => {
    // Munjal 2014, chapter 2; exact for plane waves.
    for (const kL of [0.3, 1, 1.5]) {
      const chain = aChain();
      addBranch(chain, 0.6 * Math.tan(kL));
      const wanted = 10 * Math.log10(1 + (0.3 * Math.tan(kL)) ** 2);
      expect(loss(chain), `kL ${kL}`).toBeCloseTo(wanted, 9);
    }
    const chain = aChain();
    addBranch(chain, Math.tan(Math.PI / 2 - 1e-6));
    expect(loss(chain)).toBeGreaterThan(100);
  });

  it('a mass in the way loses 10 log10[1 + (x S/2)^2]', () => {
    // Limp wall at normal incidence, any handbook of acoustics: x S = omega m''/(rho c).
    const chain = aChain();
    addMass(chain, 5);
    expect(loss(chain, 0.7)).toBeCloseTo(10 * Math.log10(1 + (0.5 * 5 * 0.7) ** 2), 10);
  });

  it('a step in area passes 4 S1 S2/(S1 + S2)^2 of the power', () => {
    // Exact; the duct of no length in between is passed over.
    expect(powerThrough(aChain(), 1, 4)).toBeCloseTo(16 / 25, 12);
    expect(powerThrough(aChain([2, 0]), 4, 1)).toBeCloseTo(16 / 25, 12);
  });

  it('without losses, what passes and what comes back make up the whole', () => {
    for (const [inlet, outlet] of [
      [1, 1],
      [1, 3],
      [0.4, 0.1],
    ]) {
      const chain = aChain([0.3, 0.4], [2, 1.1], [0.1, 0.2]);
      addBranch(chain, 0.3);
      addMass(chain, 2);
      const whole = powerThrough(chain, inlet, outlet) + reflected(chain, inlet, outlet);
      expect(whole).toBeCloseTo(1, 12);
    }
  });

  it('loses as much from the far side (reciprocity), with losses too', () => {
    const ducts = [
      [0.3, 0.4],
      [2, 1.1],
      [0.1, 0.2],
    ] as const;
    const build = (list: readonly (readonly [number, number])[]): Float64Array => {
      const chain = new Float64Array(8);
      startChain(chain);
      for (const [area, kL] of list)
        addDuct(chain, area, Math.cos(kL), Math.sin(kL), 0.03 * kL, 0.02);
      return chain;
    };
    const there = powerThrough(build(ducts), 1, 3);
    expect(powerThrough(build(ducts.toReversed()), 3, 1)).toBeCloseTo(there, 12);
    expect(there).toBeLessThan(powerThrough(aChain(...ducts), 1, 3));
  });

  it('like channels beside each other are one of their common area', () => {
    const one = aChain([0.05, 0.3], [0.08, 0.2]);
    const many = aChain([0.35, 0.3], [0.56, 0.2]);
    const bank = new Float64Array(6);
    addBeside(bank, one, 7);
    expect(powerBeside(bank, 1, 1)).toBeCloseTo(powerThrough(many, 1, 1), 12);
  });

  it('two ducts of different length cancel as in the closed form', () => {
    // Two ducts beside each other between ducts of area 1 (Herschel's tube, Stewart 1928; exact for
    // plane waves): v1 = j (own p1 + across p2), -v2 = j (across p1 + own p2),
    //   tau = 4 across^2 / [(1 - own^2 + across^2)^2 + 4 own^2].
    const [S2, S3, a, b] = [0.4, 0.6, 0.7, 2.9];
    const own = -(S2 / Math.tan(a) + S3 / Math.tan(b)); // Y11 = Y22 = j own
    const across = S2 / Math.sin(a) + S3 / Math.sin(b); // Y12 = j across
    const re = 1 - own * own + across * across;
    const wanted = (4 * across * across) / (re * re + 4 * own * own);
    const bank = besides(aChain([S2, a]), aChain([S3, b]));
    expect(powerBeside(bank, 1, 1)).toBeCloseTo(wanted, 12);
    // Nothing passes where S2/sin a = -S3/sin b, the tube's notch.
    const notch = Math.PI + Math.asin((S2 / (0.5 * S3)) * Math.sin(0.3));
    const silent = besides(aChain([0.5 * S3, 0.3]), aChain([S2, notch]));
    expect(powerBeside(silent, 1, 1)).toBeLessThan(1e-20);
  });
});

describe('damping at the wall', () => {
  it('is about 3 dB/m at 1 kHz in a bore of 5 mm', () => {
    // Kirchhoff's wide tube; value by hand: sqrt(pi 1000 1.5e-5)/(.0025 343) 1.47 8.686 = 3.2 dB/m.
    const out = new Float64Array(2);
    wallDamping(roomAir(20, 0), 1000, 0.0025, out);
    expect((20 / Math.LN10) * out[0]).toBeCloseTo(3.23, 1);
  });

  it('agrees with the exact circular tube from a sqrt(omega/nu) = 10 on', () => {
    // Zwikker & Kosten 1949 with Bessel functions of complex argument, worked out with scipy 1.10:
    // alpha c/omega at s = 10, 20, 40 (Pr .7093). The wide-tube law leaves out terms of 1/s^2.
    const air = roomAir(20, 0);
    const out = new Float64Array(2);
    for (const [s, exact, tolerance] of EXACT_DAMPING) {
      const radius = 0.001;
      const frequency = ((s / radius) ** 2 * air.kinematicViscosity_m2_per_s) / (2 * Math.PI);
      wallDamping(air, frequency, radius, out);
      const k = (2 * Math.PI * frequency) / air.soundSpeed_m_per_s;
      expect(Math.abs(out[0] / k / exact - 1), `s ${s}`).toBeLessThan(tolerance);
    }
  });

  it('of a long tube is exp(-2 alpha L) in power', () => {
    const chain = new Float64Array(8);
    startChain(chain);
    for (let i = 0; i < 100; i++) addDuct(chain, 1, Math.cos(0.05), Math.sin(0.05), 0.004, 0);
    expect(powerThrough(chain, 1, 1)).toBeCloseTo(Math.exp(-2 * 100 * 0.004), 5);
  });
});

describe('end corrections', () => {
  it('of a lone hole is .85 of its radius', () => {
    expect(endLength(Math.PI * 4e-6, 1)).toBeCloseTo(0.0017 * (1 - 1.4092 * 0.00354), 4);
  });

  it('shrink among neighbours like the sum over cross modes', () => {
    // Independent: piston of radius a in a tube of radius b (Karal 1953), mass
    //   delta/a = 4/x sum J1(x j_n)^2 / (j_n^3 J0(j_n)^2),  j_n the zeros of J1,  x = a/b.
    // Fok's profile is not a piston's, so the two factors differ by some hundredths. First 4000 modes, worked out with scipy 1.10.
    for (const [share, piston] of PISTON_FACTORS) {
      expect(Math.abs(neighbourFactor(share) - piston), `share ${share}`).toBeLessThan(0.04);
    }
    expect(neighbourFactor(1)).toBe(0);
    expect(neighbourFactor(1.2)).toBe(0);
  });
});

describe('bands, cut-on and indices', () => {
  it('frequencies fill an octave evenly on a logarithmic scale', () => {
    const list = [0, 1, 2].map((part) => bandFrequency(500, part, 3));
    expect(list[1]).toBeCloseTo(500, 9);
    expect(list[2] / list[1]).toBeCloseTo(2 ** (1 / 3), 9);
  });

  it('cross modes of a 5 mm bore begin at 40 kHz', () => {
    // .586 c/D, any handbook of acoustics.
    expect(cutOnFrequency(0.005, 343.2) / ((0.586 * 343.2) / 0.005)).toBeCloseTo(1, 3);
  });

  it('six powers of the speed are 18 dB for twice of it', () => {
    const step = flowNoiseIndex(50 * speedPower(8, 6)) - flowNoiseIndex(50 * speedPower(4, 6));
    expect(step).toBeCloseTo(60 * Math.log10(2), 9);
    expect(flowNoiseIndex(100 * speedPower(1, 5))).toBeCloseTo(0, 12);
  });

  it('holes of 0.5 to 2 bores may whistle at Strouhal .2 to .35', () => {
    expect(whistleRange(0.004, 0.004, 10)).toEqual([500, 875]);
    expect(whistleRange(0.0019, 0.004, 10)).toBeNull();
    expect(whistleRange(0.0081, 0.004, 10)).toBeNull();
  });
});

/** a sqrt(omega/nu), alpha c/omega of the exact tube, relative tolerance. */
const EXACT_DAMPING: readonly (readonly [number, number, number])[] = [
  [10, 0.1158524, 0.11],
  [20, 0.054941, 0.06],
  [40, 0.0267602, 0.03],
];
/** Diameter ratio, factor of a piston's end correction. */
const PISTON_FACTORS: readonly (readonly [number, number])[] = [
  [0.1, 0.86984],
  [0.3, 0.61525],
  [0.5, 0.37863],
  [0.7, 0.17539],
  [0.9, 0.03065],
];
