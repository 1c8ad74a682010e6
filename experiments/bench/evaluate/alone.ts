/** One group of measures alone: how often per CPU-second in the fast form, how long in the exact one. */
import { checkBrief } from '../../../src/engine/index.ts';
import type { Brief } from '../../../src/engine/index.ts';
import { sampleDesign } from '../../../src/design/index.ts';
import type { Design, PlateSamples } from '../../../src/design/index.ts';
import { createGenome } from '../../../src/genome/index.ts';
import type { Assessment } from '../../../src/measures/index.ts';
import { median } from '../../../src/numeric/index.ts';
import { benchBrief, benchRows } from './plates.ts';
import type { PlateChoice } from './plates.ts';

const ROWS = 12;
const ROUNDS = 9;
const ROUND_ms = 150;

const CASES: readonly (PlateChoice & { readonly name: string })[] = [
  { name: '100 different, round', motif: 'free', section: 'round', pockets: 0 },
  { name: '100 different, slot', motif: 'free', section: 'slot', pockets: 0 },
  { name: '100 different, pockets', motif: 'free', section: 'round', pockets: 2 },
  { name: 'one motif, round', motif: 'alike', section: 'round', pockets: 0 },
  { name: 'one motif, pockets', motif: 'alike', section: 'round', pockets: 2 },
];

export interface AlonePlate {
  readonly name: string;
  readonly brief: Brief;
  readonly designs: readonly Design[];
  readonly fast: readonly PlateSamples[];
  readonly exact: readonly PlateSamples[];
}

/** Plates of the evaluation bench, in a brief with further sections. */
export function alonePlates(sections: object): AlonePlate[] {
  return CASES.map((choice) => {
    const bench = benchBrief(choice);
    const brief = checkBrief({ ...bench, goals: { objectives: ['mass_g'] }, ...sections });
    const genome = createGenome(brief);
    const rows = benchRows(choice, genome, ROWS);
    const designs = Array.from({ length: ROWS }, (_, i) => {
      const decoded = genome.decode(rows, i * genome.genes.length);
      if (!decoded.ok) throw new Error(`${choice.name}: ${decoded.reason}`);
      return decoded.design;
    });
    const fast = designs.map((design) => sampleDesign(design, 32));
    const exact = designs.map((design) => sampleDesign(design, 64));
    return { name: choice.name, brief, designs, fast, exact };
  });
}

export interface AloneWork {
  /** What is worked out beforehand and not timed. */
  before(assessment: Assessment): unknown;
  work(assessment: Assessment): unknown;
  assess(brief: Brief, design: Design, samples: PlateSamples, exact: boolean): Assessment;
}

function cpu_ms(): number {
  const used = process.cpuUsage();
  return 1e-3 * (used.user + used.system);
}

/** CPU time of one pass over a plate's designs [ms per design]. */
function timePass(plate: AlonePlate, exact: boolean, steps: AloneWork): number {
  const assessments = plate.designs.map((design, i) =>
    steps.assess(plate.brief, design, (exact ? plate.exact : plate.fast)[i], exact),
  );
  for (const assessment of assessments) steps.before(assessment);
  const begin = cpu_ms();
  for (const assessment of assessments) steps.work(assessment);
  return (cpu_ms() - begin) / assessments.length;
}

/** Times every plate in turns and prints the table. */
export function reportAlone(title: string, plates: readonly AlonePlate[], steps: AloneWork): void {
  const fast = plates.map((): number[] => []);
  const exact = plates.map((): number[] => []);
  for (let round = -1; round < ROUNDS; round++) {
    for (const [p, plate] of plates.entries()) {
      // The clock ticks in whole milliseconds on some machines: passes add up to a round.
      let spent = 0;
      let passes = 0;
      while (spent < ROUND_ms && passes < 400) {
        spent += ROWS * timePass(plate, false, steps);
        passes++;
      }
      const slow = timePass(plate, true, steps);
      if (round < 0) continue;
      fast[p].push((1e3 * ROWS * passes) / spent);
      exact[p].push(slow);
    }
  }
  process.stdout.write(
    `${title}, alone, by CPU time\n${'case'.padEnd(26)}${'fast/s'.padStart(9)}${'median'.padStart(9)}${'exact ms'.padStart(10)}${'median'.padStart(9)}\n`,
  );
  for (const [p, plate] of plates.entries()) {
    process.stdout.write(
      plate.name.padEnd(26) +
        Math.max(...fast[p])
          .toFixed(0)
          .padStart(9) +
        median(fast[p]).toFixed(0).padStart(9) +
        Math.min(...exact[p])
          .toFixed(2)
          .padStart(10) +
        `${median(exact[p]).toFixed(2).padStart(9)}\n`,
    );
  }
}
