/**
 * Generations per CPU-second and final hypervolume against pagmo's NSGA-II in C++.
 *
 * `npm run bench -- search/pagmo`: both sides take turns in one run, with the same population,
 * generations, crossover (0.9, eta 15) and mutation (1/n, eta 20). pagmo runs as its own process and
 * times its evolution with the process clock; ours runs in this process, timed with
 * `process.cpuUsage`, so compiler and collector threads count against us. Needs g++ and Debian's
 * libpagmo-dev; without them our side runs alone.
 */
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

import { mannWhitney, median } from '../../../src/numeric/index.ts';
import { ask, hypervolume, packState, startSearch, tell } from '../../../src/search/index.ts';
import type { Diversity } from '../../../src/search/index.ts';
import { problemNamed, spaceOf } from './problems.ts';
import type { Problem } from './problems.ts';

const ROOT = fileURLToPath(new URL('../../../../', import.meta.url));
const NAMES = ['ZDT1', 'ZDT4', 'DTLZ2'];

/**
 * Both sides run the same algorithm, NSGA-II with crowding. With three objectives our default is
 * coverage instead, which spends time on a better front; it is measured in a row of its own.
 */
const RUNS: readonly { readonly name: string; readonly diversity: Diversity }[] = [
  ...NAMES.map((name) => ({ name, diversity: 'crowding' as const })),
  { name: 'DTLZ2', diversity: 'coverage' },
];
const SIZES = [
  { population: 200, generations: 250, pairs: 11, target: 3 },
  { population: 1000, generations: 60, pairs: 7, target: 10 },
];

interface Sample {
  readonly generationsPerSecond: number;
  readonly volume: number;
}

function volumeOf(problem: Problem, values: Float64Array, population: number): number {
  const reference = new Float64Array(problem.objectives).fill(problem.reference);
  return hypervolume(values, population, problem.objectives, reference);
}

/** The checksum covers every double of the final state. */
function runOurs(
  problem: Problem,
  diversity: Diversity,
  population: number,
  generations: number,
  seed: number,
): Sample & { readonly checksum: number } {
  const m = problem.objectives;
  const options = { population, objectives: m, seed: `bench/${seed}`, diversity };
  let state = startSearch(spaceOf(problem), options);
  const values = new Float64Array(population * m);
  const scores = { values, violations: new Float64Array(0), failed: new Uint8Array(population) };
  let begin = process.cpuUsage();
  for (let generation = 0; generation <= generations; generation++) {
    // The first population is not part of pagmo's time either.
    if (generation === 1) begin = process.cpuUsage();
    const { rows, count } = ask(state);
    problem.evaluate(rows, count, values);
    state = tell(state, rows, scores);
  }
  const used = process.cpuUsage(begin);
  let checksum = 0;
  for (const character of JSON.stringify(packState(state))) {
    checksum = (Math.imul(checksum, 31) + (character.codePointAt(0) ?? 0)) | 0;
  }
  return {
    generationsPerSecond: (generations * 1e6) / (used.user + used.system),
    volume: volumeOf(problem, state.pool.values.subarray(0, population * m), population),
    checksum: checksum >>> 0,
  };
}

function buildPagmo(folder: string): string | null {
  const program = join(folder, 'pagmo');
  const source = join(ROOT, 'experiments/bench/search/pagmo.cpp');
  const libraries = ['-lpagmo', '-lboost_serialization', '-ltbb'];
  const flags = ['-O3', '-march=native', '-std=c++17'];
  const built = spawnSync('g++', [...flags, source, '-o', program, ...libraries], {
    encoding: 'utf8',
  });
  if (built.status === 0) return program;
  const reason = built.error?.message ?? built.stderr.split('\n').slice(0, 3).join('\n');
  process.stdout.write(
    `pagmo's side was not built; our side runs alone. On Debian: apt install g++ libpagmo-dev\n${reason}\n`,
  );
  return null;
}

function runPagmo(
  program: string,
  problem: Problem,
  population: number,
  generations: number,
  seed: number,
): Sample {
  const words = [problem.name, population, generations, seed].map(String);
  const lines = execFileSync(program, words, { encoding: 'utf8' }).trim().split('\n');
  const seconds = Number(lines[0]);
  const values = Float64Array.from(lines.slice(1).flatMap((line) => line.split(' ').map(Number)));
  if (values.length !== population * problem.objectives) {
    throw new Error(`pagmo wrote ${values.length} objectives for ${population} rows.`);
  }
  return {
    generationsPerSecond: generations / seconds,
    volume: volumeOf(problem, values, population),
  };
}

function compare(
  program: string | null,
  { name, diversity }: (typeof RUNS)[number],
  size: (typeof SIZES)[number],
): object {
  const problem = problemNamed(name);
  const { population, generations, pairs } = size;
  const ours: Sample[] = [];
  const theirs: Sample[] = [];
  // One run to let the compiler settle; seed 0 is not counted.
  const { checksum } = runOurs(problem, diversity, population, generations, 0);
  for (let seed = 1; seed <= pairs; seed++) {
    const turns = [
      () => ours.push(runOurs(problem, diversity, population, generations, seed)),
      () => program && theirs.push(runPagmo(program, problem, population, generations, seed)),
    ];
    for (const turn of seed % 2 === 0 ? turns : turns.toReversed()) turn();
  }
  const speeds = ours.map((sample) => sample.generationsPerSecond);
  const volumes = ours.map((sample) => sample.volume);
  const theirSpeeds = theirs.map((sample) => sample.generationsPerSecond);
  const theirVolumes = theirs.map((sample) => sample.volume);
  const ratios = theirSpeeds.map((speed, i) => speeds[i] / speed);
  const compared = theirs.length > 0;
  const row = {
    problem: name,
    diversity,
    population,
    generations,
    pairs,
    oursPerSecond: spreadOf(speeds),
    pagmoPerSecond: compared ? spreadOf(theirSpeeds) : null,
    ratio: compared ? spreadOf(ratios) : null,
    target: diversity === 'crowding' ? size.target : null,
    ourVolume: spreadOf(volumes),
    pagmoVolume: compared ? spreadOf(theirVolumes) : null,
    worseP: compared ? mannWhitney(volumes, theirVolumes, 'less').p : null,
    checksum,
  };
  process.stdout.write(
    `${name.padEnd(6)} ${diversity} ${String(population).padStart(5)} ${row.oursPerSecond.median.toFixed(0).padStart(7)}` +
      ` ${(row.pagmoPerSecond?.median.toFixed(0) ?? '-').padStart(7)} ${(row.ratio?.median.toFixed(1) ?? '-').padStart(6)}` +
      ` (${row.ratio?.least.toFixed(1) ?? '-'}..${row.ratio?.greatest.toFixed(1) ?? '-'}; target ${row.target ?? 'none'})`.padEnd(
        27,
      ) +
      ` ${row.ourVolume.median.toFixed(4)} ${row.pagmoVolume?.median.toFixed(4) ?? '-'}  p ${row.worseP?.toFixed(3) ?? '-'}\n`,
  );
  return row;
}

function spreadOf(values: readonly number[]): { median: number; least: number; greatest: number } {
  return { median: median(values), least: Math.min(...values), greatest: Math.max(...values) };
}

function commitOf(): string {
  const found = spawnSync('git', ['rev-parse', 'HEAD'], { cwd: ROOT, encoding: 'utf8' });
  return found.status === 0 ? found.stdout.trim() : 'unknown';
}

const folder = mkdtempSync(join(tmpdir(), 'search-bench-'));
try {
  const program = buildPagmo(folder);
  process.stdout.write(
    'problem           rows  ours/s pagmo/s  ratio (least..greatest)      hypervolume ours, pagmo; p that ours is worse\n',
  );
  const rows = SIZES.flatMap((size) => RUNS.map((run) => compare(program, run, size)));
  const result = {
    machine: { cpu: cpus()[0]?.model ?? 'unknown', cores: cpus().length, node: process.version },
    commit: commitOf(),
    rows,
  };
  const file = join(ROOT, 'experiments/bench/search/pagmo.json');
  // A run of one side alone must not replace a record of both.
  if (program !== null) writeFileSync(file, `${JSON.stringify(result, null, 2)}\n`);
} finally {
  rmSync(folder, { recursive: true });
}
