/** `anfract correct RUN... | VERIFY.json...`: what computed flows teach the estimate. */
import { statSync } from 'node:fs';
import { basename } from 'node:path';
import type { Command } from 'commander';
import { InputError, fault, isRecord } from '../brief/index.ts';
import { VERSION, checkBrief, fitCorrection } from '../engine/index.ts';
import { readJson, readVerifyFile, writeCorrectionFile, writeJson } from '../formats/index.ts';
import type { VerifyCase } from '../formats/index.ts';
import { DISK, openRun, writeWhole } from '../store/index.ts';
import { correctionPage } from './correction-page.ts';
import { readText } from './files.ts';
import { terminalOf, withManners } from './options.ts';

interface Options {
  readonly source?: string;
  readonly out?: string;
  readonly into?: string;
}

export function addCorrect(program: Command): void {
  withManners(program.command('correct'))
    .argument('<flows...>', 'run folders with computed flows, or their files (verify.json)')
    .option('--source <text>', 'what was computed, for later runs to cite; the paths when left out')
    .option('--out <file>', 'also write the correction as a file of its own')
    .option('--into <brief>', 'write the correction into this brief')
    .description('Fit a correction of the pressure estimate to computed flows.')
    .addHelpText(
      'after',
      `
Ridge regression of ln(computed / estimate) on Reynolds number, length, turning, Dean number, change of
area, pockets and open share; its strength and its doubt come from designs left out of the fit. Later
runs of the brief use it, cite it, and flag designs beyond the computed ones.

Examples:
  anfract correct runs/a runs/b
  anfract correct runs/a --source "flour trap, 5 designs" --into plate.json`,
    )
    .action(async (paths: string[], options: Options, command: Command) => {
      const terminal = terminalOf(command);
      const flows = (await Promise.all(paths.map(flowsOf))).flat();
      const named = paths.map((path) => basename(path)).join(', ');
      const fitted = fitCorrection(flows, options.source ?? named.slice(0, 300));
      terminal.result(
        terminal.json ? JSON.stringify(fitted, null, 2) : correctionPage(fitted, terminal),
      );
      const { correction } = fitted;
      if (options.out !== undefined) {
        writeWhole(DISK, options.out, writeCorrectionFile(VERSION, correction));
        terminal.remark(`Written to ${options.out}.`);
      }
      if (options.into === undefined) return;
      refuseWorse(correction.error);
      await writeInto(options.into, correction);
      terminal.remark(`Written into ${options.into}.`);
    });
}

async function flowsOf(path: string): Promise<VerifyCase[]> {
  const isFolder = statSync(path, { throwIfNoEntry: false })?.isDirectory() === true;
  return isFolder ? openRun(path).readVerify() : readVerifyFile(await readText(path), path);
}

/** @throws InputError for a correction that predicts designs left out no better than none at all. */
function refuseWorse({
  before,
  designLeftOut,
}: {
  readonly before: number;
  readonly designLeftOut: number | null;
}): void {
  if (designLeftOut === null || designLeftOut < before) return;
  const found = `${(100 * designLeftOut).toFixed(1)} % off for designs left out`;
  const allowed = `be nearer than the bare estimate, ${(100 * before).toFixed(1)} % off`;
  const remedy = 'Nothing was written into the brief. Compute flows of more designs.';
  throw new InputError([fault('correction', found, allowed, remedy)], 'correct');
}

/** Puts the correction into a brief as its author wrote it, comments included. */
async function writeInto(path: string, correction: unknown): Promise<void> {
  const written = readJson(await readText(path), path, { strict: true });
  checkBrief(written, path);
  if (!isRecord(written)) {
    throw new InputError([fault('', 'no object', 'be a brief', 'Is it the right file?')], path);
  }
  const changed = { ...written, correction };
  checkBrief(changed, path);
  writeWhole(DISK, path, writeJson(changed));
}
