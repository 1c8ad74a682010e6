/** Air through side exits and manifolds. */
import { describe, expect, it } from 'vitest';
import type { Design } from '../../../src/design/index.ts';
import { plenumRadii } from '../../../src/design/index.ts';
import { flowAnalysis } from '../../../src/measures/analyses/flow.ts';
import { createPlenumFlow } from '../../../src/measures/analyses/plenum-flow.ts';
import { sectorAnalysis } from '../../../src/measures/analyses/sectors.ts';
import { findMeasure } from '../../../src/measures/index.ts';
import { roomAir } from '../../../src/physics/index.ts';
import { assess } from '../../support/assessments.ts';
import { aBrief } from '../../support/briefs.ts';
import { samplesOf } from '../../support/plates.ts';
import { A_RING, aManifold, aSidePlate } from '../../support/side-plates.ts';

const brief = aBrief({ 'air.route': { kind: 'side', merge: 'any' }, 'plate.thickness_mm': 18 });

describe('flow through side exits', () => {
  it('splits evenly between channels that are alike but for their turn', () => {
    const flow = assess(aSidePlate(8), { brief }).get(flowAnalysis);
    const [first] = flow.shapeFlow_m3_per_s;
    for (const q of flow.shapeFlow_m3_per_s) expect(q / first).toBeCloseTo(1, 9);
    expect(8 * first).toBeCloseTo(flow.designFlow_m3_per_s, 9);
  });

  it('costs the same inwards as outwards but for the inlet, which is square to its surface', () => {
    const outward = aSidePlate(6);
    const [bend] = outward.channels;
    const inward: Design = {
      ...outward,
      channels: [
        {
          ...bend,
          points_mm: bend.points_mm.toReversed().map(([x, y, z]) => [x, y, 18 - z] as const),
          inletDirection: [-1, 0, 0],
          outletDirection: [0, 0, 1],
          inlet: 'rim',
          outlet: 'face',
        },
      ],
    };
    const out = assess(outward, { brief }).get(flowAnalysis).pressureDrop_Pa;
    const back = assess(inward, { brief }).get(flowAnalysis).pressureDrop_Pa;
    expect(Math.abs(back / out - 1)).toBeLessThan(0.1);
  });
});

describe('flow through a ring manifold', () => {
  /** Two stand-in channels with a closed form: dp = k Q^2, in and out. */
  const square =
    (into: number, outOf: number, inlets: number) =>
    (branch: number, q: number, out: Float64Array): void => {
      const k = branch < inlets ? into : outOf;
      out[0] = k * q * q;
      out[1] = 2 * out[0];
    };

  it('is two banks in series where the ring is wide: dp = k1 (Q/n1)^2 + k2 (Q/n2)^2', () => {
    const samples = samplesOf(aManifold(12, 6));
    const flow = createPlenumFlow(samples, A_RING, roomAir(20, 0), square(1e9, 4e9, 12));
    const Q = 0.004;
    const drop = flow.solve(Q);
    const series = 1e9 * (Q / 12) * (Q / 12) + 4e9 * (Q / 6) * (Q / 6);
    // The ring's own friction is some thousandths of it.
    expect(drop / series).toBeGreaterThan(1);
    expect(drop / series).toBeLessThan(1.01);
    expect(flow.imbalance()).toBeLessThan(1e-9);
    // All losses are quadratic: Q d(drop)/dQ = 2 drop.
    expect(flow.slope_Pa() / drop).toBeCloseTo(2, 1);
  });

  it('starves the far side where all inlets stand on one side of a narrow ring', () => {
    const design = aManifold(12, 12);
    const [inlet, exit] = design.channels;
    const near = { ...inlet, placements: inlet.placements.slice(0, 2) };
    const narrow = { ...A_RING, innerRadius_mm: 24, floor_mm: 2, eaves_mm: 6, top_mm: 7 };
    const moved = { ...near, points_mm: [[25, 0, 0], [25, 0, 2]] as const }; // prettier-ignore
    const tight: Design = { ...design, channels: [moved, exit], plenum: narrow };
    const assessment = assess(tight, { brief });
    const { evenness, flow_m3_per_s } = assessment.get(sectorAnalysis);
    expect(evenness).toBeLessThan(0.8);
    // Inlets stand at 0 and 30 degrees: the least flow leaves on the other side of the plate.
    const least = flow_m3_per_s.indexOf(Math.min(...flow_m3_per_s));
    expect([4, 5]).toContain(least);
    const even = assess(design, { brief }).get(sectorAnalysis);
    expect(even.evenness).toBeGreaterThan(0.85);
    let total = 0;
    for (const q of flow_m3_per_s) total += q;
    expect(total).toBeCloseTo(assessment.get(flowAnalysis).designFlow_m3_per_s, 12);
  });

  it('balances to 1e-9 with the real losses of its channels, and rises with the flow', () => {
    const design = aManifold(9, 5);
    const drops = [5, 10, 20].map((flow_m3_per_h) => {
      const asked = aBrief({
        'air.route': { kind: 'side', merge: 'plenum' },
        'air.supply': { kind: 'flow', flow_m3_per_h },
      });
      const assessment = assess(design, { brief: asked });
      const { shapeFlow_m3_per_s: q, designFlow_m3_per_s: total } = assessment.get(flowAnalysis);
      let into = 0;
      let outOf = 0;
      q.forEach((flow, m) => (m < 9 ? (into += flow) : (outOf += flow)));
      expect(Math.abs(into / total - 1)).toBeLessThan(1e-9);
      expect(Math.abs(outOf / total - 1)).toBeLessThan(1e-9);
      return assessment.get(flowAnalysis).pressureDrop_Pa;
    });
    expect(drops[1]).toBeGreaterThan(2 * drops[0]);
    expect(drops[2]).toBeGreaterThan(2 * drops[1]);
  });

  it('meets a fan where its curve gives what the network asks', () => {
    const curve = [
      { flow_m3_per_h: 0, pressure_Pa: 80 },
      { flow_m3_per_h: 40, pressure_Pa: 0 },
    ];
    const asked = aBrief({
      'air.route': { kind: 'side', merge: 'plenum' },
      'air.supply': { kind: 'fan', curve },
    });
    const at = assess(aManifold(), { brief: asked, exact: true }).get(flowAnalysis);
    const Q = at.operatingFlow_m3_per_h ?? 0;
    // Fan curves hold for air of 1.2 kg/m3 (common practice) and go with the density.
    const dense = at.air.density_kg_per_m3 / 1.2;
    expect(at.operatingPressure_Pa).toBeCloseTo(dense * (80 - 2 * Q), 6);
    const again = aBrief({
      'air.route': { kind: 'side', merge: 'plenum' },
      'air.supply': { kind: 'flow', flow_m3_per_h: Q },
    });
    const asKnown = assess(aManifold(), { brief: again, exact: true }).get(flowAnalysis);
    expect(asKnown.pressureDrop_Pa / (at.operatingPressure_Pa ?? 1)).toBeCloseTo(1, 3);
  });
});

describe('sectorEvenness', () => {
  const measure = findMeasure('sectorEvenness');

  it('is 1 for exits all around, 0 where a part of the rim has none', () => {
    expect(measure?.evaluate(assess(aSidePlate(8), { brief }))).toBeCloseTo(1, 9);
    expect(measure?.evaluate(assess(aSidePlate(16), { brief }))).toBeCloseTo(1, 9);
    expect(measure?.evaluate(assess(aSidePlate(3), { brief }))).toBe(0);
  });

  it('looks at the chosen sectors only', () => {
    const sectors = [
      { from_deg: -20, to_deg: 20 },
      { from_deg: 160, to_deg: 200 },
    ];
    const chosen = aBrief({ 'air.route': { kind: 'side', sectors }, 'plate.thickness_mm': 18 });
    expect(measure?.evaluate(assess(aSidePlate(2), { brief: chosen }))).toBeCloseTo(1, 9);
  });

  it('is not for a brief whose air goes through', () => {
    expect(measure?.unavailable?.(aBrief())).toMatch(/side exits/);
    expect(measure?.unavailable?.(brief)).toBeNull();
  });
});

describe('plenumRadii()', () => {
  it('closes towards the ridge', () => {
    const out = new Float64Array(2);
    expect(plenumRadii(A_RING, 9, out)).toBe(true);
    expect([...out]).toEqual([16, 24]);
    expect(plenumRadii(A_RING, 12.5, out)).toBe(false);
  });
});
