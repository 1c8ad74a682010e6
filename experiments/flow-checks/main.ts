/**
 * The lattice and the grains against exact solutions and published tables, finer than the tests have
 * time for.
 *
 *   node dist/experiments/flow-checks/main.js [vortex] [cavity] [pipe] [step] [bend] [coil]
 *
 * One line per check goes to stdout as it is done; without words all of them are run.
 */
import { laminarBendRate, whiteFactor } from '../../src/physics/index.ts';
import { bendLosses } from './bend.ts';
import { cavity } from './cavity.ts';
import { coil } from './coil.ts';
import { developingError } from './pipe.ts';
import { ARMALY, ERTURK, reattachment } from './step.ts';
import { vortexDecay } from './vortex.ts';

const began = process.cpuUsage().user;
const tell = (text: string): void => {
  const seconds = (process.cpuUsage().user - began) / 1e6;
  process.stdout.write(`${text} [${seconds.toFixed(0)} s]\n`);
};
const percent = (value: number): string => `${(100 * value).toFixed(2)} %`;

const CHECKS: Readonly<Record<string, () => void>> = {
  vortex() {
    for (const n of [8, 16, 32]) {
      tell(`Taylor-Green, ${n} cells a half wave: decay ${percent(vortexDecay(n))} off`);
    }
  },
  cavity() {
    for (const [Re, n] of [
      [100, 32],
      [100, 64],
      [400, 64],
      [400, 96],
      [1000, 96],
      [1000, 128],
    ]) {
      const { greatest, rms, steps } = cavity(Re, n);
      tell(
        `cavity Re ${Re}, ${n} cells: greatest departure ${greatest.toFixed(4)}, rms ${rms.toFixed(4)} of the lid's speed, ${steps} steps`,
      );
    }
  },
  pipe() {
    for (const n of [10, 14, 18]) {
      const error = developingError(100, n, [1, 3]);
      tell(`developing pipe Re 100, ${n} across, x+ 0.01 to 0.05: ${percent(error)} off`);
    }
  },
  step() {
    const grid = { upstream: 4, downstream: 16 };
    for (const [name, cases, expansion] of [
      ['Erturk', ERTURK, 2],
      ['Armaly', ARMALY, 1.9423],
    ] as const) {
      for (const { Re, length } of cases) {
        const found = reattachment(Re, { ...grid, expansion, cells: 14 });
        tell(
          `step Re ${Re}: ${found.toFixed(3)} step heights, ${name} ${length} (${percent(found / length - 1)})`,
        );
      }
    }
  },
  bend() {
    const stokes = [0.03, 0.05, 0.1, 0.171, 0.25, 0.35, 0.5, 0.8];
    const options = { Re: 1000, bend: 5.7, grains: 1000, flushes: 3 };
    for (const a of [5, 7]) {
      for (const { stokes: Stk, landed } of bendLosses(stokes, { ...options, a })) {
        const fit = 1 - Math.exp(-0.5 * Math.PI * laminarBendRate(Stk));
        tell(
          `bend ${2 * a} across, Stk ${Stk}: ${landed.toFixed(3)} landed, fit ${fit.toFixed(3)}`,
        );
      }
    }
  },
  coil() {
    for (const [dean, a, bend] of [
      [5, 5, 6],
      [50, 5, 6],
      [50, 8, 6],
      [100, 8, 6],
      [50, 11, 6],
    ]) {
      const found = coil(dean, whiteFactor(dean), a, bend);
      const White = whiteFactor(found.dean);
      tell(
        `coil ${2 * a} across, R/a ${bend}, De ${found.dean.toFixed(1)}: ${found.ratio.toFixed(3)}, White ${White.toFixed(3)} (${percent(found.ratio / White - 1)})`,
      );
    }
  },
};

const wanted = process.argv.slice(2);
for (const [name, run] of Object.entries(CHECKS)) {
  if (wanted.length === 0 || wanted.includes(name)) run();
}
