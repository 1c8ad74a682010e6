import { beforeAll, describe, expect, it } from 'vitest';
import { designOf, evolve, frontOf, namedGenes, startFrom } from '../../../src/engine/index.ts';
import type { Checkpoint, Front } from '../../../src/engine/index.ts';
import { readDesignFile, writeDesignFile } from '../../../src/formats/index.ts';
import type { DesignFile } from '../../../src/formats/index.ts';
import { drive, localCrew, quietPorts } from '../../support/local-crew.ts';
import { smallBrief } from '../../support/small-brief.ts';

const brief = smallBrief({ generations: 2 });
const otherGoals = { ...brief, goals: { ...brief.goals, objectives: ['mass_g'] } };
let front: Front;
const kept: Checkpoint[] = [];
beforeAll(async () => {
  const keep = (checkpoint: Checkpoint): Promise<void> => {
    kept.push(JSON.parse(JSON.stringify(checkpoint)));
    return Promise.resolve();
  };
  ({ front } = await drive(evolve(brief, {}, quietPorts(localCrew(brief), { keep }))));
});

/** A design of the front as it comes back from its file. */
function exported(): DesignFile {
  const [found] = front.designs;
  const design = designOf(front, found);
  const genes = namedGenes(front, found);
  return readDesignFile(writeDesignFile({ name: 'one', brief, design, genes }));
}

describe('startFrom()', () => {
  it('takes the genes of an exported design as they are', () => {
    expect([...startFrom(brief, exported()).row]).toEqual(front.designs[0].genes);
  });

  it('starts from the drawing, not from its old genes, after an edit', () => {
    const file = exported();
    const channels = file.design.channels.map((channel) => ({
      ...channel,
      bore_mm: channel.bore_mm.map((bore) => bore * 0.9),
    }));
    const edited = { ...file, design: { ...file.design, channels } };
    const withGenes = startFrom(brief, edited);
    const withoutGenes = startFrom(brief, { ...edited, genes: null });
    expect([...withGenes.row]).toEqual([...withoutGenes.row]);
    expect([...withGenes.row]).not.toEqual(front.designs[0].genes);
  });
});

describe('frontOf()', () => {
  it.each([
    ['no archive', { archive: null }],
    ['an archive of another kind', { archive: { labels: [], records: 'none' } }],
    ['no search', { search: {} }],
    ['the brief of another run', { brief: otherGoals }],
  ])('calls a checkpoint with %s damaged', (_what, change) => {
    const damaged = { ...kept[0], ...change };
    expect(() => frontOf(damaged)).toThrowError(
      expect.objectContaining({ name: 'RunError', code: 'bad-checkpoint' }),
    );
  });
});
