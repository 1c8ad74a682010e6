/** What `measure`, `mesh` and `export` work on: designs of a run, or a design file. */
import { statSync } from 'node:fs';
import { basename } from 'node:path';
import { InputError, fault } from '../brief/index.ts';
import { bestOf, checkBrief, designOf, findDesign, kneeOf, namedGenes } from '../engine/index.ts';
import type { Front } from '../engine/index.ts';
import { readDesignFile } from '../formats/index.ts';
import type { DesignFile } from '../formats/index.ts';
import { openRun } from '../store/index.ts';
import type { RunFolder } from '../store/index.ts';
import { readText } from './files.ts';
import { readRunFront } from './run-front.ts';
import type { Terminal } from './terminal.ts';

export interface Target {
  /** Plain name for files: the design's id, or the name of its file. */
  readonly name: string;
  readonly file: DesignFile;
}

interface Targets {
  /** The run the designs come from; null for a design file. */
  readonly run: RunFolder | null;
  readonly targets: readonly Target[];
}

/**
 * @param path a run folder or a design file.
 * @param ids designs of the run; `knee` and `best` stand for the marked ones.
 * @param terminal hears when the run has gone on since its front was written.
 * @throws InputError, RunError.
 */
export async function findTargets(
  path: string,
  ids: readonly string[],
  terminal: Pick<Terminal, 'remark'> | null = null,
): Promise<Targets> {
  if (statSync(path, { throwIfNoEntry: false })?.isDirectory() === true) {
    const run = openRun(path);
    const front = terminal === null ? run.readFront() : readRunFront(run, terminal);
    return { run, targets: resolveIds(front, ids).map((id) => targetOf(front, id)) };
  }
  const file = readDesignFile(await readText(path), path);
  checkBrief(file.brief, path);
  if (ids.length > 0) {
    const remedy = 'Leave the id out, or give a run folder.';
    throw new InputError(
      [fault('design', ids.join(' '), 'be left out for a design file', remedy)],
      path,
    );
  }
  return {
    run: null,
    targets: [{ name: basename(path).replace(/\.json$/, '') || 'design', file }],
  };
}

/**
 * The one design that a command works on.
 *
 * @throws InputError when the word stands for several, RunError.
 */
export async function findTarget(
  path: string,
  id: string | undefined,
  terminal: Pick<Terminal, 'remark'>,
): Promise<Target & Pick<Targets, 'run'>> {
  const { run, targets } = await findTargets(path, id === undefined ? [] : [id], terminal);
  if (targets.length === 1) return { run, ...targets[0] };
  const names = targets.map(({ name }) => name).join(', ');
  const found = `${id} (${names})`;
  throw new InputError([fault('id', found, 'stand for one design', 'Give one of them.')], path);
}

/** A design of a front in its explicit form. */
export function targetOf(front: Front, id: string): Target {
  const found = findDesign(front, id);
  return {
    name: id,
    file: {
      name: `${front.brief.name}, ${id}`,
      brief: front.brief,
      design: designOf(front, found),
      genes: namedGenes(front, found),
    },
  };
}

/** Designs meant by words of the command line: ids, `knee`, `best`; the knee when there are none. */
export function resolveIds(front: Front, ids: readonly string[]): string[] {
  const wanted = ids.length === 0 ? ['knee'] : ids;
  const resolved = wanted.flatMap((id) => {
    if (id === 'knee') {
      const knee = kneeOf(front);
      return knee === null ? [id] : [knee.id];
    }
    return id === 'best' ? bestOf(front).map((design) => design.id) : [id];
  });
  return [...new Set(resolved)];
}
