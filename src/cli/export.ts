/** `anfract export RUN`: designs in their explicit form. */
import type { Command } from 'commander';
import { writeDesignFile } from '../formats/index.ts';
import { DISK, writeWhole } from '../store/index.ts';
import { terminalOf, withManners } from './options.ts';
import { findTargets } from './targets.ts';

export function addExport(program: Command): void {
  withManners(program.command('export'))
    .argument('<run>', 'a run folder')
    .argument('[ids...]', 'designs; `knee` and `best` stand for the marked ones')
    .option('--out <file>', 'write one design here instead of into the run folder')
    .description('Write designs as design files, to edit, measure or start from.')
    .addHelpText('after', '\nExample:\n  anfract export runs/a d007 --out plate.design.json')
    .action(async (path: string, ids: string[], options: { out?: string }, command: Command) => {
      const terminal = terminalOf(command);
      const { run, targets } = await findTargets(path, ids);
      for (const { name, file } of targets) {
        const text = writeDesignFile(file);
        if (options.out !== undefined && targets.length === 1) {
          writeWhole(DISK, options.out, text);
          terminal.result(options.out);
        } else if (run !== null) {
          terminal.result(run.put('designs', `${name}.design.json`, text));
        }
      }
    });
}
