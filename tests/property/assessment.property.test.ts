/** What no measure may depend on: how the plate is turned, mirrored, or how finely it is sampled. */
import { describe, expect, it } from 'vitest';
import { createGenome } from '../../src/genome/index.ts';
import { MEASURES, createAssessment } from '../../src/measures/index.ts';
import { sampleDesign } from '../../src/design/index.ts';
import type { Design } from '../../src/design/index.ts';
import type { Brief } from '../../src/brief/index.ts';
import { checkBrief } from '../../src/engine/index.ts';
import { briefWith } from '../support/briefs.ts';

/** A square plate: a quarter turn maps it onto itself. */
const brief = checkBrief(
  briefWith({
    'plate.outline': { kind: 'rectangle', width_mm: 44, height_mm: 44, cornerRadius_mm: 3 },
    'plate.thickness_mm': 12,
    'plate.mounting': { kind: 'frame', frame_mm: 40 },
    strength: {},
    'air.supply': {
      kind: 'fan',
      curve: [
        { flow_m3_per_h: 0, pressure_Pa: 30 },
        { flow_m3_per_h: 12, pressure_Pa: 0 },
      ],
    },
  }),
);

const designs: readonly (readonly [string, Design])[] = createGenome(brief).starts.map((start) => {
  const decoded = createGenome(brief).decode(start.row, 0);
  if (!decoded.ok) throw new Error(`${start.label}: ${decoded.reason}`);
  return [start.label, decoded.design];
});

/** Measures that this brief can have. */
const READ = MEASURES.filter((measure) => (measure.unavailable?.(brief) ?? null) === null);

function readingsOf(of: Brief, design: Design, stations: number, exact: boolean): number[] {
  const assessment = createAssessment(of, design, sampleDesign(design, stations), exact);
  return READ.map((measure) => measure.evaluate(assessment));
}

function quarterTurn(design: Design): Design {
  return {
    ...design,
    channels: design.channels.map((channel) => ({
      ...channel,
      placements: channel.placements.map((placement) => ({
        ...placement,
        x_mm: 0 - placement.y_mm,
        y_mm: placement.x_mm,
        turn_deg: placement.turn_deg + 90,
      })),
    })),
  };
}

/** Mirrored in x: the shape mirrored, its turn reversed, its place mirrored. */
function mirror(design: Design): Design {
  return {
    ...design,
    channels: design.channels.map((channel) => ({
      ...channel,
      placements: channel.placements.map((placement) => ({
        x_mm: 0 - placement.x_mm,
        y_mm: placement.y_mm,
        turn_deg: 0 - placement.turn_deg,
        mirrored: !placement.mirrored,
      })),
    })),
  };
}

/** Relative difference of readings, against a floor that keeps zeros from blowing up. */
function difference(a: number, b: number, floor: number): number {
  return Math.abs(a - b) / Math.max(Math.abs(a), Math.abs(b), floor);
}

/**
 * A turned pixel grid cuts slanted walls at other pixels; counts of pixels along them may differ a
 * little, all else only by rounding.
 */
const RASTERED = new Set([
  'supportVolume_mm3',
  'supportContact_mm2',
  'bridge_mm',
  'printTime_h',
  'partCost',
  'mass_g',
  'weakestSection',
  'contoursPerLayer',
  'newIslands',
]);

/** The clearest chord is sought along fixed directions: found to a few hundredths of the bore. */
function toleranceOf(id: string): number {
  if (id === 'sightMargin_mm' || id === 'straightRod_mm') return 0.02;
  // From some channels of those at the edge: which, a tie of their rims decides.
  if (id === 'tearShare') return 0.02;
  return id === 'lightLeak' ? 0.1 : 1e-3;
}

describe.each(designs)('%s', (_label, design) => {
  it.each([
    ['a quarter turn', quarterTurn],
    ['mirroring', mirror],
  ])('reads the same after %s', (_name, change) => {
    const before = readingsOf(brief, design, 32, false);
    const after = readingsOf(brief, change(design), 32, false);
    READ.forEach((measure, j) => {
      if (measure.id === 'lightLeak') {
        // A few chords from a fixed set that does not turn with the plate: only dark or not is sure.
        expect(before[j] > 0, measure.id).toBe(after[j] > 0);
        return;
      }
      expect(difference(before[j], after[j], 1e-2), measure.id).toBeLessThan(
        toleranceOf(measure.id),
      );
    });
    const exactBefore = readingsOf(brief, design, 64, true);
    const exactAfter = readingsOf(brief, change(design), 64, true);
    READ.forEach((measure, j) => {
      const tolerance = RASTERED.has(measure.id) ? 0.02 : toleranceOf(measure.id);
      // Counts and mm2 of a whole plate against 1, shares against a hundredth.
      const floor = RASTERED.has(measure.id) ? 1 : 1e-2;
      expect(difference(exactBefore[j], exactAfter[j], floor), measure.id).toBeLessThan(tolerance);
    });
  });

  it('changes little when sampled twice as finely', () => {
    const coarse = readingsOf(brief, design, 64, false);
    const fine = readingsOf(brief, design, 128, false);
    READ.forEach((measure, j) => {
      expect(difference(coarse[j], fine[j], 0.1), measure.id).toBeLessThan(0.05);
    });
  });
});
