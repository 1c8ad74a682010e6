import { describe, expect, it } from 'vitest';
import { flowAnalysis } from '../../../src/measures/analyses/flow.ts';
import { designFlow_m3_per_s } from '../../../src/measures/analyses/supply.ts';
import { channelVelocity } from '../../../src/measures/channel-velocity.ts';
import { flowEvenness } from '../../../src/measures/flow-evenness.ts';
import { operatingFlow } from '../../../src/measures/operating-flow.ts';
import { pressureDrop } from '../../../src/measures/pressure-drop.ts';
import { reynolds } from '../../../src/measures/reynolds.ts';
import type { Channel } from '../../../src/design/index.ts';
import { assess } from '../../support/assessments.ts';
import { aBrief } from '../../support/briefs.ts';
import { aChannel, aDesign, aPlacement } from '../../support/plates.ts';

/** Straight holes of some bores, one standing each, far apart. */
function holes(bores: readonly number[], changes: Partial<Channel> = {}): Channel[] {
  return bores.map((bore, i) =>
    aChannel({
      bore_mm: [bore],
      placements: [aPlacement({ x_mm: 10 * i - 20 })],
      ...changes,
    }),
  );
}

function briefAt(flow_m3_per_h: number, changes: Readonly<Record<string, unknown>> = {}) {
  return aBrief({ 'air.supply': { kind: 'flow', flow_m3_per_h }, ...changes });
}

// INVENTED fan.
const FAN = {
  kind: 'fan',
  curve: [
    { flow_m3_per_h: 0, pressure_Pa: 40 },
    { flow_m3_per_h: 10, pressure_Pa: 25 },
    { flow_m3_per_h: 20, pressure_Pa: 0 },
  ],
};

describe('flowAnalysis', () => {
  it('gives velocity and Reynolds number of the printed bore by continuity', () => {
    const at = assess(aDesign({ channels: holes([5, 5, 5, 5]) }), { brief: briefAt(1) });
    const flow = at.get(flowAnalysis);
    // 5 mm drawn, 4.8 mm printed with the default shrinkage of 0.2 mm; a quarter of 1 m3/h each.
    const U = 1 / 3600 / 4 / (Math.PI * 2.4e-3 * 2.4e-3);
    expect(flow.shapeVelocity_m_per_s[0] / U).toBeCloseTo(1, 4);
    expect(channelVelocity.evaluate(at) / U).toBeCloseTo(1, 4);
    const Re = (U * 4.8e-3) / flow.air.kinematicViscosity_m2_per_s;
    expect(reynolds.evaluate(at) / Re).toBeCloseTo(1, 4);
    expect(flowEvenness.evaluate(at)).toBeCloseTo(1, 9);
  });

  it('lets all flow through and puts the same pressure on every shape', () => {
    const at = assess(aDesign({ channels: holes([3, 4, 5, 6]) }), { brief: briefAt(2) });
    const flow = at.get(flowAnalysis);
    const sum = flow.shapeFlow_m3_per_s.reduce((a, b) => a + b, 0);
    expect(sum * 3600).toBeCloseTo(2, 5);
    for (let m = 0; m < 4; m += 1) {
      const parts = flow.breakdown(m);
      const total = parts.friction_Pa + parts.ends_Pa + parts.curvature_Pa + parts.areaChanges_Pa;
      expect(total / flow.pressureDrop_Pa).toBeCloseTo(1, 4);
    }
    expect(flowEvenness.evaluate(at)).toBeLessThan(1);
  });

  it('counts standings: one shape in four places is four channels', () => {
    const places = [-20, -10, 0, 10].map((x_mm) => aPlacement({ x_mm }));
    const one = assess(aDesign({ channels: [aChannel({ placements: places })] }), {
      brief: briefAt(1),
    });
    const four = assess(aDesign({ channels: holes([5, 5, 5, 5]) }), { brief: briefAt(1) });
    expect(pressureDrop.evaluate(one) / pressureDrop.evaluate(four)).toBeCloseTo(1, 6);
  });

  it('does not depend on how the plate is turned or mirrored', () => {
    const bent: Channel = aChannel({
      points_mm: [
        [0, 0, 0],
        [4, 1, 8],
        [1, 4, 14],
        [3, 3, 20],
      ],
    });
    const turned = [0, 37, 90, 200].map((turn_deg) => {
      const placements = [aPlacement({ turn_deg, mirrored: turn_deg === 90 })];
      return pressureDrop.evaluate(assess({ ...bent, placements }, { brief: briefAt(0.3) }));
    });
    for (const dp of turned) expect(dp / turned[0]).toBeCloseTo(1, 9);
  });

  it('finds the point where fan and plate agree', () => {
    const brief = aBrief({ 'air.supply': FAN });
    const at = assess(aDesign({ channels: holes([8, 8, 8, 8]) }), { brief });
    const flow = at.get(flowAnalysis);
    const Q = operatingFlow.evaluate(at);
    const p = flow.operatingPressure_Pa ?? Number.NaN;
    const scale = flow.air.density_kg_per_m3 / 1.2;
    const fan = (Q <= 10 ? 40 - 1.5 * Q : 50 - 2.5 * Q) * scale;
    expect(p / fan).toBeCloseTo(1, 4);
    // A plate asked for exactly that flow needs exactly that pressure.
    const fixed = assess(aDesign({ channels: holes([8, 8, 8, 8]) }), { brief: briefAt(Q) });
    expect(pressureDrop.evaluate(fixed) / p).toBeCloseTo(1, 4);
  });

  it('quotes the pressure drop at 60 % of free flow unless told', () => {
    expect(designFlow_m3_per_s(aBrief({ 'air.supply': FAN })) * 3600).toBeCloseTo(12, 9);
    const told = aBrief({ 'air.supply': { ...FAN, designFlow_m3_per_h: 7 } });
    expect(designFlow_m3_per_s(told) * 3600).toBeCloseTo(7, 9);
  });

  it('says why there is no operating point without a fan', () => {
    const at = assess(aChannel(), { brief: briefAt(1) });
    expect(operatingFlow.evaluate(at)).toBeNaN();
    expect(operatingFlow.unavailable?.(at.brief)).toContain('needs a fan');
    expect(operatingFlow.unavailable?.(aBrief({ 'air.supply': FAN }))).toBeNull();
  });

  it('says where the estimate is doubtful', () => {
    const calm = assess(aChannel(), { brief: briefAt(0.2) });
    expect(pressureDrop.outside?.(calm)).toBeNull();
    // 5 mm drawn, 4.8 printed: Re 3000 is 0.64 m3/h.
    const passing = assess(aChannel(), { brief: briefAt(0.64) });
    expect(pressureDrop.outside?.(passing)).toContain('between Re 2300 and 4000');
    expect(reynolds.outside?.(passing)).toContain('cannot be told');
    const storm = assess(aChannel(), { brief: briefAt(4) });
    expect(pressureDrop.outside?.(storm)).toContain('above 1000 Pa');
  });

  it('works on long plates with hundreds of unlike channels', () => {
    const bores = Array.from({ length: 200 }, (_, i) => 2 + (i % 37) / 9);
    const at = assess(aDesign({ channels: holes(bores) }), { brief: briefAt(60) });
    const flow = at.get(flowAnalysis);
    expect(flow.shapeFlow_m3_per_s.reduce((a, b) => a + b, 0) * 3600).toBeCloseTo(60, 3);
    for (const Q of flow.shapeFlow_m3_per_s) expect(Q).toBeGreaterThan(0);
  });
});
