/** Pockets of channels with exits in the rim. */
import { describe, expect, it } from 'vitest';
import type { Brief } from '../../../src/brief/index.ts';
import { designFaults, sampleDesign } from '../../../src/design/index.ts';
import type { Design } from '../../../src/design/index.ts';
import { createGenome } from '../../../src/genome/index.ts';
import { createStream } from '../../../src/numeric/index.ts';
import { aBrief, faultsWith } from '../../support/briefs.ts';

const sideBrief = (direction: string, changes: Readonly<Record<string, unknown>> = {}): Brief =>
  aBrief({
    'air.route': { kind: 'side', direction, merge: 'any' },
    'plate.thickness_mm': { min_mm: 14, max_mm: 24 },
    'routes.bore_mm': { min: 3, max: 7 },
    'routes.sidePockets': true,
    ...changes,
  });

const messages = (changes: Readonly<Record<string, unknown>>): string =>
  faultsWith(changes)
    .map(({ message }) => message)
    .join();

const namesOf = (brief: Brief): string[] => createGenome(brief).genes.map(({ name }) => name);

/** For every pocket of the first shape: how its side lies to the centre of curvature, -1 .. 1. */
function leansOf(design: Design): number[] {
  const samples = sampleDesign(design, 64);
  const { first, second, curvature_per_mm: curvature, pocketAxis, stations } = samples;
  return samples.pockets[0].map(({ at }, p) => {
    const i = 3 * Math.round(at * (stations - 1));
    const [c, s] = [pocketAxis[2 * p], pocketAxis[2 * p + 1]];
    let [dot, size] = [0, 0];
    for (let d = 0; d < 3; d++) {
      dot += (c * first[i + d] + s * second[i + d]) * curvature[i + d];
      size += curvature[i + d] * curvature[i + d];
    }
    return dot / Math.sqrt(size);
  });
}

describe('pockets beside side exits', () => {
  it('are genes only where the brief asks for them', () => {
    const plain = sideBrief('outward', { 'routes.sidePockets': undefined });
    expect(namesOf(plain).filter((name) => name.startsWith('pocket'))).toEqual([]);
    const all = sideBrief('outward', { 'routes.pocketLips': true, 'routes.pocketTurns': true });
    expect(namesOf(all).filter((name) => name.startsWith('pocket'))).toEqual([
      'pockets',
      'pocketDepth_mm',
      'pocketLength_mm',
      'pocketWidth_deg',
      'pocketShift',
      'pocketLip',
      'pocketTurn_deg',
    ]);
  });

  it.each(['outward', 'inward'])('decode into sound designs, %s', (direction) => {
    const brief = sideBrief(direction, { 'routes.pocketLips': true, 'routes.pocketTurns': true });
    const genome = createGenome(brief);
    const random = createStream('side pockets', direction);
    let pocketed = 0;
    for (let n = 0; n < 150; n++) {
      const row = Float64Array.from(genome.genes, ({ kind, min, max }) => {
        const value = min + random.next() * (max - min);
        return kind === 'real' ? value : Math.round(value);
      });
      const made = genome.decode(row, 0);
      if (!made.ok) continue;
      expect(designFaults(made.design)).toEqual([]);
      if (made.design.channels.every(({ pockets }) => pockets.length > 0)) pocketed++;
    }
    expect(pocketed).toBeGreaterThan(20);
  });

  it.each(['outward', 'inward'])('bulge away from the centre of the turn, %s', (direction) => {
    const genome = createGenome(sideBrief(direction));
    const start = genome.starts.find(({ label }) => label === 'side bends with pockets');
    if (start === undefined) throw new Error('a start with pockets was meant');
    const made = genome.decode(start.row, 0);
    if (!made.ok) throw new Error(made.reason);
    const leans = leansOf(made.design);
    expect(leans).toHaveLength(1);
    expect(leans[0]).toBeLessThan(-0.98);
  });

  it('go with exits that channels have to themselves', () => {
    expect(messages({ 'routes.sidePockets': true })).toMatch(/sidePockets is true;/);
    const merged = { 'air.route': { kind: 'side', merge: 'plenum' }, 'plate.build': 'flat' };
    expect(messages({ ...merged, 'routes.sidePockets': true })).toMatch(/merge 'plenum'/);
    const none = { 'air.route': { kind: 'side' }, 'routes.pockets': false };
    expect(messages({ ...none, 'routes.sidePockets': true })).toMatch(/go with pockets/);
  });
});
