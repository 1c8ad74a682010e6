/** How far a set of flows is computed, and how long it will take. */
import type { VerifyProgress } from '../engine/index.ts';
import { duration } from './words.ts';

const BAR_WIDTH = 16;

type March = Omit<VerifyProgress, 'save'>;

/** Progress of several flows, each with the work that it is expected to take. */
export class VerifyClock {
  readonly #weights: readonly number[];
  readonly #shares: number[];
  /** Shares already done when a flow went on from a state: they say nothing of the pace. */
  readonly #given: number[];
  readonly #marches: (March | null)[];
  readonly #began_ms: number;

  /** @param weights expected work of each flow, in any unit. */
  constructor(weights: readonly number[], began_ms: number) {
    this.#weights = weights;
    this.#shares = weights.map(() => 0);
    this.#given = weights.map(() => 0);
    this.#marches = weights.map(() => null);
    this.#began_ms = began_ms;
  }

  /** @param resumed whether it is the first word of a flow that went on from a state. */
  follow(at: number, march: March, resumed = false): void {
    this.#marches[at] = march;
    this.#shares[at] = Math.max(this.#shares[at], Math.min(1, march.done));
    if (resumed) this.#given[at] = this.#shares[at];
  }

  end(at: number): void {
    this.#shares[at] = 1;
    this.#marches[at] = null;
  }

  #mean(shares: readonly number[]): number {
    const all = this.#weights.reduce((sum, weight) => sum + weight, 0);
    return this.#weights.reduce((sum, weight, i) => sum + weight * shares[i], 0) / all;
  }

  /** Share of all work done [0..1]. */
  get done(): number {
    return this.#mean(this.#shares);
  }

  /** Seconds that the rest will take at the pace so far; null before anything was done. */
  left_s(now_ms: number): number | null {
    const { done } = this;
    const own = done - this.#mean(this.#given);
    return own <= 0 ? null : ((now_ms - this.#began_ms) / 1000) * ((1 - done) / own);
  }

  /** The progress line. @param title of a flow. */
  line(now_ms: number, title: (at: number) => string): string {
    const ended = this.#shares.filter((_, i) => this.#marches[i] === null && this.#shares[i] === 1);
    const filled = Math.round(this.done * BAR_WIDTH);
    const left = this.left_s(now_ms);
    const at = this.#marches.findIndex((march) => march !== null);
    const march = this.#marches[at];
    const count = this.#shares.length;
    return [
      `flow ${Math.min(ended.length + 1, count)}/${count} [${'='.repeat(filled)}${'.'.repeat(BAR_WIDTH - filled)}]`,
      ...(left === null ? [] : [`${duration(left)} left`]),
      ...(march === undefined || march === null
        ? []
        : [
            `${title(at)}: grid ${march.pass} of 2, step ${march.step}, loss ${march.loss.toFixed(3)}`,
          ]),
    ].join('  ');
  }
}
