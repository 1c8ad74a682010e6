/** The one protocol between a verification and its workers, in Node and in the browser alike. */
import { transfer } from 'comlink';
import { VERSION, solveTask } from '../src/engine/index.ts';
import type { VerifyState, VerifyProgress, VerifySolved, VerifyTask } from '../src/engine/index.ts';

/** A result, or why the flow could not be computed. */
export type VerifyAnswer =
  | { readonly ok: true; readonly solved: VerifySolved }
  | { readonly ok: false; readonly reason: string };

export type MarchProgress = Omit<VerifyProgress, 'save'>;

export interface VerifyService {
  /** Answers with the version of anfract in this worker. */
  ready(): string;
  /**
   * Computes one flow.
   *
   * @param from a state to go on from, or null.
   * @param follow told now and then how far it is.
   * @param keep given a state now and then.
   */
  solve(
    task: VerifyTask,
    from: VerifyState | null,
    follow: (progress: MarchProgress) => void,
    keep: (state: VerifyState) => void,
  ): Promise<VerifyAnswer>;
  /** The state of the flow under way, which then stands still; null where there is none to go on from. */
  halt(): Promise<VerifyState | null>;
}

/** Milliseconds between two words about progress, and between two states kept. */
const FOLLOW_EVERY_MS = 250;
const KEEP_EVERY_MS = 60_000;

const handOver = (state: VerifyState): VerifyState =>
  transfer(state, [state.march.populations.buffer]);

export function createVerifyService(): VerifyService {
  /** Waits for the next state of the flow under way. */
  let asked: ((state: VerifyState | null) => void) | null = null;
  let busy = false;

  async function march(
    task: VerifyTask,
    from: VerifyState | null,
    follow: (progress: MarchProgress) => void,
    keep: (state: VerifyState) => void,
  ): Promise<VerifyAnswer> {
    const steps = solveTask(task, from);
    let told_ms = performance.now();
    let kept_ms = told_ms;
    for (;;) {
      const step = steps.next();
      if (step.done === true) return { ok: true, solved: step.value };
      const now_ms = performance.now();
      if (now_ms - told_ms < FOLLOW_EVERY_MS) continue;
      told_ms = now_ms;
      const { save, ...progress } = step.value;
      follow(progress);
      // Lets the word go out, and a call come in.
      await new Promise((resolve) => {
        setTimeout(resolve, 0);
      });
      if (asked !== null) {
        const state = save?.() ?? null;
        asked(state === null ? null : handOver(state));
        return { ok: false, reason: 'halted' };
      }
      if (save !== null && now_ms - kept_ms >= KEEP_EVERY_MS) {
        kept_ms = now_ms;
        keep(handOver(save()));
      }
    }
  }

  return {
    ready: () => VERSION,
    async solve(task, from, follow, keep) {
      busy = true;
      try {
        return await march(task, from, follow, keep);
      } catch (error) {
        // A flow that runs away; the class of an error is lost between threads.
        if (error instanceof RangeError) return { ok: false, reason: error.message };
        throw error;
      } finally {
        busy = false;
        asked?.(null);
      }
    },
    halt() {
      if (!busy) return Promise.resolve(null);
      return new Promise((resolve) => {
        asked = resolve;
      });
    },
  };
}
