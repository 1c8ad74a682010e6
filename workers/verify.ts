/** The one protocol between a verification and its workers, in Node and in the browser alike. */
import { VERSION, solveTask } from '../src/engine/index.ts';
import type { VerifyProgress, VerifySolved, VerifyTask } from '../src/engine/index.ts';

/** A result, or why the flow could not be computed. */
export type VerifyAnswer =
  | { readonly ok: true; readonly solved: VerifySolved }
  | { readonly ok: false; readonly reason: string };

export interface VerifyService {
  /** Answers with the version of anfract in this worker. */
  ready(): string;
  /** Computes one flow. @param follow told now and then how far it is. */
  solve(task: VerifyTask, follow: (progress: VerifyProgress) => void): Promise<VerifyAnswer>;
}

/** Milliseconds between two words about progress. */
const FOLLOW_EVERY_MS = 250;

export function createVerifyService(): VerifyService {
  return {
    ready: () => VERSION,
    async solve(task, follow) {
      const march = solveTask(task);
      let told_ms = performance.now();
      try {
        for (;;) {
          const step = march.next();
          if (step.done === true) return { ok: true, solved: step.value };
          const now_ms = performance.now();
          if (now_ms - told_ms < FOLLOW_EVERY_MS) continue;
          told_ms = now_ms;
          follow(step.value);
          // Lets the word go out.
          await new Promise((resolve) => {
            setTimeout(resolve, 0);
          });
        }
      } catch (error) {
        // A flow that runs away; the class of an error is lost between threads.
        if (error instanceof RangeError) return { ok: false, reason: error.message };
        throw error;
      }
    },
  };
}
