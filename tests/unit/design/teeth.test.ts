import { describe, expect, it } from 'vitest';
import {
  designFaults,
  sampleDesign,
  tipSamples,
  toothHeight,
  toothSlope,
  toothVolume,
  toothedSamples,
} from '../../../src/design/index.ts';
import type { Channel } from '../../../src/design/index.ts';
import { aChannel, aDesign, slanted } from '../solids/plates.ts';

const TEETH = { height_mm: 0.4, pitch_mm: 2.5 };
const HAIR = 1e-9;

function leaning(angle_deg: number, change: Partial<Channel> = {}): Channel {
  const half = 7.5 * Math.tan((angle_deg * Math.PI) / 180);
  return aChannel(15, {
    points_mm: [
      [-half, 0, 0],
      [half, 0, 15],
    ],
    inletDirection: slanted(angle_deg),
    outletDirection: slanted(angle_deg),
    teeth: TEETH,
    ...change,
  });
}

describe('teeth of sampled channels', () => {
  it('are none where no channel has any, and change no array of the wall they stand on', () => {
    const plain = sampleDesign(aDesign([aChannel(15)]));
    const toothed = sampleDesign(aDesign([aChannel(15, { teeth: TEETH })]));
    expect(plain.teeth).toBeNull();
    expect(toothedSamples(plain)).toBe(plain);
    expect(tipSamples(plain)).toBe(plain);
    expect(toothed.bore_mm).toEqual(plain.bore_mm);
    expect(toothed.reach_mm).toEqual(plain.reach_mm);
  });

  it('stand at the pitch asked for, shared out evenly, as high as asked for', () => {
    const { teeth } = sampleDesign(aDesign([aChannel(15, { teeth: TEETH })]));
    const knots = teeth?.knots[0] ?? new Float64Array(0);
    // Five cells of 2.5 mm and 1.25 mm of plain wall at both ends; 45 degrees up, steep on top.
    expect(knots.length).toBe(20);
    for (let i = 0; i < 5; i++) {
      const middle = 1.25 + 2.5 * (i + 0.5);
      expect(knots[4 * i]).toBeCloseTo(middle - 0.25, 9);
      expect(knots[4 * i + 1]).toBeCloseTo(middle + 0.15, 9);
      expect(knots[4 * i + 2]).toBeCloseTo(middle + 0.25, 9);
      expect(knots[4 * i + 3]).toBeCloseTo(0.4, 9);
    }
  });

  it('rise no faster than 45 degrees from the build direction on the wall that leans most', () => {
    for (const angle of [0, 10, 20, 30, 40]) {
      const slope = toothSlope(Math.cos((angle * Math.PI) / 180));
      // The wall leans by the angle, its flank by atan(slope) more.
      expect((Math.atan(slope) * 180) / Math.PI + angle).toBeCloseTo(45, 6);
    }
    const { teeth } = sampleDesign(aDesign([leaning(30)]));
    const knots = teeth?.knots[0] ?? new Float64Array(0);
    const slope = knots[3] / (knots[1] - knots[0]);
    expect(slope).toBeCloseTo(Math.tan(Math.PI / 12), 6);
  });

  it('fade out as the channel lies down, without a jump, and turn over where it goes down', () => {
    let before = 0.4;
    for (let angle = 0; angle <= 50; angle += 1) {
      const { teeth } = sampleDesign(aDesign([leaning(angle)]));
      const height = Math.max(0, ...(teeth?.height_mm ?? []));
      expect(height).toBeLessThanOrEqual(before + HAIR);
      expect(before - height).toBeLessThan(0.06);
      before = height;
    }
    expect(before).toBe(0);
    // On edge the channel lies: no tooth would print.
    const edge = sampleDesign(aDesign([aChannel(15, { teeth: TEETH })], { build: 'edge' }));
    expect(Math.max(...(edge.teeth?.height_mm ?? [1]))).toBe(0);
  });

  it('get a flatter flank where the wall itself narrows', () => {
    const narrowing = aChannel(15, { teeth: TEETH, bore_mm: [5, 4] });
    const knots = sampleDesign(aDesign([narrowing])).teeth?.knots[0] ?? new Float64Array(0);
    // The radius loses 0.5 mm in 15: flank and wall together stand at 45 degrees.
    expect(knots[3] / (knots[1] - knots[0])).toBeCloseTo(1 - 0.5 / 15, 6);
  });

  it('are carried by the rows of the plate as built: the least bore is that of the tips', () => {
    const samples = sampleDesign(aDesign([leaning(15, { section: { kind: 'teardrop' } })]));
    const built = toothedSamples(samples);
    const tips = tipSamples(samples);
    expect(built.stations).toBeGreaterThan(samples.stations);
    expect(Math.min(...built.bore_mm)).toBeCloseTo(Math.min(...tips.bore_mm), 9);
    expect(Math.max(...built.bore_mm)).toBe(4);
    // Frames stay square, tangents of unit length.
    for (let i = 0; i < 3 * built.stations; i += 3) {
      const dot = (a: Float64Array, b: Float64Array): number =>
        a[i] * b[i] + a[i + 1] * b[i + 1] + a[i + 2] * b[i + 2];
      expect(dot(built.tangent, built.tangent)).toBeCloseTo(1, 9);
      expect(dot(built.first, built.first)).toBeCloseTo(1, 9);
      expect(dot(built.tangent, built.first)).toBeCloseTo(0, 9);
    }
  });

  it('hold the volume that quadrature over the profile finds, in a square channel', () => {
    const square = aChannel(15, { teeth: TEETH, section: { kind: 'polygon', sides: 4 } });
    const samples = sampleDesign(aDesign([square]));
    const knots = samples.teeth?.knots[0] ?? new Float64Array(0);
    let sum = 0;
    const steps = 60_000;
    for (let i = 0; i < steps; i++) {
      const side = 4 - 2 * toothHeight(knots, ((i + 0.5) * 15) / steps);
      sum += ((16 - side * side) * 15) / steps;
    }
    expect(toothVolume(samples, 0)).toBeCloseTo(sum, 4);
  });
});

describe('designFaults() of teeth', () => {
  const faultsOf = (change: Partial<Channel>): string[] =>
    designFaults(aDesign([aChannel(15, change)])).map(({ message }) => message);

  it('accepts sound teeth', () => {
    expect(faultsOf({ teeth: TEETH })).toEqual([]);
  });

  it('names teeth that are too high, too close or stand where they cannot', () => {
    expect(faultsOf({ teeth: { height_mm: 1, pitch_mm: 4 } })[0]).toContain(
      '0.2 of the least bore',
    );
    expect(faultsOf({ teeth: { height_mm: 0.4, pitch_mm: 0.4 } })[0]).toContain('1.25 times');
    expect(faultsOf({ teeth: TEETH, section: { kind: 'slot', aspect: 2 } })[0]).toContain('slot');
    const pocket = { at: 0.5, length_mm: 5, depth_mm: 1, width_deg: 90, side_deg: 0 };
    expect(faultsOf({ teeth: TEETH, pockets: [pocket] })[0]).toContain('pockets');
  });
});
