/**
 * What heat costs: evaluations per second of its measures in the search, milliseconds of the solved
 * conduction for an archived design.
 *
 * `npm run bench -- heat/heat`: plates of 120 x 120 x 20 mm with 100 channels, all different or one
 * motif. Fast: flow and heat of ready samples, then heat alone. Exact: flow and conduction at 64
 * stations for a plastic, a filled plastic and a metal. Cases take turns; best and median. Times are of
 * the process clock, which counts compiler and collector threads too, but no other process.
 */
import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { cpus, loadavg } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

import { sampleDesign } from '../../../src/design/index.ts';
import type { Design } from '../../../src/design/index.ts';
import { checkBrief } from '../../../src/engine/index.ts';
import type { Brief } from '../../../src/engine/index.ts';
import { createGenome } from '../../../src/genome/index.ts';
import { flowAnalysis } from '../../../src/measures/analyses/flow.ts';
import { conductPlate } from '../../../src/measures/analyses/conduction.ts';
import { heatAnalysis } from '../../../src/measures/analyses/heat.ts';
import { plateStreams } from '../../../src/measures/analyses/heat-stream.ts';
import { createAssessment } from '../../../src/measures/assessment.ts';
import { findMeasure } from '../../../src/measures/index.ts';
import { median } from '../../../src/numeric/index.ts';
import { benchRows } from '../evaluate/plates.ts';
import type { PlateChoice } from '../evaluate/plates.ts';

const ROOT = fileURLToPath(new URL('../../../../', import.meta.url));
const ROUNDS = 7;
const ROWS = 12;
const IDS = [
  'thermalResistance_K_per_W',
  'hotFaceTemperature_C',
  'airTemperatureRise_K',
  'wallHeatShare',
];

/** Processor time of this process so far [ms]. */
function clock(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1e3;
}

interface Case extends PlateChoice {
  readonly name: string;
}

const CASES: readonly Case[] = [
  { name: 'free, round', motif: 'free', section: 'round', pockets: 0 },
  { name: 'free, teardrop', motif: 'free', section: 'teardrop', pockets: 0 },
  { name: 'free, slot', motif: 'free', section: 'slot', pockets: 0 },
  { name: 'one motif, round', motif: 'alike', section: 'round', pockets: 0 },
];
const SOLIDS = [0.2, 4, 130];

function briefOf(choice: PlateChoice, conductivity_W_per_mK: number): Brief {
  return checkBrief({
    format: 'anfract-brief',
    version: 1,
    name: 'INVENTED bench plate',
    plate: {
      outline: { kind: 'rectangle', width_mm: 120, height_mm: 120, cornerRadius_mm: 6 },
      thickness_mm: 20,
      mounting: { kind: 'frame', frame_mm: 120 },
    },
    air: { supply: { kind: 'flow', flow_m3_per_h: 40 } },
    heat: { source: { kind: 'load', heat_W: 20 }, conductivity_W_per_mK },
    routes: {
      lattices: ['square'],
      sections: [choice.section],
      motifs: [choice.motif],
      bore_mm: { min: 2, max: 8 },
      ligament_mm: { min: 1, max: 8 },
      maxChannels: 100,
    },
  });
}

function designsOf(plate: Case): Design[] {
  const genome = createGenome(briefOf(plate, 1));
  const rows = benchRows(plate, genome, ROWS);
  return Array.from({ length: ROWS }, (_, i) => {
    const decoded = genome.decode(rows, i * genome.genes.length);
    if (!decoded.ok) throw new Error(`${plate.name}: ${decoded.reason}`);
    return decoded.design;
  });
}

/** Time per evaluation [us]: all of it, and heat without the flow it reads. */
function timeFast(brief: Brief, designs: readonly Design[]): { all: number; heat: number } {
  const samples = designs.map((design) => sampleDesign(design));
  let heat = 0;
  let evaluations = 0;
  const begin = clock();
  while (clock() - begin < 250) {
    for (const [i, design] of designs.entries()) {
      const assessment = createAssessment(brief, design, samples[i], false);
      assessment.get(flowAnalysis);
      const before = clock();
      for (const id of IDS) findMeasure(id)?.evaluate(assessment);
      heat += clock() - before;
      evaluations++;
    }
  }
  const all = clock() - begin;
  return { all: (1e3 * all) / evaluations, heat: (1e3 * heat) / evaluations };
}

interface Exact {
  readonly ms: number;
  readonly cells: number;
  readonly rounds: number;
}

/** One archived design: streams and solved conduction. */
function timeExact(brief: Brief, design: Design, k: number): Exact {
  const assessment = createAssessment(brief, design, sampleDesign(design, 64), true);
  assessment.get(flowAnalysis);
  const begin = clock();
  assessment.get(heatAnalysis);
  const ms = clock() - begin;
  const streams = plateStreams(assessment);
  const { cells, rounds } = conductPlate(assessment.samples, streams, false, k, 3e-5, () => 0.5);
  return { ms, cells, rounds };
}

const load = loadavg()[0];
const runs = CASES.map((plate) => ({
  plate,
  designs: designsOf(plate),
  all: [] as number[],
  heat: [] as number[],
  exact: SOLIDS.map((): Exact[] => []),
}));
for (let round = -1; round < ROUNDS; round++) {
  for (const run of runs) {
    const { all, heat } = timeFast(briefOf(run.plate, 4), run.designs);
    if (round >= 0) {
      run.all.push(all);
      run.heat.push(heat);
    }
    for (const [i, k] of SOLIDS.entries()) {
      const exact = timeExact(briefOf(run.plate, k), run.designs[(round + 1) % ROWS], k);
      if (round >= 0) run.exact[i].push(exact);
    }
  }
}
process.stdout.write(
  `load ${load.toFixed(1)} before the start\n` +
    `${'case'.padEnd(20)}${'flow+heat/s'.padStart(12)}${'median'.padStart(8)}${'heat us'.padStart(9)}` +
    `  exact [ms] best / median at k ${SOLIDS.join(', ')} W/(m K)\n`,
);
const cases = runs.map((run) => {
  const exact = run.exact.map((list, i) => {
    const ms = list.map((entry) => entry.ms);
    return {
      conductivity_W_per_mK: SOLIDS[i],
      best_ms: Math.min(...ms),
      median_ms: median(ms),
      cells: median(list.map((entry) => entry.cells)),
      rounds: median(list.map((entry) => entry.rounds)),
    };
  });
  const best = 1e6 / Math.min(...run.all);
  process.stdout.write(
    `${run.plate.name.padEnd(20)}${best.toFixed(0).padStart(12)}${(1e6 / median(run.all)).toFixed(0).padStart(8)}` +
      `${Math.min(...run.heat)
        .toFixed(0)
        .padStart(9)}  ` +
      `${exact.map((entry) => `${entry.best_ms.toFixed(0)} / ${entry.median_ms.toFixed(0)} (${entry.rounds} rounds, ${entry.cells} cells)`).join(', ')}\n`,
  );
  return {
    ...run.plate,
    evaluationsPerSecond: { best, median: 1e6 / median(run.all) },
    heat_us: { best: Math.min(...run.heat), median: median(run.heat) },
    exact,
  };
});
const git = spawnSync('git', ['rev-parse', 'HEAD'], { cwd: ROOT, encoding: 'utf8' });
const result = {
  machine: { cpu: cpus()[0]?.model ?? 'unknown', cores: cpus().length, node: process.version },
  commit: git.status === 0 ? git.stdout.trim() : 'unknown',
  loadBefore: load,
  cases,
};
writeFileSync(
  join(ROOT, 'experiments/bench/heat/heat.json'),
  `${JSON.stringify(result, null, 2)}\n`,
);
