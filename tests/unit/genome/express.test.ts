import { expect, test } from 'vitest';
import { sampleDesign } from '../../../src/design/index.ts';
import type { Design } from '../../../src/design/index.ts';
import { createGenome } from '../../../src/genome/index.ts';
import { aBrief, aChannel, aDesign, aGrid, anSBend } from '../../support/plates.ts';

const count = (design: Design): number =>
  design.channels.reduce((sum, channel) => sum + channel.placements.length, 0);

test('express() finds again what the genome made, for starts without steps or free offsets', () => {
  const genome = createGenome(aBrief());
  for (const start of genome.starts) {
    const decoded = genome.decode(start.row, 0);
    if (!decoded.ok) throw new Error(decoded.reason);
    const row = genome.express(decoded.design);
    if (start.label === 'stepped bends' || start.label === 'free bends') {
      expect(row).toHaveProperty('reason');
      continue;
    }
    if (!(row instanceof Float64Array)) throw new Error(`${start.label}: ${row.reason}`);
    const again = genome.decode(row, 0);
    if (!again.ok) throw new Error(again.reason);
    expect(count(again.design)).toBe(count(decoded.design));
    const [a, b] = [sampleDesign(decoded.design), sampleDesign(again.design)];
    a.point_mm.forEach((value, i) => expect(b.point_mm[i]).toBeCloseTo(value, 6));
  }
});

test('express() fits a hand-made grid of bent holes', () => {
  const channels = [anSBend({ bore_mm: [4], placements: aGrid(7, 7) })];
  const genome = createGenome(aBrief());
  const row = genome.express(aDesign({ channels }));
  if (!(row instanceof Float64Array)) throw new Error(row.reason);
  const decoded = genome.decode(row, 0);
  if (!decoded.ok) throw new Error(decoded.reason);
  const [channel] = decoded.design.channels;
  expect(channel.bore_mm).toEqual([4]);
  channels[0].points_mm.flat().forEach((value, i) => {
    expect(channel.points_mm.flat()[i]).toBeCloseTo(value, 9);
  });
  for (const { x_mm, y_mm } of channels[0].placements) {
    const found = channel.placements.some((p) => Math.hypot(p.x_mm - x_mm, p.y_mm - y_mm) < 1e-6);
    expect(found).toBe(true);
  }
});

test('express() finds the pitch of leaning holes to a quarter of a step', () => {
  const channels = [
    aChannel({
      points_mm: [
        [-2, 0, 0],
        [2, 0, 20],
      ],
      inletDirection: null,
      outletDirection: null,
      placements: aGrid(7, 7),
    }),
  ];
  const genome = createGenome(aBrief());
  const row = genome.express(aDesign({ channels }));
  if (!(row instanceof Float64Array)) throw new Error(row.reason);
  const decoded = genome.decode(row, 0);
  if (!decoded.ok) throw new Error(decoded.reason);
  const [channel] = decoded.design.channels;
  expect(channel.points_mm[1][0] - channel.points_mm[0][0]).toBeCloseTo(4, 9);
  expect(channel.placements.some((p) => Math.hypot(p.x_mm - 21, p.y_mm - 21) < 1.75)).toBe(true);
});

test('express() says what keeps a design from being expressed', () => {
  const genome = createGenome(aBrief({ routes: { sections: ['round'] } }));
  expect(genome.express(aDesign({ plate: { thickness_mm: 10 } }))).toEqual({
    reason: 'The design is 10 mm thick; the brief allows 20 to 20.',
  });
  const slot = aChannel({ section: { kind: 'slot', aspect: 2 } });
  expect(genome.express(aDesign({ channels: [slot] }))).toEqual({
    reason: "The design's section is slot; the brief allows round.",
  });
});

test('expressGenes() reads genes by name and refuses what lies beyond the bounds', () => {
  const genome = createGenome(aBrief());
  const row = genome.starts[3].row;
  const named = Object.fromEntries(genome.genes.map((gene, i) => [gene.name, row[i]]));
  expect(genome.expressGenes(named)).toEqual(row);
  expect(genome.expressGenes({ bore_mm: 50 })).toEqual({
    reason: 'Gene bore_mm is 50; this brief allows between 2 and 8.',
  });
  expect(genome.expressGenes({ lattice: 'triangular' })).toHaveProperty('reason');
});
