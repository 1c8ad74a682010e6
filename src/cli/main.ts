#!/usr/bin/env node
/** The command line: which commands there are, and how each ends. */
// First: the threads of a run load while this thread does.
// oxlint-disable-next-line import/no-unassigned-import -- it is there for what it does
import './early-threads.ts';
import { Command, CommanderError } from 'commander';
import { VERSION } from '../engine/index.ts';
import { addBaseline } from './baseline.ts';
import { addBrief } from './brief.ts';
import { addEvolve } from './evolve.ts';
import { addCalibrate } from './calibrate.ts';
import { addCompare } from './compare.ts';
import { addCorrect } from './correct.ts';
import { addCoupon } from './coupon.ts';
import { EXIT, reportError } from './exits.ts';
import { addExport } from './export.ts';
import { addFan } from './fan.ts';
import { addMeasure } from './measure.ts';
import { addMeasures } from './measures.ts';
import { addMesh } from './mesh.ts';
import { refuseBlanks } from './options.ts';
import { addPage } from './page.ts';
import { addReport } from './report.ts';
import { addShow } from './show.ts';
import { addVerify } from './verify.ts';

const program = new Command('anfract')
  .description('Evolves the internal channel routes of printed vent plates.')
  .version(VERSION)
  .option('--quiet', 'no progress and no remarks')
  .option('--json', 'results and errors as JSON, no progress')
  .showSuggestionAfterError()
  .showHelpAfterError('(`anfract help COMMAND` shows options and examples)')
  .exitOverride()
  // With --json, faults of the command line are reported by `reportError` like all others.
  .configureOutput({
    writeErr: (text) => {
      if (!asksForJson()) process.stderr.write(text);
    },
  })
  .addHelpText(
    'after',
    `
Examples:
  anfract brief new plate.json            a commented brief to start from
  anfract brief check plate.json          what it implies, in plain words
  anfract evolve plate.json --out runs/a  evolve it; Ctrl-C saves and stops
  anfract evolve --resume runs/a          go on
  anfract show runs/a                     the front as a table
  anfract compare runs/a runs/b           fronts side by side
  anfract baseline runs/a                 the front against what one would have drawn
  anfract mesh runs/a --design d001       print-ready STL and 3MF

Exit codes: 0 done, 1 a fault in anfract, 2 the input can be mended, 3 trouble outside
(disk, worker, another process), 130 interrupted after saving.`,
  );

program.hook('preAction', (_program, command) => {
  refuseBlanks(command);
});

addBrief(program);
addEvolve(program);
addShow(program);
addBaseline(program);
addReport(program);
addMeasure(program);
addMesh(program);
addExport(program);
addMeasures(program);
addPage(program);
addCompare(program);
addCoupon(program);
addCalibrate(program);
addCorrect(program);
addFan(program);
addVerify(program);

/** Read from the words themselves: a faulty command line is refused before its options are set. */
function asksForJson(): boolean {
  return process.argv.includes('--json');
}

// A reader that has seen enough (`| head`) closes the pipe: nothing is wrong then.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
  process.exit(EXIT.done);
});

try {
  await program.parseAsync();
} catch (error) {
  const isUsage = error instanceof CommanderError;
  if (isUsage && error.exitCode === 0) process.exitCode = EXIT.done;
  else if (isUsage && !asksForJson()) process.exitCode = EXIT.input;
  else process.exitCode = reportError(error, asksForJson());
}
