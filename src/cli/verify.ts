/** `anfract verify RUN [ID...] | DESIGN.json`: the estimate against a computed flow. */
import { basename, dirname, join } from 'node:path';
import type { Command } from 'commander';
import { InputError, RunError, fault } from '../brief/index.ts';
import { planVerification, verifyPlan } from '../engine/index.ts';
import type { Verified, VerifyPlan } from '../engine/index.ts';
import { DISK, writeWhole } from '../store/index.ts';
import { EXIT } from './exits.ts';
import { positive, terminalOf, whole, withManners } from './options.ts';
import { findTargets } from './targets.ts';
import type { Terminal } from './terminal.ts';

interface VerifyOptions {
  readonly cells: number;
  readonly velocity?: number;
}

export function addVerify(program: Command): void {
  withManners(program.command('verify'))
    .argument('<source>', 'a run folder or a design file')
    .argument(
      '[ids...]',
      'designs of the run; `knee` (when left out) and `best` stand for the marked',
    )
    .option('--cells <n>', 'cells across the bore, on the coarser of two grids', whole(10, 40), 15)
    .option('--velocity <m/s>', "mean at the inlet port; the design flow's when left out", positive)
    .description('Compute the air flow through the channel of median flow, against the estimate.')
    .addHelpText(
      'after',
      `
One channel of an endless array of its like is solved, drawn bore, smooth wall, up to Re 1320, on two
grids. Beside the design a velocity field (.vti) and a slice (.svg) are written. A minute or two.

Examples:
  anfract verify runs/a d007
  anfract verify my-plate.json --velocity 1 --json`,
    )
    .action(
      async (
        source: string,
        ids: string[],
        { cells, velocity }: VerifyOptions,
        command: Command,
      ) => {
        const terminal = terminalOf(command);
        const { run, targets } = await findTargets(source, ids);
        for (const { name, file } of targets) {
          const plan = planVerification(file.brief, file.design, cells, velocity ?? null);
          if (typeof plan === 'string') {
            const remedy = 'Nothing was computed.';
            throw new InputError([
              fault(name, 'beyond the solver', `be solvable: ${plan}`, remedy),
            ]);
          }
          terminal.remark(planWords(name, plan));
          const verified = await solve(plan, name, terminal);
          if (verified === null) {
            process.exitCode = EXIT.interrupted;
            return;
          }
          const files = [
            [`${name}-flow.vti`, verified.field],
            [`${name}-flow.svg`, verified.slice],
          ].map(([title, text]) => {
            if (run !== null) return run.put('pictures', title, text);
            const path = join(dirname(source), basename(title));
            writeWhole(DISK, path, text);
            return path;
          });
          terminal.result(
            terminal.json
              ? verifiedData(name, verified, files)
              : verifiedPage(name, verified, files),
          );
        }
      },
    );
}

function planWords(name: string, plan: VerifyPlan): string {
  return `${name}: shape ${plan.shape + 1} of ${plan.shapes} (median flow, ${plan.channels} channels), ${plan.velocity_m_per_s.toFixed(2)} m/s, Re ${plan.reynolds.toFixed(0)}; up to ${(plan.memory_bytes / 1e6).toFixed(0)} MB.`;
}

/** Drives the march with breaks for Ctrl-C; null when interrupted. */
async function solve(plan: VerifyPlan, name: string, terminal: Terminal): Promise<Verified | null> {
  let stopped = false;
  const stop = (): void => {
    stopped = true;
  };
  process.on('SIGINT', stop);
  process.on('SIGTERM', stop);
  const began_ms = performance.now();
  try {
    const march = verifyPlan(plan);
    for (;;) {
      const next = march.next();
      if (next.done === true) return next.value;
      const { pass, step, loss } = next.value;
      const seconds = (performance.now() - began_ms) / 1000;
      terminal.progress(
        `${name}: grid ${pass} of 2, step ${step} of at most 20000, loss so far ${loss.toFixed(3)}, ${seconds.toFixed(0)} s`,
      );
      await new Promise((resolve) => {
        setImmediate(resolve);
      });
      if (stopped) {
        terminal.remark('Stopped; nothing was written.');
        return null;
      }
    }
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    throw new RunError(
      'diverged',
      name,
      error.message,
      'Raise --cells or lower --velocity.',
      error,
    );
  } finally {
    process.off('SIGINT', stop);
    process.off('SIGTERM', stop);
  }
}

function verifiedPage(name: string, verified: Verified, files: readonly string[]): string {
  const { plan, grids } = verified;
  return [
    `${name}: one channel at ${plan.velocity_m_per_s.toFixed(2)} m/s (Re ${plan.reynolds.toFixed(0)})`,
    `  estimate  ${plan.estimate_Pa.toPrecision(4)} Pa (handbook formulas, drawn bore)`,
    `  computed  ${verified.pressureDrop_Pa.toPrecision(4)} Pa +- ${verified.uncertainty_Pa.toPrecision(2)} Pa`,
    `  estimate over computed ${(100 * verified.difference).toFixed(1)} %`,
    ...grids.map(
      (grid) =>
        `  grid ${grid.cellsAcross.toFixed(1)} across: loss ${grid.loss.toFixed(4)}, ${grid.cells} cells, ${grid.steps} steps, leak ${(100 * grid.massError).toFixed(2)} %${grid.converged ? '' : ', not at rest'}`,
    ),
    `  ${verified.verdict}`,
    ...files.map((file) => `  ${file}`),
  ].join('\n');
}

function verifiedData(name: string, verified: Verified, files: readonly string[]): string {
  const { plan, pressureDrop_Pa, uncertainty_Pa, recovery_Pa, difference, grids, verdict } =
    verified;
  return JSON.stringify(
    {
      design: name,
      shape: plan.shape,
      channels: plan.channels,
      velocity_m_per_s: plan.velocity_m_per_s,
      reynolds: plan.reynolds,
      estimate_Pa: plan.estimate_Pa,
      pressureDrop_Pa,
      uncertainty_Pa,
      recovery_Pa,
      difference,
      grids,
      verdict,
      files,
    },
    null,
    2,
  );
}
