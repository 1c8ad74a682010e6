/**
 * What worker threads gain and cost, how soon a run begins, and how much memory it takes.
 *
 * `npm run bench -- evaluate/crew`:
 * - calls: one comlink call of the evaluation service that carries no rows, one after another and
 *   two under way;
 * - batches: populations of the demo brief, taken from a run in its 5th generation on, scored in
 *   this thread, by one worker and by two; the three take turns. Efficiency is t1 / (2 t2). As a
 *   control, threads that do nothing but count take turns with them: what these reach is what the
 *   machine lends at the time, and 100 % only where nothing else runs;
 * - start: from the start of the process to the first line of the run's history, the peak memory of
 *   the run (VmHWM, Linux only) and its evaluations per second, with the demo brief.
 */
import { spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { cpus, loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { setTimeout as pause } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';

import { wrap } from 'comlink';
import nodeEndpoint from 'comlink/dist/esm/node-adapter.mjs';

import { checkBrief, createEvaluator, evolve } from '../../../src/engine/index.ts';
import type { Brief, Crew, EvaluateJob } from '../../../src/engine/index.ts';
import { median } from '../../../src/numeric/index.ts';
import { createNodeCrew } from '../../../workers/crew.node.ts';
import type { EvaluateService } from '../../../workers/evaluate.ts';

const ROOT = fileURLToPath(new URL('../../../../', import.meta.url));
const BRIEF_FILE = join(ROOT, 'experiments/flour-trap/brief.json');
const entry = new URL('../../../workers/evaluate.node.js', import.meta.url);
const program = fileURLToPath(new URL('../../../src/cli/main.js', import.meta.url));

const WARM_GENERATIONS = 4;
const POPULATIONS = 3;
const ROUNDS = 7;
/** Until a thread's times stand still: each compiles by itself, and two share the rows it learns from. */
const WARM_ROUNDS = 15;
const CALLS = 2000;
const STARTS = 3;

function demoBrief(changes: Partial<Brief['search']> = {}): Brief {
  const value: unknown = JSON.parse(readFileSync(BRIEF_FILE, 'utf8'));
  const brief = checkBrief(value);
  return checkBrief({ ...brief, search: { ...brief.search, ...changes } });
}

/** Time of one call [us]: its whole trip when alone, its share of the time when two are under way. */
async function timeCalls(): Promise<{ alone_us: number; twoUnderWay_us: number }> {
  const worker = new Worker(entry);
  const service = wrap<EvaluateService>(nodeEndpoint(worker));
  try {
    await service.ready(demoBrief());
    const call = async (): Promise<unknown> => service.evaluate(new Float64Array(0), 0, 'fast');
    const lane = async (count: number): Promise<void> => {
      for (let i = 0; i < count; i++) await call();
    };
    const time = async (lanes: number): Promise<number> => {
      const begin = performance.now();
      await Promise.all(Array.from({ length: lanes }, () => lane(CALLS / lanes)));
      return (1e3 * (performance.now() - begin)) / CALLS;
    };
    await lane(CALLS);
    const alone: number[] = [];
    const two: number[] = [];
    for (let round = 0; round < 7; round++) {
      alone.push(await time(1));
      two.push(await time(2));
    }
    return { alone_us: Math.min(...alone), twoUnderWay_us: Math.min(...two) };
  } finally {
    await worker.terminate();
  }
}

function localCrew(brief: Brief): Crew {
  const evaluator = createEvaluator(brief);
  return {
    size: 1,
    evaluate: ({ rows, count, form }) => Promise.resolve(evaluator.evaluate(rows, count, form)),
  };
}

/** Populations of a run that has found its way, and what its first batches of exact rows were. */
async function realBatches(brief: Brief): Promise<{ fast: EvaluateJob[]; exact: EvaluateJob[] }> {
  const generations = WARM_GENERATIONS + POPULATIONS;
  const run = checkBrief({ ...brief, search: { ...brief.search, generations } });
  const local = localCrew(run);
  const fast: EvaluateJob[] = [];
  const exact: EvaluateJob[] = [];
  const watched: Crew = {
    size: 1,
    evaluate(job) {
      if (job.form === 'fast') fast.push({ ...job, rows: job.rows.slice() });
      if (job.form === 'exact' && job.count > 1) exact.push({ ...job, rows: job.rows.slice() });
      return local.evaluate(job);
    },
  };
  const ports = {
    crew: watched,
    keep: () => Promise.resolve(),
    now: () => performance.now(),
    signal: new AbortController().signal,
  };
  for await (const event of evolve(run, {}, ports)) if (event.kind === 'stopping') break;
  return { fast: fast.slice(WARM_GENERATIONS), exact: exact.slice(-2) };
}

async function timeBatches(crew: Crew, jobs: readonly EvaluateJob[]): Promise<number> {
  const begin = performance.now();
  for (const job of jobs) await crew.evaluate(job);
  return performance.now() - begin;
}

/** A thread that counts for about 0.2 s; time until all of them are done [ms]. */
async function timeCounting(threads: number): Promise<number> {
  const script =
    "const { parentPort } = require('node:worker_threads'); parentPort.on('message', () => {" +
    ' let s = 0; for (let i = 0; i < 2e8; i++) s = (s * 31 + i) | 0; parentPort.postMessage(s); });';
  const workers = Array.from({ length: threads }, () => new Worker(script, { eval: true }));
  const round = async (): Promise<void> => {
    const answers = workers.map(
      (worker) => new Promise<void>((resolve) => worker.once('message', () => resolve())),
    );
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a thread, no window
    for (const worker of workers) worker.postMessage(0);
    await Promise.all(answers);
  };
  try {
    // The first round compiles.
    await round();
    const begin = performance.now();
    await round();
    return performance.now() - begin;
  } finally {
    await Promise.all(workers.map(async (worker) => worker.terminate()));
  }
}

interface Efficiency {
  readonly form: string;
  readonly rows: number;
  readonly rowsPerSecond: { readonly thread: number; readonly one: number; readonly two: number };
  /** One worker against this thread: what the calls cost. */
  readonly oneOverThread: number;
  readonly efficiency: { readonly best: number; readonly median: number };
  /** The same of threads that only count: what the machine lends meanwhile. */
  readonly machine: { readonly best: number; readonly median: number };
}

async function compareCrews(
  brief: Brief,
  jobs: readonly EvaluateJob[],
  warmUp: number,
  rounds: number,
): Promise<Efficiency> {
  const here = localCrew(brief);
  const one = createNodeCrew(brief, { size: 1, entry });
  const two = createNodeCrew(brief, { size: 2, entry });
  const crews = [here, one, two];
  const times: number[][] = [[], [], []];
  const counting: number[] = [];
  try {
    // The compilers settle first, in every thread.
    for (let warm = 0; warm < warmUp; warm++)
      for (const crew of crews) await timeBatches(crew, jobs);
    for (let round = 0; round < rounds; round++) {
      for (const [i, crew] of crews.entries()) times[i].push(await timeBatches(crew, jobs));
      const alone = await timeCounting(1);
      counting.push(alone / (await timeCounting(2)));
    }
  } finally {
    await Promise.all([one.close(), two.close()]);
  }
  const rows = jobs.reduce((sum, job) => sum + job.count, 0);
  const best = times.map((list) => Math.min(...list));
  return {
    form: jobs[0].form,
    rows,
    rowsPerSecond: {
      thread: (1e3 * rows) / best[0],
      one: (1e3 * rows) / best[1],
      two: (1e3 * rows) / best[2],
    },
    oneOverThread: best[0] / best[1],
    efficiency: {
      best: best[1] / (2 * best[2]),
      median: median(times[1].map((time, i) => time / (2 * times[2][i]))),
    },
    machine: { best: Math.max(...counting), median: median(counting) },
  };
}

interface StartUp {
  readonly first_ms: number;
  readonly peak_MB: number | null;
  readonly evaluationsPerSecond: number;
}

function peakOf(pid: number | undefined): number | null {
  try {
    const status = readFileSync(`/proc/${pid}/status`, 'utf8');
    const match = /VmHWM:\s+(\d+) kB/.exec(status);
    return match === null ? null : Number(match[1]) / 1024;
  } catch {
    // The process is over, or this is no Linux.
    return null;
  }
}

/** Runs the command line on the demo brief and watches its run folder. */
async function startRun(generations: number): Promise<StartUp> {
  const folder = mkdtempSync(join(tmpdir(), 'crew-bench-'));
  const out = join(folder, 'run');
  const history = join(out, 'history.jsonl');
  const words = ['evolve', BRIEF_FILE, '--out', out, '--generations', String(generations)];
  const begin = performance.now();
  const child = spawn(process.execPath, [program, ...words, '--quiet'], { stdio: 'ignore' });
  const ended = new Promise<number | null>((resolve) => child.once('exit', resolve));
  const state = { over: false };
  void ended.then(() => {
    state.over = true;
  });
  let first_ms = Number.NaN;
  let peak: number | null = null;
  try {
    while (!state.over) {
      if (Number.isNaN(first_ms) && (statSync(history, { throwIfNoEntry: false })?.size ?? 0) > 0) {
        first_ms = performance.now() - begin;
      }
      peak = peakOf(child.pid) ?? peak;
      await pause(Number.isNaN(first_ms) ? 3 : 30);
    }
    const code = await ended;
    if (code !== 0) throw new Error(`anfract evolve ended with code ${code}.`);
    const lines = readFileSync(history, 'utf8').trim().split('\n');
    const last: { evaluations: number } = JSON.parse(lines[lines.length - 1]);
    const seconds = (performance.now() - begin) / 1e3;
    return { first_ms, peak_MB: peak, evaluationsPerSecond: last.evaluations / seconds };
  } finally {
    rmSync(folder, { recursive: true });
  }
}

const load = loadavg()[0];
const calls = await timeCalls();
process.stdout.write(
  `load ${load.toFixed(1)} before the start\n` +
    `comlink call: ${calls.alone_us.toFixed(0)} us alone, ${calls.twoUnderWay_us.toFixed(0)} us with two under way\n`,
);
const starts: StartUp[] = [];
for (let i = 0; i < STARTS; i++) starts.push(await startRun(i === 0 ? 25 : 3));
const firsts = starts.map((start) => start.first_ms);
process.stdout.write(
  `start to first generation: best ${Math.min(...firsts).toFixed(0)} ms, median ${median(firsts).toFixed(0)} ms (target 1000)\n` +
    `25 generations of the demo brief: peak memory ${starts[0].peak_MB?.toFixed(0) ?? '-'} MB (target 500), ` +
    `${starts[0].evaluationsPerSecond.toFixed(0)} evaluations/s with start and end\n`,
);
const brief = demoBrief();
const batches = await realBatches(brief);
const crews: Efficiency[] = [];
for (const [jobs, warmUp, rounds] of [
  [batches.fast, WARM_ROUNDS, ROUNDS] as const,
  [batches.exact, 2, 3] as const,
]) {
  const row = await compareCrews(brief, jobs, warmUp, rounds);
  crews.push(row);
  const { thread, one, two } = row.rowsPerSecond;
  process.stdout.write(
    `${row.form}: ${row.rows} rows; rows/s ${thread.toFixed(0)} in this thread, ${one.toFixed(0)} by one worker, ` +
      `${two.toFixed(0)} by two; efficiency best ${(100 * row.efficiency.best).toFixed(0)} %, ` +
      `median ${(100 * row.efficiency.median).toFixed(0)} % (target 90 %); ` +
      `threads that only count: best ${(100 * row.machine.best).toFixed(0)} %, median ${(100 * row.machine.median).toFixed(0)} %\n`,
  );
}
const git = spawnSync('git', ['rev-parse', 'HEAD'], { cwd: ROOT, encoding: 'utf8' });
const result = {
  machine: { cpu: cpus()[0]?.model ?? 'unknown', cores: cpus().length, node: process.version },
  commit: git.status === 0 ? git.stdout.trim() : 'unknown',
  loadBefore: load,
  calls,
  crews,
  starts,
};
writeFileSync(
  join(ROOT, 'experiments/bench/evaluate/crew.json'),
  `${JSON.stringify(result, null, 2)}\n`,
);
