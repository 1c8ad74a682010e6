import { expect, test } from 'vitest';
import { designFaults, sampleDesign } from '../../../src/design/index.ts';
import type { Design } from '../../../src/design/index.ts';
import type { Brief } from '../../../src/brief/index.ts';
import { createGenome } from '../../../src/genome/index.ts';
import type { Genome, NamedGenes } from '../../../src/genome/index.ts';
import { aBrief } from '../../support/plates.ts';

const ROUND = { kind: 'round', diameter_mm: 80 } as const;
const CARD = { kind: 'rectangle', width_mm: 80, height_mm: 80, cornerRadius_mm: 5 } as const;
const ELL: [number, number][] = [
  [-40, -40],
  [40, -40],
  [40, 0],
  [0, 0],
  [0, 40],
  [-40, 40],
];

const BRIEFS: readonly (readonly [string, Brief])[] = [
  ['a round plate', aBrief()],
  [
    'a frame on edge',
    aBrief({
      plate: {
        outline: CARD,
        thickness_mm: 20,
        build: 'edge',
        mounting: { kind: 'frame', frame_mm: 80 },
      },
      routes: { sections: ['teardrop', 'slot'], bore_mm: { min: 3, max: 6 } },
    }),
  ],
  [
    'a thickness range, any build',
    aBrief({ plate: { outline: ROUND, thickness_mm: { min_mm: 8, max_mm: 30 }, build: 'any' } }),
  ],
  [
    'a polygon',
    aBrief({ plate: { outline: { kind: 'polygon', points_mm: ELL }, thickness_mm: 15 } }),
  ],
  [
    'a plain thin guard',
    aBrief({
      plate: { outline: ROUND, thickness_mm: 3 },
      routes: { lattices: ['square'], sections: ['round'], motifs: ['alike'], pockets: false },
    }),
  ],
];

function decodeNamed(genome: Genome, named: NamedGenes): Design {
  const row = genome.expressGenes(named);
  if (!(row instanceof Float64Array)) throw new Error(row.reason);
  const decoded = genome.decode(row, 0);
  if (!decoded.ok) throw new Error(decoded.reason);
  return decoded.design;
}

const count = (design: Design): number =>
  design.channels.reduce((sum, channel) => sum + channel.placements.length, 0);

test.each(BRIEFS)(
  'the genes of %s have unique names, bounds in order and a meaning',
  (_, brief) => {
    const { genes, space } = createGenome(brief);
    expect(new Set(genes.map((gene) => gene.name)).size).toBe(genes.length);
    genes.forEach((gene, i) => {
      expect(gene.max).toBeGreaterThan(gene.min);
      expect(gene.meaning.length).toBeGreaterThan(5);
      expect([space.lower[i], space.upper[i]]).toEqual([gene.min, gene.max]);
      expect(space.kinds[i]).toBe({ real: 0, integer: 1, choice: 2 }[gene.kind]);
      if (gene.kind === 'choice') expect(gene.options).toHaveLength(gene.max + 1);
    });
  },
);

test('what a brief leaves no choice about has no gene', () => {
  const names = createGenome(BRIEFS[4][1]).genes.map((gene) => gene.name);
  for (const name of [
    'lattice',
    'section',
    'motif',
    'build',
    'thickness_mm',
    'pockets',
    'free1X',
  ]) {
    expect(names).not.toContain(name);
  }
  expect(names).toContain('bore_mm');
});

test.each(BRIEFS)(
  'every start of %s lies within the bounds and decodes to a sound design',
  (_, brief) => {
    const genome = createGenome(brief);
    expect(genome.starts.length).toBeGreaterThanOrEqual(2);
    expect(new Set(genome.starts.map((start) => start.label)).size).toBe(genome.starts.length);
    for (const start of genome.starts) {
      start.row.forEach((value, i) => {
        expect(value).toBeGreaterThanOrEqual(genome.space.lower[i]);
        expect(value).toBeLessThanOrEqual(genome.space.upper[i]);
        if (genome.space.kinds[i] > 0) expect(value).toBe(Math.trunc(value));
      });
      const decoded = genome.decode(start.row, 0);
      if (!decoded.ok) throw new Error(`${start.label}: ${decoded.reason}`);
      expect(designFaults(decoded.design)).toEqual([]);
      expect(count(decoded.design)).toBeGreaterThanOrEqual(1);
    }
  },
);

test('the starts of a full brief are those that an engineer would draw', () => {
  const genome = createGenome(aBrief());
  expect(genome.starts.map((start) => start.label)).toEqual([
    'straight holes',
    'straight hexagons',
    'slots',
    'tilted slots with ribs',
    'tilted holes',
    'single bends',
    'S-bends',
    'S-bends with pockets',
    'double bends',
    'mirrored S-bends',
    'turned bends',
    'stepped bends',
    'free bends',
  ]);
  const designs = Object.fromEntries(
    genome.starts.map((start) => {
      const decoded = genome.decode(start.row, 0);
      if (!decoded.ok) throw new Error(decoded.reason);
      return [start.label, decoded.design.channels];
    }),
  );
  expect(designs['straight holes']).toHaveLength(1);
  expect(designs['straight holes'][0].points_mm).toHaveLength(2);
  expect(designs.slots[0].section.kind).toBe('slot');
  expect(designs['tilted slots with ribs'][0].inletDirection?.[1]).toBeGreaterThan(0.5);
  const [, up, down] = designs['S-bends'][0].points_mm;
  expect(up[0]).toBeGreaterThan(0);
  expect(down[0]).toBeCloseTo(-up[0], 12);
  expect(designs['S-bends with pockets'][0].pockets).toHaveLength(2);
  expect(designs['mirrored S-bends'][0].placements.some((place) => place.mirrored)).toBe(true);
  expect(new Set(designs['turned bends'][0].placements.map((place) => place.turn_deg)).size).toBe(
    4,
  );
  expect(designs['stepped bends']).toHaveLength(2);
  expect(designs['free bends'].length).toBeGreaterThan(20);
});

test('neighbouring straight holes leave exactly the ligament between them', () => {
  const genome = createGenome(aBrief());
  for (const lattice of ['square', 'hexagonal', 'rings']) {
    const design = decodeNamed(genome, { lattice, section: 'round', bore_mm: 4, ligament_mm: 1.5 });
    const places = design.channels.flatMap((channel) => channel.placements);
    let least = Infinity;
    places.forEach((a, i) => {
      for (const b of places.slice(0, i)) {
        least = Math.min(least, Math.hypot(a.x_mm - b.x_mm, a.y_mm - b.y_mm));
      }
    });
    expect(least - 4).toBeCloseTo(1.5, 9);
  }
});

test('hexagons on a hexagonal lattice are a honeycomb', () => {
  const named = { lattice: 'hexagonal', section: 'polygon', sides: 6, bore_mm: 5, ligament_mm: 1 };
  const [channel] = decodeNamed(createGenome(aBrief()), named).channels;
  const steps = channel.placements.slice(1, 7).map(({ x_mm, y_mm }) => Math.hypot(x_mm, y_mm));
  // Six neighbours at the distance over flats plus the ligament: plane geometry.
  expect(steps).toEqual(Array.from({ length: 6 }, () => expect.closeTo(6, 9)));
});

test('decode() keeps openings inside the rim and clear of the mounting holes at both faces', () => {
  const brief = aBrief({
    plate: { outline: CARD, thickness_mm: 20, mounting: { kind: 'frame', frame_mm: 80 } },
  });
  const named = { section: 'round', bore_mm: 4, ligament_mm: 1, leanX_mm: 12, leanY_mm: -5 };
  const samples = sampleDesign(decodeNamed(createGenome(brief), named));
  expect(samples.channelCount).toBeGreaterThan(20);
  for (let n = 0; n < samples.channelCount; n++) {
    for (const k of [0, samples.stations - 1]) {
      const x = samples.offset_mm[2 * n] + samples.point_mm[3 * k];
      const y = samples.offset_mm[2 * n + 1] + samples.point_mm[3 * k + 1];
      expect(Math.max(Math.abs(x), Math.abs(y))).toBeLessThanOrEqual(40 - 3 - 2 + 1e-9);
      for (const hx of [-35.75, 35.75]) {
        for (const hy of [-35.75, 35.75]) {
          const wall = Math.hypot(x - hx, y - hy) - 2 - 2.15;
          expect(wall).toBeGreaterThanOrEqual(brief.process.minimumWall_mm - 1e-9);
        }
      }
    }
  }
});

test('decode() drops the outermost channels beyond routes.maxChannels', () => {
  const few = createGenome(aBrief({ routes: { maxChannels: 7 } }));
  const all = createGenome(aBrief());
  const named = { lattice: 'hexagonal', section: 'round', bore_mm: 4, ligament_mm: 1 };
  const kept = decodeNamed(few, named).channels[0].placements;
  expect(kept).toEqual(decodeNamed(all, named).channels[0].placements.slice(0, 7));
  for (const { x_mm, y_mm } of kept) expect(Math.hypot(x_mm, y_mm)).toBeLessThan(5.01);
});

test('decode() says why when nothing fits', () => {
  const brief = aBrief({
    plate: { outline: { kind: 'round', diameter_mm: 12 }, thickness_mm: 5, rim_mm: 3 },
    routes: { bore_mm: { min: 2, max: 8 } },
  });
  const genome = createGenome(brief);
  const row = genome.expressGenes({ bore_mm: 8, section: 'round' });
  expect(row).toBeInstanceOf(Float64Array);
  const decoded = genome.decode(row as Float64Array, 0);
  expect(decoded).toEqual({
    ok: false,
    reason:
      'No channel of bore 8 mm fits between rim and mounting holes; ' +
      'use smaller bores, shorter slots, less lean or a narrower rim.',
  });
});

test('stepped neighbours bend at different depths, in the same order', () => {
  const named = {
    motif: 'stepped',
    section: 'round',
    steps: 3,
    stepDepth: 0.6,
    bends: 2,
    bend1X_mm: 2,
    bend2X_mm: -2,
    bore_mm: 3,
    ligament_mm: 4,
  };
  const { channels } = decodeNamed(createGenome(aBrief()), named);
  expect(channels).toHaveLength(3);
  const depths = channels.map((channel) => channel.points_mm.map((point) => point[2]));
  for (const column of depths) expect(column).toEqual(column.toSorted((a, b) => a - b));
  expect(new Set(depths.map((column) => column[1].toFixed(6))).size).toBe(3);
});

test('a graded plate grows from the centre to the edge, in few sizes', () => {
  const named = { section: 'round', bore_mm: 4, ligament_mm: 1, grading: 0.3 };
  const { channels } = decodeNamed(createGenome(aBrief()), named);
  expect(channels.length).toBeGreaterThan(3);
  expect(channels.length).toBeLessThanOrEqual(8);
  const sizes = channels.map((channel) => {
    const [place] = channel.placements;
    return [Math.hypot(place.x_mm, place.y_mm), channel.bore_mm[0]] as const;
  });
  sizes.sort((a, b) => a[0] - b[0]);
  expect(sizes.map(([, bore]) => bore)).toEqual(
    sizes.map(([, bore]) => bore).toSorted((a, b) => a - b),
  );
});

test('pockets bulge to the outer side of their bends', () => {
  const genome = createGenome(aBrief());
  const start = genome.starts.find(({ label }) => label === 'S-bends with pockets');
  const decoded = genome.decode(start?.row ?? new Float64Array(0), 0);
  if (!decoded.ok) throw new Error(decoded.reason);
  const samples = sampleDesign(decoded.design, 101);
  const [first, second] = samples.pockets[0];
  const way = (side_deg: number, at: number): number => {
    const i = 3 * Math.round(100 * at);
    const a = (side_deg * Math.PI) / 180;
    return Math.cos(a) * samples.first[i] + Math.sin(a) * samples.second[i];
  };
  // The first bend of the S swings to +x, the second to -x.
  expect(way(first.side_deg, first.at)).toBeGreaterThan(0.5);
  expect(way(second.side_deg, second.at)).toBeLessThan(-0.5);
});
