#!/usr/bin/env node
/** The command line: which commands there are, and how each ends. */
import { Command, CommanderError } from 'commander';
import { VERSION } from '../engine/index.ts';
import { addBrief } from './brief.ts';
import { addEvolve } from './evolve.ts';
import { EXIT, reportError } from './exits.ts';
import { addExport } from './export.ts';
import { addMeasure } from './measure.ts';
import { addMeasures } from './measures.ts';
import { addMesh } from './mesh.ts';
import { addShow } from './show.ts';

const program = new Command('anfract')
  .description('Evolves the internal channel routes of printed vent plates.')
  .version(VERSION)
  .option('--quiet', 'no progress and no remarks', false)
  .option('--json', 'results and errors as JSON, no progress', false)
  .showSuggestionAfterError()
  .showHelpAfterError('(`anfract help COMMAND` shows options and examples)')
  .exitOverride()
  .addHelpText(
    'after',
    `
Examples:
  anfract brief new plate.json            a commented brief to start from
  anfract brief check plate.json          what it implies, in plain words
  anfract evolve plate.json --out runs/a  evolve it; Ctrl-C saves and stops
  anfract evolve --resume runs/a          go on
  anfract show runs/a                     the front as a table
  anfract mesh runs/a --design d001       print-ready STL and 3MF

Exit codes: 0 done, 1 a fault in anfract, 2 the input can be mended, 3 trouble outside
(disk, worker, another process), 130 interrupted after saving.`,
  );

addBrief(program);
addEvolve(program);
addShow(program);
addMeasure(program);
addMesh(program);
addExport(program);
addMeasures(program);

// Options of the program are taken after the command's name as well.
for (const command of program.commands) {
  for (const each of [command, ...command.commands]) {
    each.exitOverride().showSuggestionAfterError();
  }
}

try {
  await program.parseAsync();
} catch (error) {
  if (error instanceof CommanderError) {
    process.exitCode = error.exitCode === 0 ? EXIT.done : EXIT.input;
  } else {
    process.exitCode = reportError(error, program.opts<{ json: boolean }>().json);
  }
}
