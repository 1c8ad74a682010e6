import { describe, expect, it } from 'vitest';
import { flowNoiseAnalysis } from '../../../src/measures/analyses/sound-flow.ts';
import { soundAnalysis } from '../../../src/measures/analyses/sound.ts';
import { flowNoise } from '../../../src/measures/flow-noise.ts';
import { soundLoss } from '../../../src/measures/sound-loss.ts';
import type { Channel, Design } from '../../../src/design/index.ts';
import { assess } from '../../support/assessments.ts';
import { aBrief, faultsWith } from '../../support/briefs.ts';
import { aChannel, aDesign, aGrid, anSBend } from '../../support/plates.ts';

/** A square plate of 60 mm, 10 x 10 channels: cells of 36 mm2. */
function aBank(changes: Partial<Channel> = {}): Design {
  return aDesign({
    plate: {
      outline: { kind: 'rectangle', width_mm: 60, height_mm: 60, cornerRadius_mm: 0 },
      thickness_mm: 20,
    },
    channels: [aChannel({ bore_mm: [2], placements: aGrid(10, 6), ...changes })],
  });
}

const brief = aBrief({ sound: {}, 'process.holeShrinkage_mm': 0 });
const bandsOf = (design: Design, exact = true): Map<number, number> =>
  new Map(
    assess(design, { brief, exact })
      .get(soundAnalysis)
      .bands.map((band) => [band.centre_Hz, band.loss_dB]),
  );

describe('soundLoss_dB', () => {
  /** 10 x 10 straight holes of 5 mm on a square pitch, in 20 mm. */
  const holesOf5mm = (pitch_mm: number): Design =>
    aDesign({
      plate: {
        outline: {
          kind: 'rectangle',
          width_mm: 10 * pitch_mm,
          height_mm: 10 * pitch_mm,
          cornerRadius_mm: 0,
        },
      },
      channels: [aChannel({ placements: aGrid(10, pitch_mm) })],
    });

  it('of few holes follows the mass law', () => {
    // TL = 20 log10|1 + j pi f (t' + .85 d)/(c sigma)| (form of Ingard 1953), t 20, d 5 mm. Holes as
    // wide as .3 of their cell keep .61 of .85 d (sum over cross modes, see the end corrections).
    // Friction at the wall: t' = t [1 + (1 - j) delta/a], delta = sqrt(2 nu/omega) (Crandall 1926,
    // wide tube). Power averaged over the band; what is left is the give of the air in the holes.
    const sigma = Math.PI / 4 / 9;
    const bands = bandsOf(holesOf5mm(15));
    for (const centre of [63, 125, 250]) {
      let power = 0;
      for (let i = 0; i < 16; i++) {
        const f = centre * 2 ** ((i + 0.5) / 16 - 0.5);
        const skin = Math.sqrt((2 * 1.506e-5) / (2 * Math.PI * f)) / 0.0025;
        const plug = (Math.PI * f) / (343.2 * sigma);
        const re = 1 + plug * 0.02 * skin;
        const im = plug * (0.02 * (1 + skin) + 0.61 * 0.85 * 0.005);
        power += 1 / (re * re + im * im) / 16;
      }
      const wanted = -10 * Math.log10(power);
      expect(Math.abs((bands.get(centre) ?? NaN) - wanted), `${centre} Hz`).toBeLessThan(0.06);
    }
  });

  it('reads .1, .8 and some 4 dB for 40 % open holes of 5 mm in 20 mm', () => {
    // By hand, mass law without neighbours: .08, 1.2, 7.7 dB at 250, 1000, 4000 Hz. Neighbours take
    // 14 % off the mass. The holes' air also gives way: a constriction of area ratio .4 alone loses
    // 10 log10[1 + (2.1 sin kt)^2/4] (Davis 1954) = .04, .57, 3.2 dB, the least that is possible.
    const bands = bandsOf(holesOf5mm(5 * Math.sqrt(Math.PI / 4 / 0.4)));
    for (const [f, least, most] of [
      [250, 0.04, 0.12],
      [1000, 0.57, 1.2],
      [4000, 3, 7.7],
    ]) {
      expect(bands.get(f), `${f} Hz`).toBeGreaterThan(least);
      expect(bands.get(f), `${f} Hz`).toBeLessThan(most);
    }
  });

  it('is never negative and grows with thickness and with smaller holes', () => {
    const values = [...bandsOf(aBank()).values()];
    for (const value of values) expect(value).toBeGreaterThan(0);
    const mean = (design: Design): number => soundLoss.evaluate(assess(design, { brief }));
    expect(mean(aBank({ bore_mm: [1.5] }))).toBeGreaterThan(mean(aBank()));
    const thick = aBank({
      points_mm: [
        [0, 0, 0],
        [0, 0, 30],
      ],
    });
    expect(mean(thick)).toBeGreaterThan(mean(aBank()));
  });

  it('does not tell a bend from a straight hole of its length', () => {
    // Plane waves: only length and area count.
    const bent = aBank(anSBend({ bore_mm: [2], placements: aGrid(10, 6) }));
    const length = assess(bent).samples.length_mm[0];
    const straight = aBank({
      points_mm: [
        [0, 0, 0],
        [0, 0, length],
      ],
    });
    expect(soundLoss.evaluate(assess(bent, { brief }))).toBeCloseTo(
      soundLoss.evaluate(assess(straight, { brief })),
      9,
    );
  });

  it('counts a pocket as a volume beside the channel', () => {
    // A pocket of 90 degrees, 2 mm deep and 6 mm long in the middle, worked out with lumped parts: two
    // halves of the bare hole, a spring between them, plugs of .56 x .85 a before both openings.
    const pocket = { at: 0.5, length_mm: 6, depth_mm: 2, width_deg: 90, side_deg: 0 };
    const gain = (f: number): number =>
      (bandsOf(aBank({ pockets: [pocket] })).get(f) ?? NaN) - (bandsOf(aBank()).get(f) ?? NaN);
    // Volume: integral of w (r b/2 + 3 b^2/16) over two ramps of 2 mm and a plateau of 2 mm.
    const volume_mm3 = (Math.PI / 2) * (0.5 * 8 + 0.1875 * (8 + 16 / 3));
    const wanted = (f: number): number => lumpedLoss(f, volume_mm3) - lumpedLoss(f, 0);
    for (const f of [2000, 4000]) {
      expect(Math.abs(gain(f)), `${f} Hz`).toBeGreaterThan(0.1);
      // Spread over 6 mm and damped, against a spring in one spot: within a tenth.
      expect(gain(f) / wanted(f), `${f} Hz`).toBeGreaterThan(0.9);
      expect(gain(f) / wanted(f), `${f} Hz`).toBeLessThan(1.1);
    }
  });

  it('fast and exact forms differ by less than 2 %', () => {
    for (const design of [aBank(), aBank({ bore_mm: [1.5, 3, 2] }), aBank(anSBend())]) {
      const fast = assess(design, { brief }).get(soundAnalysis).loss_dB;
      const exact = assess(design, { brief, exact: true }).get(soundAnalysis).loss_dB;
      expect(Math.abs(fast / exact - 1)).toBeLessThan(0.02);
    }
  });

  it("reports the brief's bands in the fast form and all eight in the exact one", () => {
    expect([...bandsOf(aBank(), false).keys()]).toEqual([500, 1000, 2000, 4000]);
    expect([...bandsOf(aBank()).keys()]).toEqual([63, 125, 250, 500, 1000, 2000, 4000, 8000]);
  });

  it('says where it does not hold', () => {
    const wide = aDesign({ channels: [aChannel({ bore_mm: [60] })] });
    expect(soundLoss.outside?.(assess(wide, { brief }))).toMatch(/cross modes from 3\d\d\d Hz/);
    const narrow = assess(aBank({ bore_mm: [0.8] }), { brief });
    expect(soundLoss.outside?.(narrow)).toMatch(/boundary layers/);
    expect(soundLoss.outside?.(assess(aBank({ bore_mm: [4] }), { brief }))).toBeNull();
  });

  it('is worked out only for briefs that ask', () => {
    expect(soundLoss.unavailable?.(aBrief())).toMatch(/"sound": \{\}/);
    expect(flowNoise.unavailable?.(aBrief())).toMatch(/"sound": \{\}/);
    expect(soundLoss.unavailable?.(brief)).toBeNull();
    const sideways = aBrief({ sound: {}, 'air.route': { kind: 'side' } });
    expect(soundLoss.unavailable?.(sideways)).toMatch(/from face to face/);
    const named = aBrief({ 'goals.objectives': ['soundLoss_dB'] });
    expect(soundLoss.unavailable?.(named)).toBeNull();
    const limited = aBrief({ 'goals.limits': [{ measure: 'flowNoiseIndex_dB', atMost: 9 }] });
    expect(flowNoise.unavailable?.(limited)).toBeNull();
  });
});

describe('flowNoiseIndex_dB', () => {
  it('of like holes is 10 log10(A U^n / 100 mm2)', () => {
    const assessment = assess(aBank({ bore_mm: [4] }), { brief });
    const area = 100 * Math.PI * 4;
    const speed = 20 / 3600 / (area * 1e-6);
    const wanted = 10 * Math.log10((area * speed ** 6) / 100);
    expect(flowNoise.evaluate(assessment)).toBeCloseTo(wanted, 6);
  });

  it('grows by 60 log10(2) with twice the flow', () => {
    const double = aBrief({
      sound: {},
      'process.holeShrinkage_mm': 0,
      'air.supply.flow_m3_per_h': 40,
    });
    const step =
      flowNoise.evaluate(assess(aBank(), { brief: double })) -
      flowNoise.evaluate(assess(aBank(), { brief }));
    expect(step).toBeCloseTo(60 * Math.log10(2), 6);
  });

  it('warns of short sharp-edged holes', () => {
    const short = aBank({
      points_mm: [
        [0, 0, 0],
        [0, 0, 3],
      ],
    });
    const assessment = assess(short, { brief });
    expect(assessment.get(flowNoiseAnalysis).whistling).toBe(100);
    expect(flowNoise.outside?.(assessment)).toMatch(/100 channels .* may whistle/);
    expect(flowNoise.outside?.(assess(aBank(), { brief }))).toBeNull();
  });
});

describe('the section sound of a brief', () => {
  it('names each band once', () => {
    const [fault] = faultsWith({ sound: { bands_Hz: [500, 1000, 500] } });
    expect(fault.message).toContain('sound.bands_Hz[2] is 500 again');
  });

  it('takes octave bands only', () => {
    expect(faultsWith({ sound: { bands_Hz: [440] } })).toHaveLength(1);
  });
});

/** Band loss of holes of 2 mm in cells of 36 mm2 with a spring in the middle; lossless, in mm. */
function lumpedLoss(centre_Hz: number, volume_mm3: number): number {
  const area = Math.PI;
  let power = 0;
  for (let i = 0; i < 16; i++) {
    const k = (2 * Math.PI * centre_Hz * 2 ** ((i + 0.5) / 16 - 0.5)) / 343.2e3;
    const half = [
      Math.cos(10 * k),
      Math.sin(10 * k) / area,
      Math.sin(10 * k) * area,
      Math.cos(10 * k),
    ];
    const plug = [1, (k * 0.56 * 0.85) / area, 0, 1];
    const whole = [plug, half, [1, 0, k * volume_mm3, 1], half, plug].reduce(multiply);
    const im = whole[1] * 36 + whole[2] / 36;
    power += 4 / ((whole[0] + whole[3]) ** 2 + im * im) / 16;
  }
  return -10 * Math.log10(power);
}

/** Product of two lossless matrices A, jB, jC, D, given by their real A, B, C, D. */
function multiply(m: readonly number[], n: readonly number[]): number[] {
  return [
    m[0] * n[0] - m[1] * n[2],
    m[0] * n[1] + m[1] * n[3],
    m[2] * n[0] + m[3] * n[2],
    m[3] * n[3] - m[2] * n[1],
  ];
}
