import { beforeAll, describe, expect, it } from 'vitest';
import { evolve, frontOf } from '../../../src/engine/index.ts';
import type { Checkpoint } from '../../../src/engine/index.ts';
import { drive, localCrew, quietPorts } from '../../support/local-crew.ts';
import { smallBrief } from '../../support/small-brief.ts';

async function runWhole(brief = smallBrief()) {
  const kept: Checkpoint[] = [];
  const ports = quietPorts(localCrew(brief), {
    keep: (checkpoint) => {
      // Through JSON, as a file would.
      kept.push(JSON.parse(JSON.stringify(checkpoint)));
      return Promise.resolve();
    },
  });
  return { kept, ...(await drive(evolve(brief, { checkpointEvery: 1 }, ports))) };
}

/** The run that most tests look at. */
let shared: Awaited<ReturnType<typeof runWhole>>;
beforeAll(async () => {
  shared = await runWhole();
});

describe('evolve()', () => {
  it('gives the same front for the same brief and seed, byte for byte', async () => {
    const [one, two] = [shared, await runWhole()];
    expect(JSON.stringify(one.front)).toBe(JSON.stringify(two.front));
  });

  it('gives another front for another seed', async () => {
    const other = smallBrief({ seed: 'other', generations: 1 });
    const [one, two] = [shared, await runWhole(other)];
    expect(JSON.stringify(one.front.designs)).not.toBe(JSON.stringify(two.front.designs));
  });

  it('goes on from any checkpoint to the front of the uninterrupted run', async () => {
    const whole = shared;
    for (const checkpoint of [whole.kept[0], whole.kept[3], whole.kept[6]]) {
      const brief = checkpoint.brief;
      const resumed = await drive(evolve(brief, { checkpoint }, quietPorts(localCrew(brief))));
      expect(JSON.stringify(resumed.front)).toBe(JSON.stringify(whole.front));
    }
  });

  it('hands back a front in which no design dominates another', () => {
    const { front } = shared;
    const at = front.objectives.map((id) => front.measures.findIndex((info) => info.id === id));
    const sign = at.map((j) => (front.measures[j].better === 'lower' ? 1 : -1));
    const points = front.designs.map((design) =>
      at.map((j, k) => sign[k] * (design.readings[j] ?? Number.NaN)),
    );
    expect(points.length).toBeGreaterThan(1);
    for (const a of points) {
      for (const b of points) {
        if (a === b) continue;
        const dominates = a.every((v, j) => v <= b[j]) && a.some((v, j) => v < b[j]);
        expect(dominates).toBe(false);
      }
    }
  });

  it('keeps every limit in every design of the front', () => {
    const { front } = shared;
    const margins = front.designs.flatMap((design) => design.limits.map((limit) => limit.margin));
    expect(margins.length).toBeGreaterThan(0);
    expect(Math.min(...margins)).toBeGreaterThanOrEqual(0);
  });

  it('never lets the hypervolume of the archive fall', () => {
    const { events } = shared;
    const volumes = events.flatMap((event) =>
      event.kind === 'generation' ? [event.entry.hypervolume] : [],
    );
    for (let i = 1; i < volumes.length; i++)
      expect(volumes[i]).toBeGreaterThanOrEqual(volumes[i - 1]);
  });

  it('scores every labelled starting design exactly', () => {
    const { events, front } = shared;
    const started = events[0];
    expect(started.kind).toBe('started');
    if (started.kind !== 'started') return;
    expect(front.starts.map((start) => start.label)).toEqual(started.labels);
    expect(front.starts.map((start) => start.label)).toContain('straight holes');
    for (const start of front.starts) expect(start.readings.length).toBe(front.measures.length);
  });

  it('ends after the generation under way when interrupted, and says so', async () => {
    const brief = smallBrief();
    const stop = new AbortController();
    const run = evolve(brief, {}, quietPorts(localCrew(brief), { signal: stop.signal }));
    const events = [];
    for (;;) {
      const step = await run.next();
      if (step.done === true) {
        expect(step.value.generation).toBe(2);
        break;
      }
      events.push(step.value);
      if (step.value.kind === 'generation' && step.value.entry.generation === 1) stop.abort();
    }
    expect(events.at(-1)).toMatchObject({ kind: 'stopping', why: 'interrupted' });
    // After the first generation and at the stop.
    const kept = events.flatMap((event) => (event.kind === 'checkpoint' ? [event.generation] : []));
    expect(kept).toEqual([1, 2]);
  });

  it('stops by its time limit and by its budget', async () => {
    const { events } = shared;
    expect(events.at(-1)).toMatchObject({ kind: 'stopping', why: 'budget' });
    const brief = { ...smallBrief(), search: { ...smallBrief().search, timeLimit_s: 3 } };
    // A clock that runs one second from look to look: at the start, then before every generation.
    let seconds = 0;
    const now = (): number => 1000 * seconds++;
    const timed = await drive(evolve(brief, {}, quietPorts(localCrew(brief), { now })));
    expect(timed.events.at(-1)).toMatchObject({ kind: 'stopping', why: 'time' });
    expect(timed.front.generation).toBe(2);
  });

  it('writes the change under finer sampling beside each reading', () => {
    const { front, kept } = shared;
    const volume = front.measures.findIndex((info) => info.id === 'mass_g');
    for (const design of front.designs) {
      const change = design.refinedChange[volume];
      expect(change).not.toBeNull();
      expect(Math.abs(change ?? 1)).toBeLessThan(0.02);
    }
    const last = kept.at(-1);
    if (last === undefined) throw new Error('no checkpoint was kept');
    expect(frontOf(last).designs.every((design) => design.refinedChange[volume] === null)).toBe(
      true,
    );
  });

  it('shows the nearest miss when no design can meet every limit', async () => {
    const small = smallBrief({ generations: 3 });
    const brief = {
      ...small,
      goals: { ...small.goals, limits: [{ measure: 'mass_g', atMost: 0.5 }] },
    };
    const { front } = await drive(evolve(brief, {}, quietPorts(localCrew(brief))));
    expect(front.designs).toEqual([]);
    const mass = front.measures.findIndex((info) => info.id === 'mass_g');
    const reading = front.nearest?.readings[mass] ?? 0;
    expect(reading).toBeGreaterThan(0.5);
    const limit = front.nearest?.limits.find(({ measure }) => measure === 'mass_g');
    expect(limit?.margin).toBeCloseTo(0.5 - reading, 12);
    for (const start of front.starts) {
      // Nothing that was drawn first comes nearer, unless it breaks other limits as well.
      if (start.failure === null) expect(reading).toBeLessThanOrEqual(start.readings[mass] ?? 0);
    }
  });
});
