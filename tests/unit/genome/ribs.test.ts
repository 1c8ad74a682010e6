import { describe, expect, it } from 'vitest';
import type { Brief, BriefInput } from '../../../src/brief/index.ts';
import { readBrief } from '../../../src/brief/index.ts';
import type { Channel, Design } from '../../../src/design/index.ts';
import { sampleDesign } from '../../../src/design/index.ts';
import { createGenome } from '../../../src/genome/index.ts';
import { createAssessment, findMeasure } from '../../../src/measures/index.ts';
import { aBrief } from '../../support/plates.ts';

type Routes = NonNullable<BriefInput['routes']>;

function slotBrief(routes: Routes, changes: Partial<BriefInput> = {}): Brief {
  return aBrief({
    plate: {
      outline: { kind: 'rectangle', width_mm: 90, height_mm: 90 },
      thickness_mm: 12,
      build: 'flat',
    },
    ...changes,
    routes: {
      lattices: ['square'],
      sections: ['slot'],
      motifs: ['alike'],
      bore_mm: { min: 2, max: 4 },
      pockets: false,
      ...routes,
    },
  });
}

const SLOTS = { bore_mm: 3, ligament_mm: 1.6, slotAspect: 8 };

function decode(brief: Brief, genes: Readonly<Record<string, number | string>>): Design {
  const genome = createGenome(brief);
  const row = genome.expressGenes({ ...SLOTS, ...genes });
  if (!(row instanceof Float64Array)) throw new Error(row.reason);
  const decoded = genome.decode(row, 0);
  if (!decoded.ok) throw new Error(decoded.reason);
  return decoded.design;
}

function read(brief: Brief, design: Design, id: string): number {
  const measure = findMeasure(id);
  if (measure === null) throw new Error(id);
  return measure.evaluate(createAssessment(brief, design, sampleDesign(design, 64), true));
}

function aspectOf(channel: Channel): number {
  if (channel.section.kind !== 'slot') throw new Error('no slot');
  return channel.section.aspect;
}

const EDGE = {
  outline: { kind: 'rectangle', width_mm: 90, height_mm: 90 },
  thickness_mm: 12,
  build: 'edge',
} as const;

/** Slots that lean 45 degrees. */
const HANGING = { leanY_mm: 12, ends: 'lean' };

describe('ribs', () => {
  it('are left out unless the brief asks: the same design as ever', () => {
    const plain = decode(slotBrief({}), HANGING);
    expect(aspectOf(plain.channels[0])).toBe(8);
    expect(aBrief().routes.ribs).toBe('none');
  });

  it('break a hanging ceiling into equal parts within the bridge limit, a rib of two lines between', () => {
    // 45 degrees of lean against a limit of 40: the ceiling hangs. 24 mm of slot, ribs of 0.8 mm:
    // (24 - 2 * 0.8) / 3 = 7.467 mm, the first within 10 mm ((24 - 0.8) / 2 = 11.6 is not).
    const brief = slotBrief({ ribs: 'auto' }, { process: { overhangLimit_deg: 40 } });
    const [channel] = decode(brief, HANGING).channels;
    expect(aspectOf(channel)).toBeCloseTo(7.4666666667 / 3, 5);
    const [a, b, c] = channel.placements;
    expect(b.x_mm - a.x_mm).toBeCloseTo(7.4666666667 + 0.8, 5);
    expect(c.x_mm - b.x_mm).toBeCloseTo(7.4666666667 + 0.8, 5);
    expect([b.y_mm, c.y_mm]).toEqual([a.y_mm, a.y_mm]);
  });

  it('keep the exact bridge of level slots within the limit, which they break without ribs', () => {
    const bare = slotBrief({}, { plate: EDGE });
    const ribbed = slotBrief({ ribs: 'auto' }, { plate: EDGE });
    expect(read(bare, decode(bare, {}), 'bridge_mm')).toBeGreaterThan(20);
    const design = decode(ribbed, {});
    // Two pixels of 0.2 mm.
    expect(read(ribbed, design, 'bridge_mm')).toBeLessThanOrEqual(10.4);
    expect(read(ribbed, design, 'supportVolume_mm3')).toBe(0);
    expect(read(bare, decode(bare, {}), 'supportVolume_mm3')).toBeGreaterThan(0);
    expect(read(ribbed, design, 'thinnestWall_mm')).toBeGreaterThanOrEqual(0.8);
    // The ribs stand in the way of the air.
    expect(read(ribbed, design, 'pressureDrop_Pa')).toBeGreaterThan(
      1.02 * read(bare, decode(bare, {}), 'pressureDrop_Pa'),
    );
  });

  it('leave slots alone that stand upright or lean less than the overhang limit', () => {
    const brief = slotBrief({ ribs: 'auto' });
    expect(aspectOf(decode(brief, {}).channels[0])).toBe(8);
    expect(aspectOf(decode(brief, { leanY_mm: 8, ends: 'lean' }).channels[0])).toBe(8);
  });

  it('break slots that lie level in a plate on edge, not those that stand in it', () => {
    const brief = slotBrief({ ribs: 'auto' }, { plate: EDGE });
    // Level: half of the 10 mm, so (24 - 4 * 0.8) / 5 = 4.16 mm.
    expect(decode(brief, {}).channels[0].placements.length % 5).toBe(0);
    expect(3 * aspectOf(decode(brief, {}).channels[0])).toBeCloseTo(4.16, 5);
    expect(aspectOf(decode(brief, { roll_deg: 90 }).channels[0])).toBe(8);
  });

  it('break slats longer than the brief allows, and make them stiffer', () => {
    const brief = slotBrief({ ribs: 'auto', longestSlat_mm: 12 });
    const design = decode(brief, {});
    expect(3 * aspectOf(design.channels[0])).toBeCloseTo((24 - 0.8) / 2, 5);
    const bare = slotBrief({});
    const slender = read(bare, decode(bare, {}), 'ligamentSlenderness');
    expect(read(brief, design, 'ligamentSlenderness')).toBeLessThan(0.55 * slender);
  });

  it('stand square to leaning slots: parts keep the rib between them in the plane they lean in', () => {
    const brief = slotBrief({ ribs: 'auto', longestSlat_mm: 12 });
    const design = decode(brief, { leanX_mm: 9, ends: 'lean' });
    const [channel] = design.channels;
    const [a, b] = channel.placements;
    // Leaning along its length by atan(9 / 12), cosine 0.8: 11.6 + 0.8 mm across the lean.
    expect(0.8 * (b.x_mm - a.x_mm)).toBeCloseTo(12.4, 5);
    expect(read(brief, design, 'thinnestWall_mm')).toBeGreaterThanOrEqual(0.8);
  });

  it('keep the minimum wall where the slots bend', () => {
    const brief = slotBrief({ ribs: 'auto', longestSlat_mm: 12 });
    const bend = { bends: 1, bend1X_mm: 0.8 };
    const design = decode(brief, { ...bend, ligament_mm: 4 });
    expect(design.channels[0].placements.length).toBeGreaterThan(3);
    expect(read(brief, design, 'thinnestWall_mm')).toBeGreaterThan(0.75);
  });

  it('follow mirrors and turns', () => {
    const brief = slotBrief({ ribs: 'auto', longestSlat_mm: 12, motifs: ['mirrored', 'turned'] });
    for (const motif of ['mirrored', 'turned']) {
      const skew = { roll_deg: 30, rotation_deg: 20, ligament_mm: 8 };
      const design = decode(brief, { motif, ...skew, lattice: 'square', slotAspect: 5 });
      expect(design.channels.some((channel) => channel.placements.length > 4)).toBe(true);
      expect(read(brief, design, 'overlapDepth_mm')).toBe(0);
      expect(read(brief, design, 'thinnestWall_mm')).toBeGreaterThanOrEqual(0.8);
    }
  });

  it('count as channels: no more stand than the brief allows, whole slots only', () => {
    const brief = slotBrief({ ribs: 'auto', longestSlat_mm: 12, maxChannels: 15 });
    const count = decode(brief, {}).channels.reduce((n, each) => n + each.placements.length, 0);
    expect(count).toBe(14);
    const one = createGenome(slotBrief({ ribs: 'auto', longestSlat_mm: 6, maxChannels: 1 }));
    const row = one.expressGenes(SLOTS);
    if (!(row instanceof Float64Array)) throw new Error(row.reason);
    const decoded = one.decode(row, 0);
    expect(decoded.ok ? '' : decoded.reason).toContain('routes.maxChannels, 1');
  });

  it('a longest slat without ribs is a fault of the brief', () => {
    const { routes, ...rest } = slotBrief({});
    const result = readBrief({ ...rest, routes: { ...routes, longestSlat_mm: 20 } });
    expect(result.ok ? '' : result.faults.map((f) => f.path).join()).toBe('routes.longestSlat_mm');
  });
});
