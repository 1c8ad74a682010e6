/** Heat measures on plates whose answers are known: limits of fins and exchangers, and balances. */
import { describe, expect, it } from 'vitest';
import { conductPlate } from '../../../src/measures/analyses/conduction.ts';
import { heatAnalysis } from '../../../src/measures/analyses/heat.ts';
import { layPlate } from '../../../src/measures/analyses/heat-plate.ts';
import { plateStreams } from '../../../src/measures/analyses/heat-stream.ts';
import type { PlateStreams } from '../../../src/measures/analyses/heat-stream.ts';
import { findMeasure } from '../../../src/measures/index.ts';
import { finEfficiency, finParameter, roundNusselt } from '../../../src/physics/index.ts';
import type { Assessment } from '../../../src/measures/index.ts';
import type { BriefInput } from '../../../src/brief/index.ts';
import type { Channel, Plate } from '../../../src/design/index.ts';
import { assess } from '../../support/assessments.ts';
import { aBrief, aChannel, aDesign, aGrid, anSBend } from '../../support/plates.ts';

type Heat = NonNullable<BriefInput['heat']>;

const SQUARE: Partial<Plate> = {
  outline: { kind: 'rectangle', width_mm: 36, height_mm: 36, cornerRadius_mm: 0 },
};
/** 36 bores of 4 mm on a pitch of 6 mm: the whole plate is channel cells. */
const CELLS = aChannel({ bore_mm: [4], placements: aGrid(6, 6) });

function plateAt(
  heat: Partial<Heat>,
  options: { flow?: number; channel?: Channel; exact?: boolean; plate?: Partial<Plate> } = {},
): Assessment {
  const { flow = 10, channel = CELLS, exact = false, plate = SQUARE } = options;
  const brief = aBrief({
    air: { supply: { kind: 'flow', flow_m3_per_h: flow } },
    heat: { source: { kind: 'load', heat_W: 5 }, conductivity_W_per_mK: 100, ...heat },
    process: { holeShrinkage_mm: 0 },
  });
  return assess(aDesign({ plate, channels: [channel] }), {
    brief,
    exact,
    stations: exact ? 64 : 32,
  });
}

function read(id: string, at: Assessment): number {
  const measure = findMeasure(id);
  if (measure === null) throw new Error(`no measure ${id}`);
  return measure.evaluate(at);
}

/** Streams of a plate with even transfer along every channel and air that hardly warms up. */
function evenStreams(at: Assessment, h_W_per_m2_K: number, capacity_W_per_K: number): PlateStreams {
  const streams = plateStreams(at);
  const steps = at.samples.stations - 1;
  const wetted_m2 = (at.samples.perimeter_mm[0] * at.samples.length_mm[0] * 1e-6) / steps;
  streams.units.fill((h_W_per_m2_K * wetted_m2) / capacity_W_per_K);
  streams.capacity_W_per_K.fill(capacity_W_per_K);
  return streams;
}

/** The straight fin: cell of 6 x 6 mm less the bore, 20 mm deep. */
function finConductance(h: number, k: number): number {
  const area = 36e-6 - Math.PI * 4e-6;
  const girth = Math.PI * 4e-3;
  const mL = 0.02 * finParameter(h, girth, k, area);
  return 36 * h * girth * 0.02 * finEfficiency(mL);
}

describe('heat in a plate of channel cells', () => {
  it.each([
    [20, 400],
    [60, 200],
    [60, 20],
    [150, 10],
  ])('is the straight fin in both forms where air does not warm up, h %d k %d', (h, k) => {
    const at = plateAt({}, { exact: true });
    const streams = evenStreams(at, h, 1e6);
    const fin = finConductance(h, k);
    const laid = layPlate(at.samples, streams, false, k, 0);
    expect(Math.abs(laid.conductance_W_per_K / fin - 1)).toBeLessThan(0.01);
    const solved = conductPlate(at.samples, streams, false, k, 0, laid.layerShare);
    expect(Math.abs(solved.conductance_W_per_K / fin - 1)).toBeLessThan(0.015);
  });

  it('tends to one over joint and exchanger where the solid conducts well', () => {
    const at = plateAt({}, { exact: true });
    const streams = evenStreams(at, 50, 0.01);
    const NTU = (50 * Math.PI * 4e-3 * 0.02) / 0.01;
    const exchanger = 36 * 0.01 * (1 - Math.exp(-NTU));
    const laid = layPlate(at.samples, streams, true, 1e6, 0);
    expect(laid.conductance_W_per_K / exchanger).toBeCloseTo(1, 4);
    const solved = conductPlate(at.samples, streams, true, 1e6, 0, laid.layerShare);
    expect(solved.conductance_W_per_K / exchanger).toBeCloseTo(1, 4);
    // A joint of 1000 mm2 K/W over the solid of the face stands in series.
    const face_m2 = 36 * (36e-6 - Math.PI * 4e-6);
    const series = 1 / (1 / exchanger + 1e-3 / face_m2);
    const joined = conductPlate(at.samples, streams, true, 1e6, 1e-3, laid.layerShare);
    expect(Math.abs(joined.conductance_W_per_K / series - 1)).toBeLessThan(0.01);
    expect(Math.abs(joined.faceShare - series / exchanger)).toBeLessThan(0.01);
  });

  it('gives to the air what leaves the hot body, to 1e-6', () => {
    for (const [k, channel] of [
      [0.2, CELLS],
      [4, anSBend({ bore_mm: [3], placements: aGrid(4, 8) })],
      [200, aChannel({ bore_mm: [5], placements: aGrid(3, 9) })],
    ] as const) {
      const at = plateAt({}, { exact: true, channel });
      const streams = plateStreams(at);
      const { imbalance } = conductPlate(at.samples, streams, false, k, 3e-5, () => 0.5);
      expect(Math.abs(imbalance)).toBeLessThan(1e-6);
    }
  });

  it('converges as the grid is refined', () => {
    for (const [k, tolerance] of [
      [0.3, 0.04],
      [5, 0.01],
      [150, 0.003],
    ]) {
      const channel = anSBend({ bore_mm: [4], placements: aGrid(4, 8) });
      const at = plateAt({}, { exact: true, channel });
      const streams = plateStreams(at);
      const solve = (cells: number): number =>
        conductPlate(at.samples, streams, false, k, 3e-5, () => 0.5, cells).conductance_W_per_K;
      const [coarse, middle, fine] = [6_000, 50_000, 250_000].map(solve);
      expect(Math.abs(middle / fine - 1), `k ${k}`).toBeLessThan(tolerance);
      expect(Math.abs(middle / fine - 1)).toBeLessThan(Math.abs(coarse / fine - 1));
    }
  });

  it('does not care which way the plate is turned in its plane', () => {
    const bend = (turn_deg: number): Channel =>
      anSBend({
        bore_mm: [4],
        placements: aGrid(4, 8).map((place) => ({ ...place, turn_deg })),
      });
    const values = [0, 90, 180].map((turn) =>
      read('thermalResistance_K_per_W', plateAt({}, { exact: true, channel: bend(turn) })),
    );
    expect(values[1] / values[0]).toBeCloseTo(1, 2);
    expect(values[2] / values[0]).toBeCloseTo(1, 2);
  });
});

describe('measures of heat', () => {
  it('thermal resistance, load and temperatures agree with each other', () => {
    const at = plateAt({ contactResistance_mm2K_per_W: 0 });
    const R = read('thermalResistance_K_per_W', at);
    // Without a joint the plate is as hot as the body: air at 20 C and 5 W.
    expect(read('hotFaceTemperature_C', at)).toBeCloseTo(20 + 5 * R, 9);
    const held = plateAt({
      source: { kind: 'face', temperature_C: 20 + 5 * R },
      contactResistance_mm2K_per_W: 0,
    });
    expect(read('heatRemoved_W', held)).toBeCloseTo(5, 9);
    // 5 W into 10 m3/h of air of 1.2041 kg/m3 and 1006 J/(kg K).
    expect(read('airTemperatureRise_K', at)).toBeCloseTo(5 / ((1.2041 * 1006 * 10) / 3600), 3);
  });

  it.each([false, true])('resistance falls with conductivity, flow and area, exact %s', (exact) => {
    const R = (heat: Partial<Heat>, flow = 10, channel = CELLS): number =>
      read('thermalResistance_K_per_W', plateAt(heat, { exact, flow, channel }));
    expect(R({ conductivity_W_per_mK: 1 })).toBeGreaterThan(R({ conductivity_W_per_mK: 10 }));
    expect(R({}, 5)).toBeGreaterThan(R({}, 20));
    const fewer = aChannel({ bore_mm: [4], placements: aGrid(6, 6).slice(0, 18) });
    expect(R({}, 10, fewer)).toBeGreaterThan(R({}, 10));
    expect(R({ contactResistance_mm2K_per_W: 500 })).toBeGreaterThan(R({}));
  });

  it('a plastic plate uses little of its wall, a metal one most', () => {
    const share = (material: 'pla' | 'aluminium'): number =>
      read('wallHeatShare', plateAt({ material, conductivity_W_per_mK: undefined }));
    expect(share('pla')).toBeLessThan(0.25);
    expect(share('aluminium')).toBeGreaterThan(0.8);
  });

  it('long narrow bores with little air reach the developed Nusselt number', () => {
    const channel = aChannel({
      bore_mm: [1],
      points_mm: [
        [0, 0, 0],
        [0, 0, 60],
      ],
      placements: aGrid(10, 3),
    });
    const at = plateAt({}, { flow: 0.3, channel, plate: { ...SQUARE, thickness_mm: 60 } });
    const { nusselt, reynolds } = at.get(heatAnalysis).streams;
    expect(reynolds[0]).toBeLessThan(100);
    expect(nusselt[0] / roundNusselt('temperature')).toBeGreaterThan(1);
    expect(nusselt[0] / roundNusselt('temperature')).toBeLessThan(1.15);
  });

  it('layers and solved conduction agree within 15 %', () => {
    const channels = [
      CELLS,
      aChannel({ bore_mm: [3], placements: aGrid(6, 5.5) }),
      aChannel({ bore_mm: [6], placements: aGrid(4, 8.5) }),
      anSBend({ bore_mm: [3], placements: aGrid(4, 8) }),
    ];
    for (const k of [0.2, 3, 100]) {
      const both = channels.map((channel) =>
        [false, true].map((exact) =>
          read(
            'thermalResistance_K_per_W',
            plateAt({ conductivity_W_per_mK: k }, { exact, channel }),
          ),
        ),
      );
      for (const [fast, exact] of both) {
        expect(Math.abs(fast / exact - 1), `k ${k}`).toBeLessThan(0.15);
      }
    }
  });

  it('says nothing without a heat section, and why', () => {
    const brief = aBrief();
    for (const id of ['thermalResistance_K_per_W', 'heatRemoved_W', 'wallHeatShare']) {
      expect(findMeasure(id)?.unavailable?.(brief)).toContain('heat section');
    }
    expect(findMeasure('heatRemoved_W')?.unavailable?.(plateAt({}).brief)).toContain('"face"');
  });

  it('flags a plate above its service temperature, air in passage and a far too hot body', () => {
    const outside = (at: Assessment): string =>
      findMeasure('hotFaceTemperature_C')?.outside?.(at) ?? '';
    const hot = plateAt({
      material: 'pla',
      source: { kind: 'face', temperature_C: 95 },
      conductivity_W_per_mK: undefined,
    });
    expect(outside(hot)).toContain('above its service temperature of 50 C');
    expect(outside(hot)).toContain('75 K above the incoming air');
    // 36 bores of 4 mm: Re = 4 Q/(pi D nu) per bore.
    const passing = plateAt({}, { flow: 18.5 });
    expect(passing.get(heatAnalysis).streams.reynolds[0]).toBeGreaterThan(2300);
    expect(outside(plateAt({}, { flow: 60 }))).not.toContain('between Re');
    expect(outside(passing)).toContain('between Re 2300 and 4000');
  });
});
