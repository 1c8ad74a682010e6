/** `anfract evolve BRIEF | --resume RUN`: the main job. */
import { availableParallelism } from 'node:os';
import { basename } from 'node:path';
import type { Command } from 'commander';
import { InputError, fault } from '../brief/index.ts';
import { PARTS, VERSION, checkBrief, startFrom } from '../engine/index.ts';
import type { Brief, Checkpoint, ExtraStart } from '../engine/index.ts';
import { readDesignFile, readJson } from '../formats/index.ts';
import { createRun, openRun } from '../store/index.ts';
import type { RunFolder } from '../store/index.ts';
import { EXIT } from './exits.ts';
import { readText } from './files.ts';
import { finishRun } from './finish.ts';
import { positive, terminalOf, whole, withManners } from './options.ts';
import { driveRun } from './run.ts';
import type { Terminal } from './terminal.ts';
import { verifyFront } from './verify-ends.ts';

interface Options {
  readonly out?: string;
  readonly resume?: string;
  readonly replace?: boolean;
  readonly workers: number;
  readonly seed?: string;
  readonly population?: number;
  readonly generations?: number;
  readonly time?: number;
  readonly start?: string[];
  readonly meshes: boolean;
  readonly verifyFront?: number;
}

/** Name of a kept starting design: a file on the run's shelf of designs. */
const START_PREFIX = 'start-';

export function addEvolve(program: Command): void {
  withManners(program.command('evolve'))
    .argument('[brief]', 'a brief; left out with --resume')
    .option('--out <folder>', 'run folder; runs/NAME-SEED when left out')
    .option('--resume <run>', 'go on with a run that was stopped or killed')
    .option('--replace', 'replace a run that stands in the folder')
    .option(
      '--workers <n>',
      'worker threads; the front does not depend on them',
      whole(1, 256),
      availableParallelism(),
    )
    .option('--seed <text>', 'instead of search.seed')
    .option('--population <n>', 'instead of search.population', whole(8, 5000))
    .option('--generations <n>', 'instead of search.generations', whole(1, 100_000))
    .option('--time <seconds>', 'instead of search.timeLimit_s', positive)
    .option('--start <design...>', 'design files to begin with')
    .option('--no-meshes', 'write no meshes at the end')
    .option(
      '--verify-front <n>',
      'at the end compute the flow of the n designs that differ most',
      whole(1, 1000),
    )
    .description('Evolve a brief to a Pareto front and write the run folder.')
    .addHelpText(
      'after',
      `
Examples:
  anfract evolve plate.json --out runs/a
  anfract evolve plate.json --seed two --workers 2 --quiet
  anfract evolve plate.json --start drawn.design.json
  anfract evolve --resume runs/a --generations 500
  anfract evolve plate.json --out runs/b --verify-front 5    (leave it overnight)

Ctrl-C ends the generation, writes everything and says how to go on; a second one ends at once.
The same brief and seed give the same front for any number of workers, also after a resume.`,
    )
    .action(async (path: string | undefined, options: Options, command: Command) => {
      const terminal = terminalOf(command);
      const opened = await openEvolution(path, options, terminal);
      try {
        const { front, why } = await driveRun(opened, options.workers, terminal);
        await finishRun(opened.run, front, why, options.meshes && why !== 'interrupted', terminal);
        if (why === 'interrupted') process.exitCode = EXIT.interrupted;
        else if (options.verifyFront !== undefined) {
          await verifyFront(opened.run, front, options.verifyFront, options.workers, terminal);
        }
      } finally {
        opened.run.close();
      }
    });
}

/** What a run starts from. */
export interface Evolution {
  readonly run: RunFolder;
  readonly brief: Brief;
  readonly checkpoint: Checkpoint | null;
  readonly starts: readonly ExtraStart[];
}

async function openEvolution(
  path: string | undefined,
  options: Options,
  terminal: Terminal,
): Promise<Evolution> {
  if ((path === undefined) === (options.resume === undefined)) {
    const found = path === undefined ? 'missing' : `${path} beside --resume`;
    const remedy = '`anfract help evolve` shows examples.';
    throw new InputError(
      [fault('brief', found, 'be given, or --resume, not both', remedy)],
      'evolve',
    );
  }
  if (options.resume !== undefined) {
    refuseBesideResume(options);
    return resumeEvolution(options.resume, options, terminal);
  }
  const file = path ?? '';
  const written = readJson(await readText(file), file, { strict: true });
  const brief = withOptions(checkBrief(written, file), options);
  const drawn = options.start ?? [];
  const starts = await Promise.all(drawn.map((start) => readStart(brief, start)));
  const folder = options.out ?? `runs/${slug(brief.name)}-${slug(brief.search.seed)}`;
  const run = createRun(folder, brief, {
    anfract: VERSION,
    parts: PARTS,
    replace: options.replace === true,
  });
  // Kept beside the brief, so that a run killed before its first checkpoint begins the same way.
  for (const [i, start] of drawn.entries()) {
    run.put(
      'designs',
      `${START_PREFIX}${String(i + 1).padStart(3, '0')}.json`,
      await readText(start),
    );
  }
  return { run, brief, checkpoint: null, starts };
}

/** @throws InputError for options that only a new run can follow, rather than pass over them. */
function refuseBesideResume({ out, start, replace }: Options): void {
  const given = [
    ...(out === undefined ? [] : ['--out']),
    ...(start === undefined ? [] : ['--start']),
    ...(replace === true ? ['--replace'] : []),
  ];
  if (given.length === 0) return;
  const found = `beside ${given.join(' and ')}`;
  const remedy = 'A resumed run goes on in its own folder from its own designs: leave them out.';
  throw new InputError([fault('resume', found, 'stand without them', remedy)], 'evolve');
}

async function resumeEvolution(
  folder: string,
  options: Options,
  terminal: Terminal,
): Promise<Evolution> {
  const run = openRun(folder, { write: true });
  try {
    if (!run.hasCheckpoint()) {
      terminal.remark('The run was stopped before its first checkpoint: it begins again.');
      const known = run.readBrief();
      const brief = withOptions(known, options);
      if (brief !== known) run.writeBrief(brief);
      run.writeHistory([]);
      const kept = run.list('designs').filter((path) => basename(path).startsWith(START_PREFIX));
      const starts = await Promise.all(kept.map((path) => readStart(brief, path)));
      return { run, brief, checkpoint: null, starts };
    }
    const { checkpoint, note } = run.resume();
    if (note !== null) terminal.remark(note);
    const brief = withOptions(checkpoint.brief, options);
    if (brief !== checkpoint.brief) run.writeBrief(brief);
    return { run, brief, checkpoint, starts: [] };
  } catch (error) {
    run.close();
    throw error;
  }
}

async function readStart(brief: Brief, path: string): Promise<ExtraStart> {
  return startFrom(brief, readDesignFile(await readText(path), path));
}

/** The brief with what the command line changes, checked again. */
function withOptions(brief: Brief, options: Options): Brief {
  const { seed, population, generations, time } = options;
  const changes = {
    ...(seed === undefined ? {} : { seed }),
    ...(population === undefined ? {} : { population }),
    ...(generations === undefined ? {} : { generations }),
    ...(time === undefined ? {} : { timeLimit_s: time }),
  };
  if (Object.keys(changes).length === 0) return brief;
  if (options.resume !== undefined && (seed !== undefined || population !== undefined)) {
    const remedy = 'Start a new run to change them.';
    const found = seed === undefined ? `--population ${population}` : `--seed ${seed}`;
    throw new InputError([fault('resume', found, 'keep seed and population', remedy)], 'evolve');
  }
  return checkBrief({ ...brief, search: { ...brief.search, ...changes } }, 'evolve');
}

function slug(text: string): string {
  return (
    text
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-|-$/g, '') || 'run'
  );
}
