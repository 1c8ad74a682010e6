/** How far a set of flows is computed, and how long it will take. */
import type { VerifyProgress } from '../engine/index.ts';
import { duration } from './words.ts';

const BAR_WIDTH = 16;
/** Finer grid over coarser; work rises with its fourth power, since the steps become shorter too. */
const FINER = 4 / 3;
const COARSE_SHARE = 1 / (1 + FINER * FINER * FINER * FINER);
/** Steps of the coarse grid before any were counted: flows in short channels took 3000 to 9000. */
const USUAL_STEPS = 7000;
/** A march that goes on beyond the usual steps is told as nearly done. */
const NEARLY = 0.95;

/** Progress of several flows, each with the work that it is expected to take. */
export class VerifyClock {
  readonly #weights: readonly number[];
  readonly #shares: number[];
  readonly #marches: (VerifyProgress | null)[];
  readonly #began_ms: number;
  #coarseSteps: number[] = [];

  /** @param weights expected work of each flow, in any unit. */
  constructor(weights: readonly number[], began_ms: number) {
    this.#weights = weights;
    this.#shares = weights.map(() => 0);
    this.#marches = weights.map(() => null);
    this.#began_ms = began_ms;
  }

  follow(at: number, progress: VerifyProgress): void {
    const before = this.#marches[at];
    if (before?.pass === 1 && progress.pass === 2) this.#coarseSteps.push(before.step);
    this.#marches[at] = progress;
    const coarse = this.#usualSteps();
    const usual = progress.pass === 1 ? coarse : coarse * FINER;
    const pass = Math.min(NEARLY, progress.step / usual);
    const share =
      progress.pass === 1 ? COARSE_SHARE * pass : COARSE_SHARE + (1 - COARSE_SHARE) * pass;
    this.#shares[at] = Math.max(this.#shares[at], share);
  }

  end(at: number): void {
    this.#shares[at] = 1;
    this.#marches[at] = null;
  }

  #usualSteps(): number {
    const seen = this.#coarseSteps;
    return seen.length === 0 ? USUAL_STEPS : seen.reduce((sum, n) => sum + n, 0) / seen.length;
  }

  /** Share of all work done [0..1]. */
  get done(): number {
    const all = this.#weights.reduce((sum, weight) => sum + weight, 0);
    return this.#weights.reduce((sum, weight, i) => sum + weight * this.#shares[i], 0) / all;
  }

  /** Seconds that the rest will take at the pace so far; null before anything was done. */
  left_s(now_ms: number): number | null {
    const { done } = this;
    return done === 0 ? null : ((now_ms - this.#began_ms) / 1000) * (1 / done - 1);
  }

  /** The progress line. @param title of a flow. */
  line(now_ms: number, title: (at: number) => string): string {
    const ended = this.#shares.filter((share) => share === 1).length;
    const filled = Math.round(this.done * BAR_WIDTH);
    const left = this.left_s(now_ms);
    const at = this.#marches.findIndex((march) => march !== null);
    const march = this.#marches[at];
    return [
      `flow ${Math.min(ended + 1, this.#shares.length)}/${this.#shares.length} [${'='.repeat(filled)}${'.'.repeat(BAR_WIDTH - filled)}]`,
      ...(left === null ? [] : [`${duration(left)} left`]),
      ...(march === undefined || march === null
        ? []
        : [
            `${title(at)}: grid ${march.pass} of 2, step ${march.step}, loss ${march.loss.toFixed(3)}`,
          ]),
    ].join('  ');
  }
}
