/** `anfract evolve --verify-front N`: computed flows of the most different designs of a fresh front. */
import { InputError, RunError } from '../brief/index.ts';
import { differentDesigns, markedIds, reportDesign, reportText } from '../engine/index.ts';
import type { Front, ReportDesign } from '../engine/index.ts';
import type { RunFolder } from '../store/index.ts';
import { EXIT } from './exits.ts';
import { targetOf } from './targets.ts';
import type { Target } from './targets.ts';
import type { Terminal } from './terminal.ts';
import { VERIFY_CLI_DEFAULTS, commandOf, planTarget, verifyTargets } from './verify.ts';
import { runShelf } from './verify-shelf.ts';
import { verifiedOf, withSlices } from './verified.ts';

/**
 * Computes and keeps what can be; designs beyond the solver are passed over with a remark. The front
 * stands whatever comes.
 */
export async function verifyFront(
  run: RunFolder,
  front: Front,
  count: number,
  workers: number,
  terminal: Terminal,
): Promise<void> {
  const ids = differentDesigns(front, count);
  const targets: Target[] = [];
  for (const id of ids) {
    const target = targetOf(front, id);
    try {
      planTarget(target, VERIFY_CLI_DEFAULTS, { ...terminal, remark: () => undefined });
      targets.push(target);
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      terminal.remark(error.message);
    }
  }
  if (targets.length === 0) {
    terminal.remark('No flow of this front can be computed.');
    return;
  }
  terminal.remark(`Computing flows of ${targets.map(({ name }) => name).join(', ')}.`);
  // With --json stdout holds the front alone.
  const quiet: Terminal = terminal.json ? { ...terminal, result: () => undefined } : terminal;
  const options = { ...VERIFY_CLI_DEFAULTS, mostWorkers: workers };
  const driven = await verifyTargets(targets, runShelf(run), options, quiet);
  run.log(`computed ${driven.cases.length} flows of ${targets.map(({ name }) => name).join(', ')}`);
  if (driven.interrupted) {
    const words = commandOf(
      run.path,
      targets.map(({ name }) => name),
      VERIFY_CLI_DEFAULTS,
    );
    terminal.remark(`The front is written. Go on with  ${words}`);
    process.exitCode = EXIT.interrupted;
    return;
  }
  const report = run.put(null, 'report.html', await reportWith(run, front, ids, terminal));
  terminal.remark(`Report      ${report}`);
  if (driven.failed.length > 0) {
    const remedy = 'The front and the other results are kept.';
    throw new RunError('not-computed', run.path, driven.failed.join('; '), remedy);
  }
}

/** The report of the run once more, now with the computed designs. */
async function reportWith(
  run: RunFolder,
  front: Front,
  ids: readonly string[],
  terminal: Terminal,
): Promise<string> {
  const verified = verifiedOf(run, front);
  const shown: ReportDesign[] = [];
  for (const id of new Set([...markedIds(front), ...ids])) {
    terminal.progress(`Drawing ${id} ...`);
    shown.push(await reportDesign(front, id, null, withSlices(run, verified.get(id) ?? [])));
  }
  return reportText(front, shown);
}
