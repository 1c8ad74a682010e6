/**
 * Clearance evaluations per second, and against the same kernel in C++.
 *
 * `npm run bench -- clearance/kernel`: both sides take turns, each as the median of many evaluations
 * of one plate at 32 stations; results must agree to 1e-9. Ours is the compiled form (WebAssembly, two
 * pieces at once where lists are made); the C++ side has the same passes with the same culling in the
 * same order, and what its compiler makes of them. It is built twice: `-O3`, and `-O3 -march=native`
 * (AVX-512, fused multiply-add where the machine has them; ours has neither). It knows round bores and
 * rectangular plates without holes only, so mixed sections run on our side alone. Needs g++; without it
 * our side runs alone.
 */
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { fileURLToPath } from 'node:url';

import { sampleDesign } from '../../../src/design/index.ts';
import type { Design, PlateSamples } from '../../../src/design/index.ts';
import { measureClearance } from '../../../src/measures/clearance/clearance.ts';
import type { ClearanceReport } from '../../../src/measures/clearance/clearance.ts';
import { median } from '../../../src/numeric/index.ts';
import { aLattice, aTangle } from './plates.ts';

const ROOT = fileURLToPath(new URL('../../../../', import.meta.url));
const MINIMUM_WALL_mm = 0.8;
const ROUNDS = 7;
const REPEATS = 200;

const CASES: readonly { name: string; design: Design; round: boolean }[] = [
  { name: 'one motif, 100 channels', design: aLattice(100), round: true },
  { name: '100 different, +-1 mm (sound)', design: aTangle('bench', 100, 1), round: true },
  { name: '100 different, +-3 mm', design: aTangle('bench', 100, 3), round: true },
  { name: '100 different, +-5 mm', design: aTangle('bench', 100, 5), round: true },
  { name: '100 different, +-8 mm (all overlap)', design: aTangle('bench', 100, 8), round: true },
  { name: 'mixed sections, +-1 mm', design: aTangle('bench', 100, 1, 10, true), round: false },
  { name: 'mixed sections, +-3 mm', design: aTangle('bench', 100, 3, 10, true), round: false },
  { name: 'mixed sections, +-5 mm', design: aTangle('bench', 100, 5, 10, true), round: false },
];

interface Native {
  readonly median_ms: number;
  readonly thinnest_mm: number;
  readonly overlap_mm: number;
}

const BUILDS = { O3: ['-O3'], native: ['-O3', '-march=native'] } as const;

/** Programs by build; empty without a compiler. */
function build(folder: string): [keyof typeof BUILDS, string][] {
  const source = join(ROOT, 'experiments/bench/clearance/kernel.cpp');
  const programs: [keyof typeof BUILDS, string][] = [];
  for (const name of ['O3', 'native'] as const) {
    const program = join(folder, name);
    const flags = [...BUILDS[name], '-std=c++17', source, '-o', program];
    const built = spawnSync('g++', flags, { encoding: 'utf8' });
    if (built.status === 0) programs.push([name, program]);
    else process.stdout.write(`No C++: ${built.error?.message ?? built.stderr.slice(0, 300)}\n`);
  }
  return programs;
}

function writeSamples(path: string, s: PlateSamples): void {
  const { outline, rim_mm } = s.plate;
  if (outline.kind !== 'rectangle') throw new Error('The C++ side knows rectangles only.');
  const head = [
    s.stations,
    s.shapeCount,
    s.channelCount,
    s.plate.thickness_mm,
    2 * MINIMUM_WALL_mm,
    outline.width_mm,
    outline.height_mm,
    outline.cornerRadius_mm,
    rim_mm,
  ];
  const parts: Float64Array[] = [
    Float64Array.from(head),
    s.point_mm,
    s.tangent,
    s.first,
    s.second,
    s.curvature_per_mm,
    s.bore_mm,
    s.reach_mm,
    s.length_mm,
    Float64Array.from(s.shapeOf),
    s.offset_mm,
  ];
  writeFileSync(
    path,
    Buffer.concat(parts.map((p) => Buffer.from(p.buffer, p.byteOffset, p.byteLength))),
  );
}

function ours(
  samples: PlateSamples,
  bores: readonly (readonly number[])[],
): [number, ClearanceReport] {
  const times: number[] = [];
  let report = measureClearance(samples, bores, MINIMUM_WALL_mm);
  for (let n = 0; n < REPEATS; n++) {
    const begin = performance.now();
    report = measureClearance(samples, bores, MINIMUM_WALL_mm);
    times.push(performance.now() - begin);
  }
  return [median(times), report];
}

const folder = mkdtempSync(join(tmpdir(), 'anfract-clearance-'));
const rows: Record<string, unknown>[] = [];
try {
  const programs = build(folder);
  for (const { name, design, round } of CASES) {
    const samples = sampleDesign(design);
    const bores = Array.from(samples.channelOfShape, (c) => design.channels[c].bore_mm);
    const path = join(folder, 'samples');
    writeSamples(path, samples);
    const here: number[] = [];
    const there = { O3: [] as number[], native: [] as number[] };
    for (let n = 0; n < ROUNDS; n++) {
      const [time_ms, report] = ours(samples, bores);
      here.push(time_ms);
      if (!round) continue;
      for (const [key, program] of programs) {
        const native = JSON.parse(
          execFileSync(program, [path, String(REPEATS)], { encoding: 'utf8' }),
        ) as Native;
        there[key].push(native.median_ms);
        const off = Math.max(
          Math.abs(native.thinnest_mm - report.thinnestWall_mm),
          Math.abs(native.overlap_mm - report.overlapDepth_mm),
        );
        if (!(off < 1e-9)) throw new Error(`${name}: the two sides differ by ${off} mm.`);
      }
    }
    const [, report] = ours(samples, bores);
    const mine = median(here);
    const times = Object.fromEntries(
      programs.filter(([key]) => there[key].length > 0).map(([key]) => [key, median(there[key])]),
    );
    rows.push({
      name,
      time_ms: mine,
      evaluationsPerSecond: 1000 / mine,
      cpp_ms: times,
      ratio: Object.fromEntries(Object.entries(times).map(([key, time]) => [key, mine / time])),
      thinnestWall_mm: report.thinnestWall_mm,
      overlapDepth_mm: report.overlapDepth_mm,
    });
    const versus = Object.entries(times).map(
      ([key, time]) => `  C++ ${key} ${time.toFixed(3)} ms, ratio ${(mine / time).toFixed(2)}`,
    );
    process.stdout.write(
      `${name.padEnd(36)} ${mine.toFixed(3)} ms  ${Math.round(1000 / mine)} per s${versus.join('')}\n`,
    );
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}
const machine = { cpu: cpus()[0]?.model ?? 'unknown', node: process.version };
writeFileSync(
  join(ROOT, 'experiments/bench/clearance/kernel.json'),
  `${JSON.stringify({ bench: 'clearance/kernel', machine, rows }, null, 2)}\n`,
);
