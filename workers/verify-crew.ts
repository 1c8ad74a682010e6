/**
 * A few workers that compute flows, one each at a time. Answers are put back by place, so that a
 * result does not depend on how many workers there are or which is faster.
 */
import { proxy } from 'comlink';
import type { Remote } from 'comlink';
import type { VerifyState, VerifyTask } from '../src/engine/index.ts';
import type { MarchProgress, VerifyAnswer, VerifyService } from './verify.ts';

/** One running worker, of whichever kind. */
export interface VerifyHandle {
  readonly service: Remote<VerifyService>;
  /** Resolves with the reason when the worker is lost; never rejects. */
  readonly lost: Promise<string>;
  terminate(): Promise<void>;
}

export interface VerifyCrewOptions {
  readonly size: number;
  spawn(): VerifyHandle;
  /** Ends all work at once. */
  readonly signal: AbortSignal;
  /** A state to go on from; null or left out: from the start. */
  readonly from?: (task: number) => VerifyState | null;
  readonly onProgress?: (task: number, progress: MarchProgress) => void;
  /** Given the state of a flow under way: now and then, and when the signal comes. */
  readonly onState?: (task: number, state: VerifyState) => void;
  /** Told of each answer as it comes, in whatever order. */
  readonly onAnswer?: (task: number, answer: VerifyAnswer) => void;
  readonly onLoss?: (reason: string) => void;
}

/** A task that loses its worker so often is given up; the others go on. */
const LOSSES_PER_TASK = 2;
const GIVEN_UP = 'its worker was lost twice; free some memory or use fewer workers';

/** Computes all tasks. @returns an answer for each in their order; null where the signal came first. */
export async function solveAll(
  tasks: readonly VerifyTask[],
  options: VerifyCrewOptions,
): Promise<(VerifyAnswer | null)[]> {
  const answers = Array.from<VerifyAnswer | null>({ length: tasks.length }).fill(null);
  const open = new Set<VerifyHandle>();
  let next = 0;
  let over = false;
  const start = (): VerifyHandle => {
    const handle = options.spawn();
    open.add(handle);
    return handle;
  };
  const end = async (handle: VerifyHandle): Promise<void> => {
    open.delete(handle);
    await handle.terminate();
  };
  const lane = async (): Promise<void> => {
    let handle = start();
    while (next < tasks.length) {
      const at = next++;
      for (let losses = 0; answers[at] === null;) {
        const outcome = await attempt(handle, tasks[at], at, options);
        if (over || outcome.kind === 'stopped') return;
        if (outcome.kind === 'lost') {
          options.onLoss?.(outcome.reason);
          await end(handle);
          handle = start();
          losses++;
        }
        if (outcome.kind === 'answer') answers[at] = outcome.answer;
        else if (losses >= LOSSES_PER_TASK) answers[at] = { ok: false, reason: GIVEN_UP };
      }
      const answer = answers[at];
      if (answer !== null) options.onAnswer?.(at, answer);
    }
  };
  const size = Math.max(1, Math.min(options.size, tasks.length));
  try {
    await Promise.all(Array.from({ length: size }, lane));
  } finally {
    over = true;
    await Promise.all([...open].map(end));
  }
  return answers;
}

type Outcome =
  | { readonly kind: 'answer'; readonly answer: VerifyAnswer }
  | { readonly kind: 'lost'; readonly reason: string }
  | { readonly kind: 'stopped' };

async function attempt(
  handle: VerifyHandle,
  task: VerifyTask,
  at: number,
  { signal, from, onProgress, onState }: VerifyCrewOptions,
): Promise<Outcome> {
  if (signal.aborted) return { kind: 'stopped' };
  const over = new AbortController();
  const stopped = new Promise<Outcome>((resolve) => {
    const stop = (): void =>
      void haltedState(handle).then((state) => {
        if (state !== null) onState?.(at, state);
        resolve({ kind: 'stopped' });
      });
    signal.addEventListener('abort', stop, { signal: over.signal });
  });
  const follow = proxy((progress: MarchProgress) => onProgress?.(at, progress));
  const keep = proxy((state: VerifyState) => onState?.(at, state));
  const solving = handle.service
    .solve(task, from?.(at) ?? null, follow, keep)
    .then((answer): Outcome => ({ kind: 'answer', answer }));
  const lost = handle.lost.then((reason): Outcome => ({ kind: 'lost', reason }));
  try {
    return await Promise.race([solving, lost, stopped]);
  } finally {
    over.abort();
  }
}

/** Milliseconds that a worker gets to hand its state over; a step of a large grid takes some hundreds. */
const HALT_MS = 5000;

/** The state of a worker that is to end; null when it has none or does not answer. */
function haltedState(handle: VerifyHandle): Promise<VerifyState | null> {
  return new Promise((resolve) => {
    const late = setTimeout(() => resolve(null), HALT_MS);
    const give = (state: VerifyState | null): void => {
      clearTimeout(late);
      resolve(state);
    };
    handle.service.halt().then(give, () => give(null));
    void handle.lost.then(() => give(null));
  });
}
