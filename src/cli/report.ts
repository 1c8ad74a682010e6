/** `anfract report RUN [ID...]`: one self-contained HTML file. */
import type { Command } from 'commander';
import { reportDesign, reportText } from '../engine/index.ts';
import type { ReportDesign } from '../engine/index.ts';
import { writeWhole, DISK, openRun } from '../store/index.ts';
import { terminalOf, withManners } from './options.ts';
import { readRunFront } from './run-front.ts';
import { resolveIds } from './targets.ts';
import { verifiedOf, withSlices } from './verified.ts';

export function addReport(program: Command): void {
  withManners(program.command('report'))
    .argument('<run>', 'a run folder')
    .argument(
      '[ids...]',
      'designs to show; `knee` and `best` stand for the marked ones, both when left out',
    )
    .option('--out <file>', 'instead of report.html in the run folder')
    .description('Write a report: pictures, charts, all measures, print advice, cautions.')
    .addHelpText(
      'after',
      '\nExamples:\n  anfract report runs/a\n  anfract report runs/a knee d012 --out two.html',
    )
    .action(async (path: string, ids: string[], options: { out?: string }, command: Command) => {
      const terminal = terminalOf(command);
      const run = openRun(path);
      const front = readRunFront(run, terminal);
      const wanted = resolveIds(front, ids.length === 0 ? ['knee', 'best'] : ids);
      const verified = verifiedOf(run, front);
      const designs: ReportDesign[] = [];
      for (const id of front.designs.length === 0 ? [] : wanted) {
        terminal.progress(`Looking at ${id} ...`);
        const computed = withSlices(run, verified.get(id) ?? []);
        designs.push(await reportDesign(front, id, null, computed));
      }
      const text = reportText(front, designs);
      const at = options.out ?? run.put(null, 'report.html', text);
      if (options.out !== undefined) writeWhole(DISK, at, text);
      terminal.result(terminal.json ? JSON.stringify({ report: at, designs: wanted }) : at);
    });
}
