/** The crew against real worker threads and against workers that die. Needs the built workers. */
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { beforeAll, describe, expect, it } from 'vitest';
import { createEvaluator, evolve } from '../../src/engine/index.ts';
import type { Brief, Evaluated } from '../../src/engine/index.ts';
import { createGenome } from '../../src/genome/index.ts';
import { createCrew } from '../../workers/crew.ts';
import type { WorkerHandle } from '../../workers/crew.ts';
import { createNodeCrew } from '../../workers/crew.node.ts';
import { drive, localCrew, quietPorts } from '../support/local-crew.ts';
import { smallBrief } from '../support/small-brief.ts';

const entry = pathToFileURL(resolve(import.meta.dirname, '../../dist/workers/evaluate.node.js'));

/**
 * A worker in this thread that is lost whenever `dies` says so of the rows it is given. A slow one
 * dies and answers only after the other calls under way have reached it, as a thread would.
 */
function frailWorker(
  brief: Brief,
  dies: (rows: Float64Array) => boolean,
  slow = false,
): WorkerHandle {
  const evaluator = createEvaluator(brief);
  let lose: (reason: string) => void = () => undefined;
  const lost = new Promise<string>((resolveLost) => {
    lose = resolveLost;
  });
  const service = {
    ready: () => Promise.resolve('test'),
    evaluate: (rows: Float64Array, count: number, form: 'fast' | 'exact' | 'refined') => {
      if (dies(rows)) {
        if (slow) setImmediate(() => lose('it died'));
        else lose('it died');
        // A call to a dead worker never settles.
        return new Promise<Evaluated>(() => undefined);
      }
      if (!slow) return Promise.resolve(evaluator.evaluate(rows, count, form));
      return new Promise<Evaluated>((answer) => {
        setImmediate(() => setImmediate(() => answer(evaluator.evaluate(rows, count, form))));
      });
    },
  };
  return { service: service as never, lost, terminate: () => Promise.resolve() };
}

/** One row of genes that can be scored. */
function goodRow(brief: Brief): Float64Array {
  return createGenome(brief).starts[0].row;
}

const brief = smallBrief({ generations: 3 });
/** The front of a run without workers. */
let expected = '';
beforeAll(async () => {
  const local = await drive(evolve(brief, {}, quietPorts(localCrew(brief))));
  expect(local.front.designs.length).toBeGreaterThan(1);
  expected = JSON.stringify(local.front);
});

describe('crew of worker threads', () => {
  it.each([1, 2, 3])('gives the front of a local run with %i workers', async (size) => {
    const crew = createNodeCrew(brief, { size, entry });
    try {
      const threads = await drive(evolve(brief, {}, quietPorts(crew)));
      expect(JSON.stringify(threads.front)).toBe(expected);
    } finally {
      await crew.close();
    }
  });
});

describe('crew that loses workers', () => {
  it('replaces them and comes to the same front', async () => {
    let calls = 0;
    const losses: string[] = [];
    const crew = createCrew(brief, {
      size: 2,
      spawn: () => frailWorker(brief, () => ++calls % 7 === 0),
      onLoss: (reason) => losses.push(reason),
    });
    const frail = await drive(evolve(brief, {}, quietPorts(crew)));
    expect(losses.length).toBeGreaterThan(2);
    expect(JSON.stringify(frail.front)).toBe(expected);
  });

  it('marks a row that kills its worker twice as failed and scores the others', async () => {
    const genes = createGenome(brief)
      .starts.slice(0, 3)
      .map((start) => Array.from(start.row));
    const rows = Float64Array.from(genes.flat());
    const d = genes[0].length;
    const poison = genes[1].join();
    const crew = createCrew(brief, {
      size: 2,
      spawn: () =>
        frailWorker(brief, (part) => {
          for (let at = 0; at < part.length; at += d) {
            if (part.subarray(at, at + d).join() === poison) return true;
          }
          return false;
        }),
    });
    const scored = await crew.evaluate({ rows, count: 3, form: 'fast' });
    expect(scored.failures[1]).toMatch(/worker was lost/);
    const alone = await localCrew(brief).evaluate({ rows, count: 3, form: 'fast' });
    const k = alone.values.length / 3;
    expect(scored.failures[0]).toBeNull();
    expect(scored.failures[2]).toBeNull();
    expect([...scored.values.subarray(2 * k)]).toEqual([...alone.values.subarray(2 * k)]);
  });

  it('blames no row for what another one does to the worker they share', async () => {
    const d = goodRow(brief).length;
    const rows = new Float64Array(3 * d);
    for (let i = 0; i < 3; i++) rows.set(goodRow(brief), i * d);
    // Single rows per call in the exact form: the first two share the worker and are lost together.
    rows[0] = Number.NEGATIVE_INFINITY;
    const crew = createCrew(brief, {
      size: 1,
      spawn: () => frailWorker(brief, (part) => part.includes(Number.NEGATIVE_INFINITY), true),
    });
    const scored = await crew.evaluate({ rows, count: 3, form: 'exact' });
    expect(scored.failures.map((failure) => failure === null)).toEqual([false, true, true]);
  });

  it('gives up when workers do nothing but die', async () => {
    const crew = createCrew(brief, { size: 1, spawn: () => frailWorker(brief, () => true) });
    const run = evolve(brief, {}, quietPorts(crew));
    await expect(drive(run)).rejects.toMatchObject({
      name: 'RunError',
      code: 'workers-lost',
      message: expect.stringMatching(/workers keep failing \(it died\)/),
    });
  });
});
