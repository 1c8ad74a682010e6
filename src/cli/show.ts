/** `anfract show RUN`: the front as a table. */
import type { Command } from 'commander';
import { frontOf } from '../engine/index.ts';
import { writeFrontCsv, writeFrontFile } from '../formats/index.ts';
import { openRun } from '../store/index.ts';
import { frontPage } from './front-page.ts';
import { terminalOf, whole, withManners } from './options.ts';
import { readRunFront } from './run-front.ts';
import { verifiedIfReadable } from './verified.ts';

export function addShow(program: Command): void {
  withManners(program.command('show'))
    .argument('<run>', 'a run folder, finished or in progress')
    .option('--rows <n>', 'most rows of the table', whole(1, 5000), 25)
    .option('--csv', 'the whole front as CSV, every measure and gene')
    .description('Show a front: table, best per objective, knee, starting designs.')
    .addHelpText(
      'after',
      '\nExamples:\n  anfract show runs/a\n  anfract show runs/a --csv > front.csv',
    )
    .action((path: string, options: { rows: number; csv?: boolean }, command: Command) => {
      const terminal = terminalOf(command);
      const run = openRun(path);
      const finished = run.hasFront();
      const front = finished
        ? readRunFront(run, terminal)
        : frontOf(run.findCheckpoint().checkpoint);
      if (options.csv === true) {
        terminal.result(writeFrontCsv(front).trimEnd());
      } else if (terminal.json) {
        terminal.result(writeFrontFile(front).trimEnd());
      } else {
        if (!finished) terminal.remark('The run has not ended: this is its last checkpoint.');
        const verified = verifiedIfReadable(run, front, terminal);
        terminal.result(frontPage(front, options.rows, terminal, verified));
      }
    });
}
