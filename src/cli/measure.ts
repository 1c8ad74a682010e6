/** `anfract measure RUN ID... | DESIGN.json`: every number of a design. */
import type { Command } from 'commander';
import { casesFor, measure } from '../engine/index.ts';
import { measureData, measurePage } from './measure-page.ts';
import { terminalOf, withManners } from './options.ts';
import { findTargets } from './targets.ts';
import { designShelf } from './verify-shelf.ts';

export function addMeasure(program: Command): void {
  withManners(program.command('measure'))
    .argument('<source>', 'a run folder or a design file')
    .argument(
      '[ids...]',
      'designs of the run; `knee` (when left out) and `best` stand for the marked ones',
    )
    .description('All measures of a design, with limits, ranges of validity, sources and cautions.')
    .addHelpText(
      'after',
      '\nExamples:\n  anfract measure runs/a d007\n  anfract measure plate.design.json --json',
    )
    .action(async (source: string, ids: string[], _options: unknown, command: Command) => {
      const terminal = terminalOf(command);
      const { run, targets } = await findTargets(source, ids, terminal);
      const all = run === null ? designShelf(source).earlier : run.readVerify();
      for (const { name, file } of targets) {
        const measured = measure(file.brief, file.design);
        const flows = casesFor(name, file.brief, file.design, all);
        terminal.result(
          terminal.json
            ? measureData(file.name, measured, flows)
            : measurePage(file.name, file.brief, measured, flows, terminal),
        );
      }
    });
}
