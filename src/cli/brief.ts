/** `anfract brief new | check | schema`. */
import { existsSync } from 'node:fs';
import type { Command } from 'commander';
import { InputError, RunError, briefTemplate, fault } from '../brief/index.ts';
import { checkBrief, explainBrief, listMeasures } from '../engine/index.ts';
import { readJson, schemaFiles } from '../formats/index.ts';
import { DISK, writeWhole } from '../store/index.ts';
import { briefPage } from './brief-page.ts';
import { readText } from './files.ts';
import { terminalOf, withManners } from './options.ts';

export function addBrief(program: Command): void {
  const brief = program.command('brief').description('Write, check or describe briefs.');

  withManners(brief.command('new'))
    .argument('[file]', 'where to write it; stdout when left out')
    .description('Write a commented starting brief (an invented example).')
    .addHelpText('after', '\nExample:\n  anfract brief new plate.json')
    .action((file: string | undefined, _options: unknown, command: Command) => {
      const terminal = terminalOf(command);
      if (file === undefined) {
        terminal.result(briefTemplate().trimEnd());
        return;
      }
      if (existsSync(file)) {
        throw new RunError('exists', file, 'it exists already', 'Give another name or remove it.');
      }
      writeWhole(DISK, file, briefTemplate());
      terminal.remark(`Wrote ${file}. Edit it, then: anfract brief check ${file}`);
    });

  withManners(brief.command('check'))
    .argument('<file>', 'a brief')
    .description('Check a brief and explain it in plain words.')
    .addHelpText('after', '\nExample:\n  anfract brief check plate.json')
    .action(async (file: string, _options: unknown, command: Command) => {
      const terminal = terminalOf(command);
      const written = readJson(await readText(file), file, { strict: true });
      const checked = checkBrief(written, file);
      const explained = explainBrief(checked);
      terminal.result(
        terminal.json
          ? JSON.stringify(explained, null, 2)
          : briefPage(checked, explained, terminal),
      );
    });

  withManners(brief.command('schema'))
    .argument('[name]', 'brief, design, front, correction or verify', 'brief')
    .description('Print the JSON Schema of a file format, for editors.')
    .addHelpText('after', '\nExample:\n  anfract brief schema > brief.schema.json')
    .action((name: string, _options: unknown, command: Command) => {
      const files = Object.entries(schemaFiles(listMeasures().map((info) => info.id)));
      const found = files.find(([file]) => file.startsWith(`${name}-`));
      if (found === undefined) {
        const known = files.map(([file]) => file.split('-')[0]).join(', ');
        throw new InputError([fault('name', name, `be one of ${known}`, '')], 'schema');
      }
      terminalOf(command).result(found[1].trimEnd());
    });
}
