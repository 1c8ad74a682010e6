/** `anfract export RUN`: designs in their explicit form. */
import type { Command } from 'commander';
import { InputError, fault } from '../brief/index.ts';
import { writeDesignFile } from '../formats/index.ts';
import { DISK, writeWhole } from '../store/index.ts';
import { terminalOf, withManners } from './options.ts';
import { findTargets } from './targets.ts';

export function addExport(program: Command): void {
  withManners(program.command('export'))
    .argument('<run>', 'a run folder')
    .argument('[ids...]', 'designs; `knee` (when left out) and `best` stand for the marked ones')
    .option('--out <file>', 'write one design here instead of into the run folder')
    .description('Write designs as design files, to edit, measure or start from.')
    .addHelpText('after', '\nExample:\n  anfract export runs/a d007 --out plate.design.json')
    .action(async (path: string, ids: string[], options: { out?: string }, command: Command) => {
      const terminal = terminalOf(command);
      const { run, targets } = await findTargets(path, ids, terminal);
      if (run === null) {
        const remedy = 'A design file is in its explicit form already.';
        throw new InputError([fault('run', path, 'be a run folder', remedy)], 'export');
      }
      if (options.out !== undefined && targets.length !== 1) {
        const found = `one file for ${targets.length} designs`;
        const remedy = 'Leave it out, and they go into the run folder.';
        throw new InputError([fault('out', found, 'be for one design', remedy)], 'export');
      }
      for (const { name, file } of targets) {
        const text = writeDesignFile(file);
        const at = options.out ?? run.put('designs', `${name}.design.json`, text);
        if (options.out !== undefined) writeWhole(DISK, at, text);
        terminal.result(terminal.json ? JSON.stringify({ design: name, file: at }) : at);
      }
    });
}
