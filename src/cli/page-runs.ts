/** What a folder of runs holds, for the list of the page. */
import { existsSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { InputError, RunError } from '../brief/index.ts';
import type { ListedRun } from '../engine/index.ts';
import { openRun } from '../store/index.ts';

const MOST_RUNS = 2000;

/** Runs of a folder, newest first; what is no run, or cannot be read, is left out. */
export function listRuns(folder: string): Promise<ListedRun[]> {
  const runs: ListedRun[] = [];
  for (const entry of readdirSync(folder, { withFileTypes: true }).slice(0, MOST_RUNS)) {
    const run =
      entry.isDirectory() && !entry.name.startsWith('.') ? listed(folder, entry.name) : null;
    if (run !== null) runs.push(run);
  }
  return Promise.resolve(runs.toSorted((a, b) => b.changed - a.changed));
}

function listed(folder: string, name: string): ListedRun | null {
  const path = join(folder, name);
  if (!existsSync(join(path, 'run.json'))) return null;
  try {
    const run = openRun(path);
    const brief = run.readBrief();
    const { entries } = run.readHistory();
    const last = entries.at(-1);
    const history = join(path, 'history.jsonl');
    return {
      folder: name,
      name: brief.name,
      objectives: brief.goals.objectives,
      generation: entries.length,
      generations: brief.search.generations,
      archived: last?.archived ?? 0,
      hypervolume: last?.hypervolume ?? 0,
      finished: run.hasFront(),
      changed: statSync(existsSync(history) ? history : path).mtimeMs,
      picture: existsSync(join(path, 'pictures', 'front.svg')),
      notes: existsSync(join(path, 'notes.json')),
      verified: existsSync(join(path, 'verify.json')),
    };
  } catch (error) {
    if (error instanceof InputError || error instanceof RunError) return null;
    throw error;
  }
}
