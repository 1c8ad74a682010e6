/** Workers that compute flows, as stubs: order, loss, stopping. */
import { describe, expect, it } from 'vitest';
import type { VerifyState, VerifyTask } from '../../src/engine/index.ts';
import type { VerifyAnswer } from '../../workers/verify.ts';
import { solveAll } from '../../workers/verify-crew.ts';
import type { VerifyHandle } from '../../workers/verify-crew.ts';
import { verifyTasks } from '../../src/engine/index.ts';
import { aBrief, aDesign } from '../support/plates.ts';

const [task] = verifyTasks('d001', aBrief(), aDesign(), {
  cells: 10,
  velocities_m_per_s: [1],
  spread: false,
}).tasks;
const tasks: VerifyTask[] = ['a', 'b', 'c', 'd', 'e'].map((name) => ({ ...task, name }));

/** A state of no flow. */
const STATE = { level: 1 } as unknown as VerifyState;

/** An answer that names its task. */
const named = (name: string): VerifyAnswer => ({ ok: false, reason: name });

interface Stub {
  readonly ended: () => number;
  readonly spawn: () => VerifyHandle;
}

/** Workers that do as told by task: answer after some turns, die, or never answer. */
function stub(act: (name: string) => number | 'die' | 'hang'): Stub {
  let ended = 0;
  return {
    ended: () => ended,
    spawn() {
      let lose: (reason: string) => void = () => undefined;
      const lost = new Promise<string>((resolve) => {
        lose = resolve;
      });
      const service = {
        async solve({ name }: VerifyTask): Promise<VerifyAnswer> {
          const turns = act(name);
          if (turns === 'die') lose('it died');
          if (typeof turns === 'string') return new Promise(() => undefined);
          for (let i = 0; i < turns; i++) {
            await new Promise((resolve) => {
              setImmediate(resolve);
            });
          }
          return named(name);
        },
        halt: () => Promise.resolve(act('halt') === 'hang' ? STATE : null),
      };
      const terminate = (): Promise<void> => {
        ended++;
        return Promise.resolve();
      };
      return { service: service as never, lost, terminate };
    },
  };
}

describe('solveAll()', () => {
  it.each([1, 2, 3, 9])('answers in the order of the tasks with %i workers', async (size) => {
    const slowFirst = stub((name) => 20 - 4 * 'abcde'.indexOf(name));
    const told: number[] = [];
    const signal = new AbortController().signal;
    const onAnswer = (at: number): void => void told.push(at);
    const answers = await solveAll(tasks, { size, spawn: slowFirst.spawn, signal, onAnswer });
    expect(answers).toEqual(tasks.map(({ name }) => named(name)));
    expect(told.toSorted((a, b) => a - b)).toEqual([0, 1, 2, 3, 4]);
    expect(slowFirst.ended()).toBe(Math.min(size, 5));
  });

  it('begins a flow again whose worker was lost, and gives it up after the second', async () => {
    let first = true;
    const frail = stub((name) => {
      if (name === 'd') return 'die';
      if (name !== 'b' || !first) return 1;
      first = false;
      return 'die';
    });
    const losses: string[] = [];
    const answers = await solveAll(tasks, {
      size: 2,
      spawn: frail.spawn,
      signal: new AbortController().signal,
      onLoss: (reason) => losses.push(reason),
    });
    expect(losses).toEqual(['it died', 'it died', 'it died']);
    expect(answers[1]).toEqual(named('b'));
    expect(answers[3]).toMatchObject({ ok: false, reason: /lost twice/ });
    expect(answers[4]).toEqual(named('e'));
  });

  it('stops at once, ends its workers and keeps what was answered', async () => {
    const stop = new AbortController();
    const states: [number, unknown][] = [];
    const hung = stub((name) => (name === 'a' ? 1 : 'hang'));
    const answers = await solveAll(tasks, {
      size: 2,
      spawn: hung.spawn,
      signal: stop.signal,
      onAnswer: () => stop.abort(),
      onState: (at, state) => states.push([at, state]),
    });
    // The other worker hangs in its flow and hands its state over.
    expect(states).toEqual([[1, STATE]]);
    expect(answers).toEqual([named('a'), null, null, null, null]);
    expect(hung.ended()).toBe(2);
  });

  it('ends its workers when what is done with an answer fails', async () => {
    const quick = stub((name) => (name === 'a' ? 1 : 'hang'));
    const full = new Error('disk full');
    const run = solveAll(tasks, {
      size: 3,
      spawn: quick.spawn,
      signal: new AbortController().signal,
      onAnswer() {
        throw full;
      },
    });
    await expect(run).rejects.toBe(full);
    expect(quick.ended()).toBe(3);
  });
});
