/** `anfract verify RUN [ID...] | DESIGN.json`: the estimate against computed flows. */
import { availableParallelism } from 'node:os';
import type { Command } from 'commander';
import { InvalidArgumentError } from 'commander';
import { InputError, RunError, fault } from '../brief/index.ts';
import { verifyTasks } from '../engine/index.ts';
import type { VerifyTask } from '../engine/index.ts';
import { EXIT } from './exits.ts';
import { positive, terminalOf, whole, withManners } from './options.ts';
import { findTargets } from './targets.ts';
import type { Target } from './targets.ts';
import type { Terminal } from './terminal.ts';
import { computeFlows } from './verify-drive.ts';
import type { Driven, VerifyShelf } from './verify-drive.ts';
import { verifyPage } from './verify-page.ts';
import { designShelf, runShelf } from './verify-shelf.ts';

/** How flows are computed; `--verify-front` takes the defaults. */
export interface VerifyCliOptions {
  readonly cells: number;
  readonly velocity?: readonly number[];
  readonly spread: boolean;
  readonly workers?: number;
  /** Where `workers` is left out: all cores when this is too. */
  readonly mostWorkers?: number;
  readonly memory?: number;
  readonly again?: boolean;
}

export const VERIFY_CLI_DEFAULTS: VerifyCliOptions = { cells: 15, spread: true };

export function addVerify(program: Command): void {
  withManners(program.command('verify'))
    .argument('<source>', 'a run folder or a design file')
    .argument(
      '[ids...]',
      'designs of the run; `knee` (when left out) and `best` stand for the marked',
    )
    .option(
      '--cells <n>',
      'cells across the bore, on the coarser of two grids',
      whole(10, 40),
      VERIFY_CLI_DEFAULTS.cells,
    )
    .option(
      '--velocity <m/s,...>',
      'means at the inlet port of the median channel; the operating point, half and 1.5 times it when left out',
      velocities,
    )
    .option('--no-spread', 'leave out the channels of least and of greatest flow')
    .option('--workers <n>', 'flows computed at once; all cores when left out', whole(1, 256))
    .option('--memory <MB>', "most memory of all; half of the machine's when left out", positive)
    .option('--again', 'compute anew what was computed before')
    .description('Compute the air flow through channels of a design, against the estimate.')
    .addHelpText(
      'after',
      `
Each flow is that of one channel in an endless array of its like, drawn bore, smooth wall, up to
Re 1320, on two grids: half a minute to a few minutes. Results stand in verify.json of the run, with a
velocity field (.vti), a slice (.svg) and the places where dust landed (.vtp) each; \`measure\`,
\`report\` and \`show\` cite them. Ctrl-C
keeps what is solved and the state of what is not; the same command goes on from there.

Examples:
  anfract verify runs/a d007 d012
  anfract verify runs/a best --velocity 1,2
  anfract verify my-plate.json --velocity 1 --json`,
    )
    .action(async (source: string, ids: string[], options: VerifyCliOptions, command: Command) => {
      const terminal = terminalOf(command);
      const { run, targets } = await findTargets(source, ids, terminal);
      const shelf = run === null ? designShelf(source) : runShelf(run);
      const driven = await verifyTargets(targets, shelf, options, terminal);
      if (terminal.json) terminal.result(JSON.stringify(driven, null, 2));
      if (driven.interrupted) {
        terminal.remark(`Go on with  ${commandOf(source, ids, options)}`);
        process.exitCode = EXIT.interrupted;
        return;
      }
      if (driven.failed.length > 0) {
        const remedy = 'Raise --cells or lower --velocity; the other results are kept.';
        throw new RunError('not-computed', source, driven.failed.join('; '), remedy);
      }
    });
}

/** Computes what is asked of several designs, and prints each as a page. */
export async function verifyTargets(
  targets: readonly Target[],
  shelf: VerifyShelf,
  options: VerifyCliOptions,
  terminal: Terminal,
): Promise<Driven> {
  const tasks: VerifyTask[] = [];
  for (const target of targets) tasks.push(...planTarget(target, options, terminal));
  const driven = await computeFlows(
    tasks,
    shelf,
    {
      workers: options.workers ?? null,
      most: options.mostWorkers ?? availableParallelism(),
      memory_MB: options.memory ?? null,
      again: options.again === true,
    },
    terminal,
  );
  if (!terminal.json) {
    for (const { name } of targets) {
      const cases = driven.cases.filter((entry) => entry.design === name);
      if (cases.length > 0) terminal.result(verifyPage(terminal.strong(name), cases));
    }
    for (const reason of driven.failed) terminal.remark(reason);
  }
  if (driven.interrupted) {
    const kept = driven.cases.length;
    terminal.remark(`Stopped; ${kept} of ${tasks.length} flows are computed and kept.`);
  }
  return driven;
}

/** @throws InputError when none of a design's flows can be computed, or one that was asked for. */
export function planTarget(
  { name, file }: Target,
  { cells, velocity, spread }: VerifyCliOptions,
  terminal: Terminal,
): readonly VerifyTask[] {
  const choice = { cells, velocities_m_per_s: velocity ?? null, spread };
  const { tasks, refused } = verifyTasks(name, file.brief, file.design, choice);
  if (refused.length > 0 && (velocity !== undefined || tasks.length === 0)) {
    // Of the velocities about the operating point the first says enough.
    const faults = (velocity === undefined ? refused.slice(0, 1) : refused).map((why) =>
      fault(name, 'beyond the solver', `be solvable: ${why}`, 'Nothing was computed.'),
    );
    throw new InputError(faults, 'verify');
  }
  for (const why of refused) terminal.remark(`${name}, left out: ${why}.`);
  return tasks;
}

/** A list of positive numbers with commas. */
function velocities(text: string): number[] {
  const values = text.split(',').map(positive);
  if (new Set(values).size < values.length) {
    throw new InvalidArgumentError('Each velocity must stand once.');
  }
  return values;
}

/** The command that goes on. */
export function commandOf(
  source: string,
  ids: readonly string[],
  { cells, velocity, spread }: VerifyCliOptions,
): string {
  return [
    'anfract verify',
    // A name with blanks must come back from the shell as one.
    ...[source, ...ids].map((word) => (/^[\w./-]+$/.test(word) ? word : `'${word}'`)),
    ...(cells === VERIFY_CLI_DEFAULTS.cells ? [] : [`--cells ${cells}`]),
    ...(velocity === undefined ? [] : [`--velocity ${velocity.join(',')}`]),
    ...(spread ? [] : ['--no-spread']),
  ].join(' ');
}
