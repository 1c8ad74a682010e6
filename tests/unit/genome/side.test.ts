import { describe, expect, it } from 'vitest';
import { END, designFaults, insideDistance, sampleDesign } from '../../../src/design/index.ts';
import { createGenome } from '../../../src/genome/index.ts';
import { spreadExits } from '../../../src/genome/side-exits.ts';
import type { Brief } from '../../../src/brief/index.ts';
import { createStream } from '../../../src/numeric/index.ts';
import { aBrief } from '../../support/briefs.ts';

const sideBrief = (
  route: Readonly<Record<string, unknown>> = {},
  changes: Readonly<Record<string, unknown>> = {},
): Brief =>
  aBrief({
    'air.route': { kind: 'side', ...route },
    'plate.thickness_mm': { min_mm: 12, max_mm: 20 },
    'routes.bore_mm': { min: 3, max: 7 },
    ...changes,
  });

const FRAME = {
  'plate.outline': { kind: 'rectangle', width_mm: 80, height_mm: 80, cornerRadius_mm: 4 },
  'plate.mounting': { kind: 'frame', frame_mm: 80 },
};

describe('the genome of a brief with side exits', () => {
  it.each([
    ['outward on a disc', sideBrief({ merge: 'any' })],
    ['inward on a disc', sideBrief({ merge: 'any', direction: 'inward' })],
    ['outward in a frame', sideBrief({ merge: 'any' }, FRAME)],
    [
      'two sectors in a frame',
      sideBrief(
        {
          sectors: [
            { from_deg: -30, to_deg: 30 },
            { from_deg: 150, to_deg: 210 },
          ],
        },
        FRAME,
      ),
    ],
  ])('decodes any row into a sound design or a reason: %s', (_name, brief) => {
    const genome = createGenome(brief);
    const random = createStream('side', _name);
    let decoded = 0;
    for (let n = 0; n < 150; n++) {
      const row = Float64Array.from(genome.genes, ({ kind, min, max }) => {
        const value = min + random.next() * (max - min);
        return kind === 'real' ? value : Math.round(value);
      });
      const made = genome.decode(row, 0);
      if (!made.ok) {
        expect(made.reason).not.toBe('');
        continue;
      }
      decoded++;
      expect(designFaults(made.design)).toEqual([]);
      expect(genome.decode(row, 0)).toEqual(made);
    }
    expect(decoded).toBeGreaterThan(75);
  });

  it('starts with labelled designs, each of which decodes', () => {
    const labels = (brief: Brief): string[] => createGenome(brief).starts.map((s) => s.label);
    const apart = ['side bends', 'fine side bends', 'two-storey side bends', 'swept side bends'];
    expect(labels(sideBrief())).toEqual(apart);
    expect(labels(sideBrief({ merge: 'plenum' }))).toEqual(['ring manifold']);
    expect(labels(sideBrief({ merge: 'any' }))).toEqual([...apart, 'ring manifold']);
  });

  it('opens no hole in the front face, outward and inward', () => {
    for (const direction of ['outward', 'inward']) {
      const genome = createGenome(sideBrief({ direction }));
      const made = genome.decode(genome.starts[0].row, 0);
      const design = made.ok ? made.design : null;
      const samples = design && sampleDesign(design, 16);
      const closed = direction === 'outward' ? 1 : 0;
      for (let m = 0; m < (samples?.shapeCount ?? 0); m++) {
        expect(samples?.sides?.kind[2 * m + closed]).toBe(END.rim);
        expect(samples?.sides?.kind[2 * m + 1 - closed]).toBe(END.face);
      }
      expect(design?.channels.length).toBeGreaterThan(0);
    }
  });

  it('lets out only within the sectors', () => {
    const sectors = [{ from_deg: 60, to_deg: 120 }];
    const genome = createGenome(sideBrief({ sectors, merge: 'any' }));
    const random = createStream('side', 'sectors');
    let exits = 0;
    for (let n = 0; n < 40; n++) {
      const row = Float64Array.from(genome.genes, ({ kind, min, max }) => {
        const value = min + random.next() * (max - min);
        return kind === 'real' ? value : Math.round(value);
      });
      const made = genome.decode(row, 0);
      if (!made.ok) continue;
      const { plate } = made.design;
      const samples = sampleDesign(made.design, 16);
      for (let c = 0; c < samples.channelCount; c++) {
        const shape = samples.shapeOf[c];
        if (samples.sides?.kind[2 * shape + 1] !== END.rim) continue;
        const i = 3 * (shape * 16 + 15);
        const x = samples.point_mm[i] + samples.offset_mm[2 * c];
        const y = samples.point_mm[i + 1] + samples.offset_mm[2 * c + 1];
        expect(Math.abs(insideDistance(plate.outline, x, y))).toBeLessThan(1e-6);
        // Between 60 and 120 degrees.
        expect(Math.abs(x)).toBeLessThanOrEqual(40 * 0.5 + 1e-6);
        expect(y).toBeGreaterThan(0);
        exits++;
      }
    }
    expect(exits).toBeGreaterThan(200);
  });

  it('keeps the genes of a brief whose air goes through', () => {
    const names = createGenome(aBrief()).genes.map((gene) => gene.name);
    expect(names).toContain('lattice');
    expect(names.some((name) => name.startsWith('ring1'))).toBe(false);
  });

  it('says why a drawn plate has no genes', () => {
    const genome = createGenome(sideBrief());
    const made = genome.decode(genome.starts[0].row, 0);
    const told = made.ok ? genome.express(made.design) : null;
    expect(told).toMatchObject({ reason: expect.stringMatching(/side exits/) });
  });
});

describe('spreadExits()', () => {
  it('spreads evenly over two sectors by their widths', () => {
    const sectors = [
      { from_deg: 0, to_deg: 40 },
      { from_deg: 180, to_deg: 260 },
    ];
    const { exit_deg } = spreadExits(sectors, 6, 0, 0);
    expect(exit_deg).toEqual([10, 30, 190, 210, 230, 250]);
  });

  it('keeps the order of the inlets when they gather all around', () => {
    const { inlet_deg } = spreadExits([{ from_deg: -45, to_deg: 45 }], 8, 0, 1);
    for (let j = 1; j < 8; j++) expect(inlet_deg[j] - inlet_deg[j - 1]).toBeCloseTo(45, 9);
  });
});
