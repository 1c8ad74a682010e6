/** Computes flows on all cores, with progress, Ctrl-C and everything kept that is solved. */
import { totalmem } from 'node:os';
import { InputError, fault } from '../brief/index.ts';
import { solvedBefore } from '../engine/index.ts';
import type { VerifyState, VerifySolved, VerifyTask } from '../engine/index.ts';
import { figure } from '../formats/index.ts';
import type { VerifyCase } from '../formats/index.ts';
import { solveAll } from '../../workers/verify-crew.ts';
import { spawnVerifyThread } from '../../workers/verify-crew.node.ts';
import { EXIT } from './exits.ts';
import type { Terminal } from './terminal.ts';
import { VerifyClock } from './verify-progress.ts';
import { VERIFY_ENTRY } from './worker-entry.ts';

export interface DriveOptions {
  /** All of them must fit into the memory; as many as do, up to `most`, when null. */
  readonly workers: number | null;
  readonly most: number;
  /** Most memory for all solves together; half of the machine's when null. */
  readonly memory_MB: number | null;
  /** Computes again what stands in the file. */
  readonly again: boolean;
}

/** Where results come from and go to. */
export interface VerifyShelf {
  /** Results that stand there already. */
  readonly earlier: readonly VerifyCase[];
  /** Keeps a result with its files; gives it back with their names. */
  keep(solved: VerifySolved): VerifyCase;
  /** The state of a flow that was stopped; null where there is none. */
  findState(task: VerifyTask): VerifyState | null;
  keepState(task: VerifyTask, state: VerifyState): void;
  dropState(task: VerifyTask): void;
}

export interface Driven {
  /** In the order of the tasks: computed now or before. */
  readonly cases: readonly VerifyCase[];
  /** Flows that ran away or lost their workers. */
  readonly failed: readonly string[];
  readonly interrupted: boolean;
}

/** @throws InputError when the solves would take more memory than allowed. */
export async function computeFlows(
  tasks: readonly VerifyTask[],
  shelf: VerifyShelf,
  options: DriveOptions,
  terminal: Terminal,
): Promise<Driven> {
  const cases = tasks.map((task) => (options.again ? null : solvedBefore(task, shelf.earlier)));
  const open = tasks.flatMap((_, i) => (cases[i] === null ? [i] : []));
  if (open.length < tasks.length) {
    const count = tasks.length - open.length;
    terminal.remark(
      `${count} of ${tasks.length} flows ${count === 1 ? 'was' : 'were'} computed before (--again computes them anew).`,
    );
  }
  const failed: string[] = [];
  const stop = new AbortController();
  if (open.length > 0) {
    const todo = open.map((i) => tasks[i]);
    const size = workersFor(todo, options);
    const interrupt = (): void => {
      if (stop.signal.aborted) process.exit(EXIT.interrupted);
      stop.abort();
    };
    process.on('SIGINT', interrupt);
    process.on('SIGTERM', interrupt);
    terminal.remark(
      `Computing ${todo.length} ${todo.length === 1 ? 'flow' : 'flows'} with ${size} ${size === 1 ? 'worker' : 'workers'}, up to ${megabytes(size * greatest(todo))} MB; Ctrl-C keeps what is solved.`,
    );
    const clock = new VerifyClock(
      todo.map((task) => task.memory_bytes),
      performance.now(),
    );
    const resumed = new Set<number>();
    const tell = (): void =>
      terminal.progress(clock.line(performance.now(), (at) => titleOf(todo[at])));
    try {
      await solveAll(todo, {
        size,
        spawn: () => spawnVerifyThread(VERIFY_ENTRY),
        signal: stop.signal,
        from(at) {
          const state = options.again ? null : stateOf(todo[at], shelf, terminal);
          if (state !== null) resumed.add(at);
          return state;
        },
        onState: (at, state) => shelf.keepState(todo[at], state),
        onProgress(at, progress) {
          clock.follow(at, progress, resumed.delete(at));
          tell();
        },
        onAnswer(at, answer) {
          clock.end(at);
          const title = titleOf(todo[at]);
          if (answer.ok) {
            const kept = shelf.keep(answer.solved);
            shelf.dropState(todo[at]);
            cases[open[at]] = kept;
            terminal.remark(
              `${title}: ${figure(kept.pressureDrop_Pa)} Pa, estimated ${figure(kept.estimate_Pa)} Pa`,
            );
          } else failed.push(`${title}: ${answer.reason}`);
          tell();
        },
        onLoss: (reason) =>
          terminal.remark(`A worker was lost and its flow begun again (${reason}).`),
      });
    } finally {
      process.off('SIGINT', interrupt);
      process.off('SIGTERM', interrupt);
    }
  }
  return {
    cases: cases.filter((entry) => entry !== null),
    failed: failed.toSorted(),
    interrupted: stop.signal.aborted,
  };
}

/** A damaged state costs time, not the flow. */
function stateOf(task: VerifyTask, shelf: VerifyShelf, terminal: Terminal): VerifyState | null {
  try {
    const state = shelf.findState(task);
    if (state !== null) {
      terminal.remark(
        `${titleOf(task)}: going on from step ${state.march.step} where it was stopped.`,
      );
    }
    return state;
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    terminal.remark(error.message);
    return null;
  }
}

function titleOf({ name, role, found }: VerifyTask): string {
  return `${name} ${role} ${found.velocity_m_per_s.toFixed(2)} m/s`;
}

const greatest = (tasks: readonly VerifyTask[]): number =>
  tasks.reduce((most, task) => Math.max(most, task.memory_bytes), 0);
const megabytes = (bytes: number): string => (bytes / 1e6).toFixed(0);

/** Share of the machine's memory that solves may take when nothing else is said. */
const MEMORY_SHARE = 0.5;

/**
 * Workers that fit into the memory; asked for explicitly, all of them must.
 *
 * @throws InputError.
 */
export function workersFor(
  tasks: readonly Pick<VerifyTask, 'memory_bytes'>[],
  { workers, most, memory_MB }: Pick<DriveOptions, 'workers' | 'most' | 'memory_MB'>,
): number {
  const bound = memory_MB === null ? MEMORY_SHARE * totalmem() : memory_MB * 1e6;
  const each = tasks.reduce((top, task) => Math.max(top, task.memory_bytes), 1);
  const wanted = Math.min(workers ?? most, tasks.length);
  const fitting = Math.floor(bound / each);
  if (fitting >= wanted) return wanted;
  if (fitting >= 1 && workers === null) return fitting;
  const found = `${megabytes(wanted * each)} MB for ${wanted} at once`;
  const allowed = `stay within ${megabytes(bound)} MB`;
  const remedy =
    fitting >= 1
      ? `Use --workers ${fitting}, fewer --cells, or allow more with --memory.`
      : `One alone takes ${megabytes(each)} MB: use fewer --cells, or allow more with --memory.`;
  throw new InputError([fault('memory', found, allowed, remedy)], 'verify');
}
