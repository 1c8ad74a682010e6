/** The front of a run folder, and what has to be said about its age. */
import { InputError, RunError } from '../brief/index.ts';
import type { Front } from '../engine/index.ts';
import type { RunFolder } from '../store/index.ts';
import type { Terminal } from './terminal.ts';

/**
 * The front that was written last. A run that was resumed and then stopped hard, or is going on, has
 * generations that this front does not know: a remark says so.
 *
 * @throws InputError, RunError.
 */
export function readRunFront(run: RunFolder, terminal: Pick<Terminal, 'remark'>): Front {
  const front = run.readFront();
  const reached = generationsOf(run, terminal);
  if (reached > front.generation) {
    terminal.remark(
      `This front is of generation ${front.generation}; the run has since reached generation ${reached} without ending. ` +
        `Unless it is going on just now, anfract evolve --resume ${run.path} ends it.`,
    );
  }
  return front;
}

/** Generations of the history; 0, and a remark, where it cannot be read: a front shows without it. */
function generationsOf(run: RunFolder, terminal: Pick<Terminal, 'remark'>): number {
  try {
    return 1 + (run.readHistory().entries.at(-1)?.generation ?? -1);
  } catch (error) {
    if (!(error instanceof InputError || error instanceof RunError)) throw error;
    terminal.remark(error.message);
    return 0;
  }
}
