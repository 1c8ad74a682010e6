import { describe, expect, it } from 'vitest';
import { openingsAnalysis } from '../../../src/measures/analyses/openings.ts';
import { sightAnalysis } from '../../../src/measures/analyses/sight.ts';
import { stirringAnalysis } from '../../../src/measures/analyses/stirring.ts';
import { probeOpening } from '../../../src/measures/probe-opening.ts';
import { pressureDrop } from '../../../src/measures/pressure-drop.ts';
import { stirringIndex } from '../../../src/measures/stirring-index.ts';
import { thinnestWall } from '../../../src/measures/thinnest-wall.ts';
import { captureWhenFull } from '../../../src/measures/capture-when-full.ts';
import { diffuseLight } from '../../../src/measures/diffuse-light.ts';
import { dustCapture } from '../../../src/measures/dust-capture.ts';
import { purge } from '../../../src/measures/purge.ts';
import { soundLoss } from '../../../src/measures/sound-loss.ts';
import { thermalResistance } from '../../../src/measures/thermal-resistance.ts';
import { wallExchange } from '../../../src/measures/wall-exchange.ts';
import type { Channel, Design, Teeth } from '../../../src/design/index.ts';
import { assess } from '../../support/assessments.ts';
import { aBrief } from '../../support/briefs.ts';
import { aChannel, aDesign, aGrid } from '../../support/plates.ts';

/** Nine straight holes of 12 mm through 40 mm. */
function aPlateWith(teeth?: Teeth, changes: Partial<Channel> = {}): Design {
  return aDesign({
    plate: {
      outline: { kind: 'rectangle', width_mm: 60, height_mm: 60, cornerRadius_mm: 0 },
      thickness_mm: 40,
    },
    channels: [
      aChannel({
        points_mm: [
          [0, 0, 0],
          [0, 0, 40],
        ],
        bore_mm: [12],
        placements: aGrid(3, 16),
        ...(teeth ? { teeth } : {}),
        ...changes,
      }),
    ],
  });
}

const briefAt = (flow_m3_per_h: number) =>
  aBrief({
    'routes.teeth': true,
    'process.holeShrinkage_mm': 0,
    'air.supply': { kind: 'flow', flow_m3_per_h },
  });
const TEETH: Teeth = { height_mm: 0.48, pitch_mm: 4.8 };
// Re 2000 and 20000 in each of the nine holes: Q = 9 Re nu pi D / 4.
const SLOW = briefAt(10.2);
const FAST = briefAt(92);

describe('stirringIndex', () => {
  it('is 1 for a plate without teeth', () => {
    expect(stirringIndex.evaluate(assess(aPlateWith(), { brief: FAST }))).toBeCloseTo(1, 12);
  });

  it('lies above 1 in fast flow, below 1 in slow flow', () => {
    const design = aPlateWith(TEETH);
    const fast = stirringIndex.evaluate(assess(design, { brief: FAST }));
    const slow = stirringIndex.evaluate(assess(design, { brief: SLOW }));
    // The tested ribs of e/D 0.04, p/e 10 gain 1.34 to 1.42; the plain ends take a tenth of that.
    expect(fast).toBeGreaterThan(1.2);
    expect(fast).toBeLessThan(1.42);
    expect(slow).toBeLessThan(1);
  });

  it('says where teeth leave the tests, and nothing where they do not', () => {
    expect(stirringIndex.outside?.(assess(aPlateWith(TEETH), { brief: FAST }))).toBeNull();
    const slow = stirringIndex.outside?.(assess(aPlateWith(TEETH), { brief: SLOW }));
    expect(slow).toContain('laminar');
    const high = aPlateWith({ height_mm: 1.2, pitch_mm: 6 });
    expect(stirringIndex.outside?.(assess(high, { brief: FAST }))).toContain('height over bore');
    expect(pressureDrop.outside?.(assess(high, { brief: FAST }))).toContain('height over bore');
  });

  it('is there for briefs that allow teeth or name it', () => {
    expect(stirringIndex.unavailable?.(FAST)).toBeNull();
    expect(stirringIndex.unavailable?.(aBrief())).toContain('routes.teeth');
    expect(wallExchange.unavailable?.(aBrief())).toContain('on demand');
    const named = aBrief({ 'goals.objectives': ['stirringIndex', 'wallExchange'] });
    expect(stirringIndex.unavailable?.(named)).toBeNull();
    expect(wallExchange.unavailable?.(named)).toBeNull();
  });
});

describe('teeth in other measures', () => {
  it('raise the pressure drop and the wall exchange in fast flow, with their height', () => {
    let drop = 0;
    let exchange = 0;
    for (const height_mm of [0, 0.1, 0.2, 0.3, 0.4, 0.48]) {
      const teeth = height_mm > 0 ? { height_mm, pitch_mm: 10 * height_mm } : undefined;
      const assessment = assess(aPlateWith(teeth), { brief: FAST });
      const next = pressureDrop.evaluate(assessment);
      const more = wallExchange.evaluate(assessment);
      expect(next).toBeGreaterThan(drop);
      expect(more).toBeGreaterThan(exchange);
      drop = next;
      exchange = more;
    }
  });

  it('leave both as they are when their height goes to nothing', () => {
    const plain = assess(aPlateWith(), { brief: FAST });
    const faint = assess(aPlateWith({ height_mm: 0.011, pitch_mm: 40 }), { brief: FAST });
    const drop = pressureDrop.evaluate(faint) / pressureDrop.evaluate(plain);
    expect(Math.abs(drop - 1)).toBeLessThan(0.02);
    const heat = wallExchange.evaluate(faint) / wallExchange.evaluate(plain);
    expect(Math.abs(heat - 1)).toBeLessThan(0.02);
  });

  it('only cost pressure in slow flow', () => {
    const plain = assess(aPlateWith(), { brief: SLOW });
    const toothed = assess(aPlateWith(TEETH), { brief: SLOW });
    expect(pressureDrop.evaluate(toothed)).toBeGreaterThan(pressureDrop.evaluate(plain));
    expect(wallExchange.evaluate(toothed)).toBeCloseTo(wallExchange.evaluate(plain), 12);
    expect(toothed.get(stirringAnalysis).heat).toBe(1);
  });

  it('narrow the largest opening by twice their height and leave the walls alone', () => {
    const plain = assess(aPlateWith(), { brief: FAST });
    const toothed = assess(aPlateWith(TEETH), { brief: FAST });
    expect(probeOpening.evaluate(plain) - probeOpening.evaluate(toothed)).toBeCloseTo(0.96, 9);
    expect(thinnestWall.evaluate(toothed)).toBe(thinnestWall.evaluate(plain));
    // A straight beam between two faces: as wide as the tips leave it.
    const beam = (of: typeof plain): number => of.get(sightAnalysis).worst_mm;
    expect(beam(plain)).toBeCloseTo(6, 2);
    expect(beam(toothed)).toBeCloseTo(6 - 0.48, 2);
    const [open, shut] = [plain, toothed].map((each) => each.get(openingsAnalysis).openArea);
    expect(shut / open).toBeCloseTo((1 - 0.08) * (1 - 0.08), 9);
  });
});

describe('measures that leave teeth out', () => {
  const heat = { source: { kind: 'load', heat_W: 5 }, material: 'aluminium' };
  const brief = aBrief({ heat, 'routes.teeth': true });
  const plain = assess(aPlateWith(), { brief });
  const toothed = assess(aPlateWith({ height_mm: 0.5, pitch_mm: 5 }), { brief });

  it.each([dustCapture, captureWhenFull, purge, diffuseLight, soundLoss, thermalResistance])(
    '$id says so of a plate with teeth, and only of one',
    (measure) => {
      expect(measure.outside?.(toothed) ?? '').toMatch(/teeth/);
      expect(measure.outside?.(plain) ?? '').not.toMatch(/teeth/);
    },
  );
});
