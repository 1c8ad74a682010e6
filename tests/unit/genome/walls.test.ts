import { describe, expect, it } from 'vitest';
import { createGenome } from '../../../src/genome/index.ts';
import type { Design } from '../../../src/design/index.ts';
import { aBrief } from '../../support/briefs.ts';

const ALLOWED = {
  'plate.thickness_mm': 20,
  'routes.sections': ['round'],
  'routes.motifs': ['alike'],
};

function designOf(
  brief: ReturnType<typeof aBrief>,
  named: Record<string, number | string>,
): Design {
  const genome = createGenome(brief);
  const row = genome.expressGenes(named);
  if (!(row instanceof Float64Array)) throw new Error(row.reason);
  const decoded = genome.decode(row, 0);
  if (!decoded.ok) throw new Error(decoded.reason);
  return decoded.design;
}

describe('genes of teeth', () => {
  const brief = aBrief({ ...ALLOWED, 'routes.teeth': true });

  it('are there only where the brief allows teeth, after those of the pockets', () => {
    const names = (changes: Record<string, unknown>): string[] =>
      createGenome(aBrief({ ...ALLOWED, ...changes })).genes.map(({ name }) => name);
    const plain = names({});
    const toothed = names({ 'routes.teeth': true });
    expect(plain.some((name) => name.startsWith('tooth'))).toBe(false);
    expect(toothed).toEqual([...plain, 'toothHeight_mm', 'toothSpacing']);
    expect(names({ 'routes.pocketLips': true, 'routes.pocketTurns': true })).toEqual([
      ...plain,
      'pocketLip',
      'pocketTurn_deg',
    ]);
  });

  it('make teeth no lower than a layer and no higher than the bore allows, none beside pockets', () => {
    const teeth = (named: Record<string, number>) =>
      designOf(brief, { bore_mm: 6, ...named }).channels[0].teeth;
    expect(teeth({ toothHeight_mm: 0.1 })).toBeUndefined();
    expect(teeth({ toothHeight_mm: 0.5, toothSpacing: 12 })).toEqual({
      height_mm: 0.5,
      pitch_mm: 6,
    });
    expect(teeth({ toothHeight_mm: 1.5 })?.height_mm).toBeCloseTo(1.2, 9);
    expect(teeth({ toothHeight_mm: 0.5, pockets: 1, pocketDepth_mm: 1 })).toBeUndefined();
  });

  it('are found again in a design made of them', () => {
    const genome = createGenome(brief);
    const named = { bore_mm: 6, ligament_mm: 3, toothHeight_mm: 0.6, toothSpacing: 11 };
    const row = genome.express(designOf(brief, named));
    if (!(row instanceof Float64Array)) throw new Error(row.reason);
    const again = genome.decode(row, 0);
    expect(again.ok && again.design.channels[0].teeth).toEqual({
      height_mm: 0.6,
      pitch_mm: expect.closeTo(6.6, 9),
    });
  });

  it('bring a labelled start with teeth', () => {
    const labels = (changes: Record<string, unknown>): string[] =>
      createGenome(aBrief({ ...ALLOWED, ...changes })).starts.map(({ label }) => label);
    expect(labels({})).not.toContain('straight toothed holes');
    expect(labels({ 'routes.teeth': true })).toContain('straight toothed holes');
  });
});

describe('genes of lips and turns of pockets', () => {
  const brief = aBrief({ ...ALLOWED, 'routes.pocketLips': true, 'routes.pocketTurns': true });
  const pocket = { bore_mm: 6, bends: 1, bend1X_mm: 3, pockets: 1, pocketDepth_mm: 2 };
  const made = (named: Record<string, number>) =>
    designOf(brief, { ...pocket, ...named }).channels[0].pockets[0];

  it('give a lip as a share of the depth, no higher than the bore allows, none below 0.1 mm', () => {
    expect(made({ pocketLip: 0.25 }).lip_mm).toBeCloseTo(0.5, 9);
    expect(made({ pocketDepth_mm: 4, pocketLip: 0.5 }).lip_mm).toBeCloseTo(0.3 * 6, 9);
    expect(made({ pocketLip: 0.04 }).lip_mm).toBeUndefined();
  });

  it('turn a pocket away from the outer side of its bend', () => {
    const turn = made({ pocketTurn_deg: 90 }).side_deg - made({}).side_deg;
    expect(((turn % 360) + 360) % 360).toBeCloseTo(90, 9);
  });
});
