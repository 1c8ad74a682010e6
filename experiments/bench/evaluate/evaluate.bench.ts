/**
 * Whole evaluations per second on one core, and where the time goes.
 *
 * `npm run bench -- evaluate/evaluate`: rows of genes go through the same evaluator as in a worker:
 * decode, sample at 32 stations, measures in their fast form. Free plates have 100 channels that all
 * differ and tangle; the others repeat one motif 100 times. Three briefs per case (see `Asked`): the
 * measures of the card's five groups, all measures of a plate of channels, every measure that such a
 * brief can have. All are timed in rounds that take turns; best and median over rounds, by the wall
 * clock and by the process clock (which counts compiler and collector threads too, but no other
 * process). The stages are timed one by one in a second loop by the process clock; the measures that
 * share a stage's analysis cost next to nothing more.
 */
import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { cpus, loadavg } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { fileURLToPath } from 'node:url';

import { sampleDesign } from '../../../src/design/index.ts';
import { createEvaluator } from '../../../src/engine/index.ts';
import { createGenome } from '../../../src/genome/index.ts';
import { dustAnalysis } from '../../../src/measures/analyses/dust.ts';
import { flowAnalysis } from '../../../src/measures/analyses/flow.ts';
import { openingsAnalysis } from '../../../src/measures/analyses/openings.ts';
import { printAnalysis } from '../../../src/measures/analyses/printing.ts';
import { leakAnalysis, sightAnalysis } from '../../../src/measures/analyses/sight.ts';
import { createAssessment } from '../../../src/measures/assessment.ts';
import type { Assessment } from '../../../src/measures/assessment.ts';
import { clearanceAnalysis } from '../../../src/measures/clearance/clearance.ts';
import { median } from '../../../src/numeric/index.ts';
import { benchBrief, benchRows } from './plates.ts';
import type { Asked, PlateChoice } from './plates.ts';

const ROOT = fileURLToPath(new URL('../../../../', import.meta.url));
const ROUNDS = 12;
const ASKED: readonly Asked[] = ['card', 'channel', 'every'];
const ROWS = 24;
/** Rows are scored so often per round that a round takes about 0.2 s. */
const ROUND_ms = 200;

interface Case extends PlateChoice {
  readonly name: string;
  readonly target: number;
}

const CASES: readonly Case[] = [
  { name: 'free, round', motif: 'free', section: 'round', pockets: 0, target: 1000 },
  { name: 'free, teardrop', motif: 'free', section: 'teardrop', pockets: 0, target: 1000 },
  { name: 'free, slot', motif: 'free', section: 'slot', pockets: 0, target: 1000 },
  { name: 'free, hexagon', motif: 'free', section: 'polygon', pockets: 0, target: 1000 },
  { name: 'free, round, pockets', motif: 'free', section: 'round', pockets: 2, target: 1000 },
  { name: 'one motif, round', motif: 'alike', section: 'round', pockets: 0, target: 5000 },
  { name: 'one motif, slot', motif: 'alike', section: 'slot', pockets: 0, target: 5000 },
  { name: 'one motif, pockets', motif: 'alike', section: 'round', pockets: 2, target: 5000 },
  { name: 'motif in 4 turns, round', motif: 'turned', section: 'round', pockets: 0, target: 5000 },
];

/** Stages in the order in which they run; each reads what earlier ones have left. */
const STAGES: readonly (readonly [string, (assessment: Assessment) => unknown])[] = [
  ['clearance', (a) => a.get(clearanceAnalysis)],
  ['flow', (a) => a.get(flowAnalysis)],
  ['print', (a) => a.get(printAnalysis)],
  ['dust', (a) => a.get(dustAnalysis)],
  ['sight', (a) => a.get(sightAnalysis)],
  ['leak', (a) => a.get(leakAnalysis)],
  ['openings', (a) => a.get(openingsAnalysis)],
  // Worked out when asked, apart from the rest of the print estimate.
  ['weakest', (a) => a.get(printAnalysis).weakestSection],
];
const STAGE_NAMES = ['decode', 'sample', ...STAGES.map(([name]) => name), 'rest'];

function prepare(plate: Case, asked: Asked) {
  const brief = benchBrief(plate, asked);
  const genome = createGenome(brief);
  const rows = benchRows(plate, genome, ROWS);
  const evaluator = createEvaluator(brief);
  const plates = Array.from({ length: ROWS }, (_, i) => {
    const decoded = genome.decode(rows, i * genome.genes.length);
    if (!decoded.ok) throw new Error(`${plate.name}: ${decoded.reason}`);
    return sampleDesign(decoded.design);
  });
  const first = evaluator.evaluate(rows, ROWS, 'fast');
  const bad = first.failures.find((failure) => failure !== null);
  if (bad !== undefined) throw new Error(`${plate.name}: ${bad}`);
  return {
    plate,
    asked,
    brief,
    measures: evaluator.columns('fast').length,
    genome,
    rows,
    evaluator,
    channels: median(plates.map((samples) => samples.channelCount)),
    shapes: median(plates.map((samples) => samples.shapeCount)),
    checksum: checksumOf(first.values),
    wall: [] as number[],
    cpu: [] as number[],
  };
}

type Prepared = ReturnType<typeof prepare>;

function checksumOf(values: Float64Array): number {
  let sum = 0x811c9dc5;
  for (const word of new Uint32Array(values.slice().buffer)) {
    sum = Math.imul(sum ^ word, 0x01000193);
  }
  return sum >>> 0;
}

/** One round: evaluations per second by either clock. */
function timeRound(run: Prepared): void {
  let scored = 0;
  let last = run.evaluator.evaluate(run.rows, ROWS, 'fast');
  const cpu = process.cpuUsage();
  const begin = performance.now();
  let now = begin;
  while (now - begin < ROUND_ms) {
    last = run.evaluator.evaluate(run.rows, ROWS, 'fast');
    scored += ROWS;
    now = performance.now();
  }
  const used = process.cpuUsage(cpu);
  if (checksumOf(last.values) !== run.checksum) throw new Error(`${run.plate.name} changed.`);
  run.wall.push((1e3 * scored) / (now - begin));
  run.cpu.push((1e6 * scored) / (used.user + used.system));
}

function processTime_us(): number {
  const used = process.cpuUsage();
  return used.user + used.system;
}

/** Median share of each stage in the time of an evaluation, and the stage's own time [us]. */
function timeStages(run: Prepared): { share: number[]; time_us: number[] } {
  const { brief, genome, rows } = run;
  const genes = genome.genes.length;
  const measures = run.evaluator.columns('fast');
  const times: number[][] = STAGE_NAMES.map(() => []);
  for (let repeat = 0; repeat < 12; repeat++) {
    for (let i = 0; i < ROWS; i++) {
      let before = processTime_us();
      let stage = 0;
      const lap = (): void => {
        const now = processTime_us();
        times[stage++].push(now - before);
        before = processTime_us();
      };
      const decoded = genome.decode(rows, i * genes);
      lap();
      if (!decoded.ok) continue;
      const samples = sampleDesign(decoded.design);
      lap();
      const assessment = createAssessment(brief, decoded.design, samples, false);
      for (const [, work] of STAGES) {
        work(assessment);
        lap();
      }
      for (const measure of measures) measure.evaluate(assessment);
      lap();
    }
  }
  const time_us = times.map(median);
  const whole = time_us.reduce((sum, time) => sum + time, 0);
  return { share: time_us.map((time) => time / whole), time_us };
}

interface Figures {
  readonly measures: number;
  readonly evaluationsPerSecond: { readonly best: number; readonly median: number };
  readonly evaluationsPerCpuSecond: { readonly best: number; readonly median: number };
}

function figuresOf(run: Prepared): Figures {
  return {
    measures: run.measures,
    evaluationsPerSecond: { best: Math.max(...run.wall), median: median(run.wall) },
    evaluationsPerCpuSecond: { best: Math.max(...run.cpu), median: median(run.cpu) },
  };
}

/** One line of the table, and what goes into the file: a case with all that was asked of it. */
function report(plate: Case): object {
  const own = runs.filter((run) => run.plate === plate);
  const whole = own.find((run) => run.asked === 'channel') ?? own[0];
  const stages = timeStages(whole);
  const columns = own.map((run) => {
    const { evaluationsPerSecond: wall, evaluationsPerCpuSecond: cpu } = figuresOf(run);
    return [wall.best, wall.median, cpu.best].map((value) => value.toFixed(0).padStart(6)).join('');
  });
  const shares = stages.share.map((share) => (100 * share).toFixed(0).padStart(5)).join('');
  process.stdout.write(
    `${plate.name.padEnd(23)}${String(whole.channels).padStart(4)}${String(whole.shapes).padStart(5)}` +
      `${String(plate.target).padStart(7)} |${columns.join(' |')} |${shares}\n`,
  );
  return {
    ...plate,
    channels: whole.channels,
    shapes: whole.shapes,
    asked: Object.fromEntries(own.map((run) => [run.asked, figuresOf(run)])),
    stages: Object.fromEntries(
      STAGE_NAMES.map((name, i) => [
        name,
        { percent: Math.round(1000 * stages.share[i]) / 10, cpuTime_us: stages.time_us[i] },
      ]),
    ),
    checksum: whole.checksum,
  };
}

const load = loadavg()[0];
const runs = CASES.flatMap((plate) => ASKED.map((asked) => prepare(plate, asked)));
for (let warm = 0; warm < 2; warm++) for (const run of runs) timeRound(run);
for (const run of runs) {
  run.wall.length = 0;
  run.cpu.length = 0;
}
for (let round = 0; round < ROUNDS; round++) for (const run of runs) timeRound(run);
const heads = ASKED.map((asked) => {
  const count = runs.find((run) => run.asked === asked)?.measures ?? 0;
  return `${asked}, ${count} measures`.padStart(18);
});
process.stdout.write(
  `Evaluations/s: best and median by the wall clock, best by the process clock; load ` +
    `${load.toFixed(1)} before the start\n${'case'.padEnd(23)}${'ch'.padStart(4)}${'shp'.padStart(5)}` +
    `${'target'.padStart(7)} |${heads.join(' |')} |` +
    `${STAGE_NAMES.map((name) => name.slice(0, 4).padStart(5)).join('')} [% of channel]\n`,
);
const git = spawnSync('git', ['rev-parse', 'HEAD'], { cwd: ROOT, encoding: 'utf8' });
const result = {
  machine: { cpu: cpus()[0]?.model ?? 'unknown', cores: cpus().length, node: process.version },
  commit: git.status === 0 ? git.stdout.trim() : 'unknown',
  loadBefore: load,
  cases: CASES.map(report),
};
writeFileSync(
  join(ROOT, 'experiments/bench/evaluate/evaluate.json'),
  `${JSON.stringify(result, null, 2)}\n`,
);
