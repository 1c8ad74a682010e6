/** `anfract compare RUN ...`: fronts side by side. */
import { statSync } from 'node:fs';
import { basename, resolve } from 'node:path';
import type { Command } from 'commander';
import { InputError, fault } from '../brief/index.ts';
import { compareFronts, openFile } from '../engine/index.ts';
import type { Comparison, Front } from '../engine/index.ts';
import { figure } from '../formats/index.ts';
import { openRun } from '../store/index.ts';
import { fileBytes } from './files.ts';
import { terminalOf, withManners } from './options.ts';
import { readRunFront } from './run-front.ts';
import type { Terminal } from './terminal.ts';
import { table, wrap } from './words.ts';

interface Options {
  readonly by?: readonly string[];
}

export function addCompare(program: Command): void {
  withManners(program.command('compare'))
    .argument('<fronts...>', 'two or more: run folders, their zips, front.json files')
    .option('--by <measures...>', 'measures that count; the objectives all share when left out')
    .description('Compare fronts: who survives among all, who beats whom, how much each reaches.')
    .addHelpText(
      'after',
      '\nExamples:\n  anfract compare runs/a runs/b\n  anfract compare runs/a mail/front.json --by pressureDrop_Pa mass_g',
    )
    .action(async (paths: string[], options: Options, command: Command) => {
      const terminal = terminalOf(command);
      const names = shortNames(paths);
      const fronts = [];
      for (const [i, path] of paths.entries()) {
        fronts.push({ ...(await frontAt(path, terminal)), name: names[i] });
      }
      const found = compareFronts(fronts, options.by ?? []);
      terminal.result(
        terminal.json ? JSON.stringify(asJson(found)) : comparisonPage(found, terminal),
      );
    });
}

async function frontAt(path: string, terminal: Terminal): Promise<Front> {
  if (statSync(path, { throwIfNoEntry: false })?.isDirectory() === true) {
    return readRunFront(openRun(path), terminal);
  }
  const opened = openFile(await fileBytes(path), path);
  if (opened.kind === 'front') return opened.front;
  const remedy = 'Give the front these notes belong to.';
  throw new InputError([fault('format', "'anfract-notes'", 'be a front', remedy)], path);
}

/** Last parts of the paths; whole paths where those are not enough to tell them apart. */
function shortNames(paths: readonly string[]): string[] {
  const short = paths.map((path) => basename(resolve(path)));
  return new Set(short).size === short.length ? short : [...paths];
}

/** Measures by id only: their long texts stand in the fronts. */
function asJson(found: Comparison): unknown {
  return {
    ...found,
    by: found.by.map(({ id, unit, better }) => ({ id, unit, better })),
    common: found.common.map(({ id }) => id),
  };
}

function comparisonPage(found: Comparison, terminal: Pick<Terminal, 'strong'>): string {
  const { by, fronts, dominated, yardstick, remarks } = found;
  const joint = fronts.reduce((sum, front) => sum + front.joint.length, 0);
  const names = by.map(({ label, better }) => `${label} (${better} is better)`).join(', ');
  const parts = [
    terminal.strong(`${fronts.length} fronts compared by ${names}`),
    '',
    table(
      ['front', 'designs', 'of the joint front', 'share of it', 'hypervolume'],
      fronts.map((front) => [
        front.name,
        String(front.compared),
        String(front.joint.length),
        joint === 0 ? '-' : `${Math.round((100 * front.joint.length) / joint)} %`,
        front.hypervolume === null ? '-' : figure(front.hypervolume),
      ]),
    ),
    '',
    'Designs of the front in the column that some design of the front in the row beats:',
    '',
    table(
      ['', ...fronts.map(({ name }) => name)],
      fronts.map(({ name }, i) => [
        name,
        ...dominated[i].map((count, j) => (i === j ? '-' : String(count))),
      ]),
    ),
    '',
    wrap(
      `The hypervolume is the share of a box that a front dominates: from the best reading of all designs together to a tenth of the span beyond the worst (${by
        .map(
          ({ id }, k) => `${id} ${figure(yardstick.best[k])} to ${figure(yardstick.reference[k])}`,
        )
        .join(', ')}). It holds for this comparison only.`,
      '',
    ),
    ...remarks.map((remark) => wrap(remark, '')),
  ];
  return parts.join('\n');
}
