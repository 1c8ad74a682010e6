/** Transfer units along a channel and layers of a plate, against mean values and exact solutions. */
import { describe, expect, it } from 'vitest';
import {
  AIR_WAY,
  addStream,
  channelNusselt,
  channelUnits,
  createLayerHeat,
  roundNusselt,
  solveLayers,
  startLayers,
  streamWarming,
} from '../../../src/physics/index.ts';
import type { HeatFamily, HeatStream, LaminarDuct } from '../../../src/physics/index.ts';

const ROUND_T: LaminarDuct = {
  fRe: 64,
  developed: roundNusselt('temperature'),
  prandtl: 0.71,
  wall: 'temperature',
};

/** One straight channel of 4 mm, 20 mm long, at 21 stations. */
function straight(stations = 41) {
  const length = 20;
  const fill = (value: number) => new Float64Array(stations).fill(value);
  const tangent = new Float64Array(3 * stations);
  for (let i = 0; i < stations; i += 1) tangent[3 * i + 2] = 1;
  return {
    unit_m: 1e-3,
    stations,
    tangent,
    area: fill(Math.PI * 4),
    perimeter: fill(Math.PI * 4),
    bore: fill(4),
    roof: fill(0),
    length: Float64Array.of(length),
  };
}

const FAMILY: HeatFamily = {
  kind: 'tangential',
  fRe: 64,
  developed: roundNusselt('temperature'),
};

/** Air that reaches a Reynolds number in the channel above. */
function streamAt(Re: number, changes: Partial<HeatStream> = {}): HeatStream {
  const nu = 1.506e-5;
  return {
    flow_m3_per_s: (Re * nu * Math.PI * 4e-6) / 4e-3,
    reynolds: Re,
    kinematicViscosity_m2_per_s: nu,
    prandtl: 0.71,
    shrinkage: 0,
    factor: 1,
    ...changes,
  };
}

describe('channelUnits()', () => {
  it.each([200, 1000, 2200, 3000, 5000, 20000])(
    'sums to the mean Nusselt number of a straight channel at Re %d',
    (Re) => {
      const out = new Float64Array(40);
      const nusselt = channelUnits(straight(), 0, FAMILY, streamAt(Re), out);
      expect(nusselt / channelNusselt(Re, 5, ROUND_T)).toBeCloseTo(1, 3);
      const x = 5 / (Re * 0.71);
      expect(out.reduce((a, b) => a + b, 0) / (4 * x * nusselt)).toBeCloseTo(1, 9);
    },
  );

  it('gives most where the air comes in', () => {
    const out = new Float64Array(40);
    channelUnits(straight(), 0, FAMILY, streamAt(800), out);
    // Steps are taken in pairs after the first.
    for (let j = 2; j < 40; j += 1) expect(out[j]).toBeLessThan(out[j - 2]);
  });

  it('does not depend on the number of stations', () => {
    const few = channelUnits(straight(11), 0, FAMILY, streamAt(800), new Float64Array(10));
    const many = channelUnits(straight(161), 0, FAMILY, streamAt(800), new Float64Array(160));
    expect(few / many).toBeCloseTo(1, 6);
  });

  it('rises in a bend, and more in a tighter one', () => {
    const bend = (radius: number): number => {
      const arrays = straight(81);
      for (let i = 0; i < 81; i += 1) {
        const angle = ((i / 80) * 20) / radius;
        arrays.tangent[3 * i] = Math.sin(angle);
        arrays.tangent[3 * i + 2] = Math.cos(angle);
      }
      return channelUnits(arrays, 0, FAMILY, streamAt(1500), new Float64Array(80));
    };
    const none = channelUnits(straight(81), 0, FAMILY, streamAt(1500), new Float64Array(80));
    expect(bend(1e6) / none).toBeCloseTo(1, 3);
    expect(bend(40)).toBeGreaterThan(1.01 * none);
    expect(bend(10)).toBeGreaterThan(1.05 * bend(40));
  });

  it('multiplies by the factor of what stands on the wall', () => {
    const plain = channelUnits(straight(), 0, FAMILY, streamAt(900), new Float64Array(40));
    const toothed = channelUnits(
      straight(),
      0,
      FAMILY,
      streamAt(900, { factor: 1.2 }),
      new Float64Array(40),
    );
    expect(toothed / plain).toBeCloseTo(1.2, 9);
  });

  it('passes from laminar to turbulent without a jump', () => {
    const out = new Float64Array(40);
    let before = channelUnits(straight(), 0, FAMILY, streamAt(2190), out);
    for (let Re = 2200; Re < 4300; Re += 10) {
      const value = channelUnits(straight(), 0, FAMILY, streamAt(Re), out);
      expect(Math.abs(value / before - 1), `Re ${Re}`).toBeLessThan(0.01);
      before = value;
    }
  });
});

describe('layers of a plate', () => {
  /** Even layers, one stream straight through them with even units. */
  function solve(layers: number, mL2: number, units: number, capacity = 1) {
    const heat = createLayerHeat(layers);
    // k A/L = 1; h P L = mL2 = units * capacity.
    heat.between_W_per_K.fill(layers);
    const stream = {
      count: 1,
      capacity_W_per_K: capacity,
      steps: 4 * layers,
      scale: 1,
      way: AIR_WAY.through,
      units: new Float64Array(4 * layers).fill(units / (4 * layers)),
      place: Float64Array.from({ length: 4 * layers }, (_, j) => (j + 0.5) / 4 - 0.5),
    };
    expect(units * capacity).toBeCloseTo(mL2, 9);
    startLayers(heat, 2 * layers);
    addStream(heat, stream);
    const heatFlow = solveLayers(heat, 2 * layers);
    return { heatFlow, air: capacity * streamWarming(heat, stream) };
  }

  it('are the straight fin when the air does not warm up', () => {
    for (const mL of [0.3, 1, 2.5]) {
      const { heatFlow } = solve(400, mL * mL, mL * mL * 1e-6, 1e6);
      // Fin: sqrt(h P k A) tanh(mL) = mL tanh(mL) with k A/L = 1.
      expect(heatFlow / (mL * Math.tanh(mL))).toBeCloseTo(1, 3);
    }
  });

  it('are an even wall when the solid conducts well', () => {
    const heat = createLayerHeat(10);
    heat.between_W_per_K.fill(1e9);
    const stream = {
      count: 3,
      capacity_W_per_K: 0.5,
      steps: 20,
      scale: 1,
      way: AIR_WAY.through,
      units: new Float64Array(20).fill(0.1),
      place: Float64Array.from({ length: 20 }, (_, j) => j / 2 - 0.25),
    };
    startLayers(heat, 1e9);
    addStream(heat, stream);
    expect(solveLayers(heat, 1e9) / (3 * 0.5 * (1 - Math.exp(-2)))).toBeCloseTo(1, 5);
  });

  it('give to the air what comes in at the hot face', () => {
    for (const [mL2, capacity] of [
      [0.5, 1],
      [4, 0.3],
      [30, 2],
    ]) {
      const { heatFlow, air } = solve(20, mL2, mL2 / capacity, capacity);
      expect(Math.abs(air / heatFlow - 1)).toBeLessThan(1e-9);
    }
  });

  it('take the same heat from air that runs the other way', () => {
    // Reciprocity of linear transport: the reversed stream is the adjoint problem.
    const towards = (turned: boolean): number => {
      const heat = createLayerHeat(20);
      heat.between_W_per_K.fill(20);
      const place = Float64Array.from({ length: 40 }, (_, j) => (j + 0.5) / 2 - 0.5);
      startLayers(heat, 40);
      addStream(heat, {
        count: 1,
        capacity_W_per_K: 1,
        steps: 40,
        scale: 1,
        way: AIR_WAY.through,
        units: new Float64Array(40).fill(0.05),
        place: turned ? place.toReversed() : place,
      });
      return solveLayers(heat, 40);
    };
    expect(towards(true) / towards(false)).toBeCloseTo(1, 10);
  });
});
