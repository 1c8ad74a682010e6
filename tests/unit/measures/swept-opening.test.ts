import { describe, expect, it } from 'vitest';
import { flowAnalysis } from '../../../src/measures/analyses/flow.ts';
import { flowEvenness } from '../../../src/measures/flow-evenness.ts';
import { operatingFlow } from '../../../src/measures/operating-flow.ts';
import { outletUniformity } from '../../../src/measures/outlet-uniformity.ts';
import { pressureDrop } from '../../../src/measures/pressure-drop.ts';
import { sweptOpening } from '../../../src/measures/swept-opening.ts';
import { assess } from '../../support/assessments.ts';
import { aBrief } from '../../support/briefs.ts';
import { aChannel, aDesign, aPlacement } from '../../support/plates.ts';

// INVENTED fan.
const curve = [
  { flow_m3_per_h: 0, pressure_Pa: 40 },
  { flow_m3_per_h: 10, pressure_Pa: 20 },
  { flow_m3_per_h: 20, pressure_Pa: 0 },
];
const fan = (changes: object) => aBrief({ 'air.supply': { kind: 'fan', curve, ...changes } });

describe('sweptOpening', () => {
  const at = (places: readonly (readonly [number, number])[]) =>
    assess(
      aDesign({
        channels: [
          aChannel({ placements: places.map(([x_mm, y_mm]) => aPlacement({ x_mm, y_mm })) }),
        ],
      }),
      { brief: fan({ swept: { diameter_mm: 60, hub_mm: 20 } }) },
    );

  it('counts ports under the blades, not under the hub nor in the corners', () => {
    const share = sweptOpening.evaluate(
      at([
        [0, 0],
        [20, 0],
        [0, -20],
        [34, 0],
      ]),
    );
    expect(share).toBe(0.5);
  });

  it('halves a port that the edge of the ring halves', () => {
    // Two circles of 2.5 and 30 mm, one centred on the other's edge: the lens is 0.491 of the small one.
    expect(Math.abs(sweptOpening.evaluate(at([[30, 0]])) - 0.491)).toBeLessThan(0.03);
  });

  it('flags plates with much of their opening in the shadow', () => {
    expect(
      sweptOpening.outside?.(
        at([
          [0, 0],
          [20, 0],
        ]),
      ),
    ).toMatch(/50 %/);
    expect(sweptOpening.outside?.(at([[20, 0]]))).toBeNull();
  });

  it('is not to be had without the ring', () => {
    expect(sweptOpening.unavailable?.(fan({}))).toMatch(/swept/);
  });
});

describe('the flow under a fan with a known ring', () => {
  const channels = [
    aChannel({
      bore_mm: [16],
      placements: [aPlacement({ x_mm: 20 }), aPlacement({ y_mm: -20 }), aPlacement()],
    }),
  ];
  const supply = { designFlow_m3_per_h: 6 };
  const plain = assess(aDesign({ channels }), { brief: fan(supply) });
  const shaded = assess(aDesign({ channels }), {
    brief: fan({ ...supply, swept: { diameter_mm: 60, hub_mm: 20 } }),
  });

  it('gives the port before the hub less, and keeps the sum', () => {
    const flow = shaded.get(flowAnalysis).channelFlow_m3_per_s ?? new Float64Array(3);
    expect(flow[2]).toBeLessThan(0.99 * flow[0]);
    expect(flow[0]).toBeCloseTo(flow[1], 12);
    expect(3600 * (flow[0] + flow[1] + flow[2])).toBeCloseTo(6, 6);
    expect(flowEvenness.evaluate(shaded)).toBeCloseTo(flow[2] / flow[0], 6);
    expect(outletUniformity.evaluate(shaded)).toBeLessThan(1);
  });

  it('loses a little more pressure than a plate reached evenly', () => {
    expect(pressureDrop.evaluate(shaded)).toBeGreaterThan(pressureDrop.evaluate(plain));
  });

  it('is that of an even plate where every port lies under the blades', () => {
    const all = { brief: fan({ ...supply, swept: { diameter_mm: 70, hub_mm: 0 } }) };
    const lit = assess(aDesign({ channels }), all);
    expect(lit.get(flowAnalysis).channelFlow_m3_per_s).toBeNull();
    expect(pressureDrop.evaluate(lit)).toBe(pressureDrop.evaluate(plain));
  });
});

describe('a fan at another speed', () => {
  it('meets a plate of square law at flow in proportion to speed (fan laws)', () => {
    // Turbulent flow through one wide short hole is close to a square law.
    const hole = aChannel({ bore_mm: [30] });
    const full = assess(hole, { brief: fan({ designFlow_m3_per_h: 10 }) });
    const slow = assess(hole, { brief: fan({ speedShare: 0.7, designFlow_m3_per_h: 7 }) });
    const ratio = operatingFlow.evaluate(slow) / operatingFlow.evaluate(full);
    expect(ratio / 0.7).toBeCloseTo(1, 1);
    const pressures = pressureDrop.evaluate(slow) / pressureDrop.evaluate(full);
    expect(pressures / 0.49).toBeCloseTo(1, 1);
  });
});
