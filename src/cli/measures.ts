/** `anfract measures`: the registry. */
import type { Command } from 'commander';
import { listMeasures } from '../engine/index.ts';
import { terminalOf, withManners } from './options.ts';
import { table } from './words.ts';

export function addMeasures(program: Command): void {
  withManners(program.command('measures'))
    .description('List every measure: what can be an objective or a limit.')
    .addHelpText('after', '\nExample:\n  anfract measures --json')
    .action((_options: unknown, command: Command) => {
      const terminal = terminalOf(command);
      const all = listMeasures();
      if (terminal.json) {
        terminal.result(JSON.stringify(all, null, 2));
        return;
      }
      const rows = all.map((info) => [info.id, info.unit, info.better, info.standing, info.label]);
      terminal.result(table(['measure', 'unit', 'better', 'standing', 'meaning'], rows));
    });
}
