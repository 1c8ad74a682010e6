/**
 * Time from design to mesh, check, STL and 3MF, for plates of bent channels that are all different.
 *
 * `npm run bench -- mesh/mesh`: best and median, wall clock and processor time, over interleaved
 * repeats, with a checksum of the mesh. Channels 24 sides x 32 stations, plate 15 mm thick; goals for 150: shell 20 ms, with check
 * 400 ms.
 */
import { writeStl, writeThreeMf } from '../../../src/formats/index.ts';
import { sampleDesign } from '../../../src/design/index.ts';
import type { Channel, Design } from '../../../src/design/index.ts';
import { createStream } from '../../../src/numeric/index.ts';
import { meshDesign, stitchShell } from '../../../src/solids/index.ts';
import type { Mesh } from '../../../src/solids/index.ts';

const COUNTS = [20, 60, 150, 300];
const REPEATS = 9;
const PITCH_MM = 8;
const THICKNESS_MM = 15;

/** Bent channels on a square lattice, each bent its own way; neighbours keep 0.8 mm apart or more. */
function benchDesign(count: number): Design {
  const random = createStream('bench', 'mesh', String(count));
  const side = Math.ceil(Math.sqrt(count));
  const channels: Channel[] = [];
  for (let n = 0; n < count; n++) {
    const bend = (): number => 3 * random.next() - 1.5;
    const [x, y] = [bend(), bend()];
    channels.push({
      points_mm: [
        [0, 0, 0],
        [x, y, THICKNESS_MM / 2],
        [-x / 2, -y / 2, THICKNESS_MM],
      ],
      inletDirection: [0, 0, 1],
      outletDirection: [0, 0, 1],
      section: { kind: 'round' },
      bore_mm: [3.2],
      roll_deg: 0,
      pockets: [],
      placements: [
        {
          x_mm: ((n % side) - (side - 1) / 2) * PITCH_MM,
          y_mm: (Math.floor(n / side) - (side - 1) / 2) * PITCH_MM,
          turn_deg: 0,
          mirrored: false,
        },
      ],
    });
  }
  const width = side * PITCH_MM + 10;
  return {
    plate: {
      outline: { kind: 'rectangle', width_mm: width, height_mm: width, cornerRadius_mm: 4 },
      thickness_mm: THICKNESS_MM,
      rim_mm: 3,
      holes: [],
      build: 'flat',
    },
    channels,
  };
}

function checksum(mesh: Mesh): string {
  let hash = 0x811c9dc5;
  for (const part of [mesh.vertices, mesh.triangles]) {
    for (const byte of new Uint8Array(part.buffer, part.byteOffset, part.byteLength)) {
      hash = Math.imul(hash ^ byte, 0x01000193);
    }
  }
  return (hash >>> 0).toString(16);
}

const STEPS = ['sample', 'shell', 'sample + shell + check', 'stl', '3mf'] as const;

/** Wall clock and processor time since some start [ms]. */
function clocks(): readonly [number, number] {
  const { user, system } = process.cpuUsage();
  return [performance.now(), (user + system) / 1000];
}

async function once(design: Design): Promise<{ times: [number, number][]; mesh: Mesh }> {
  const marks = [clocks()];
  const mark = (): void => {
    marks.push(clocks());
  };
  const samples = sampleDesign(design, 32);
  mark();
  const shell = stitchShell(samples, 24, 1);
  mark();
  if (shell.kind === 'failure') throw new Error(shell.reason);
  const { report } = await meshDesign(design);
  mark();
  if (report.faults.length > 0) throw new Error(report.faults[0].message);
  writeStl(shell.mesh, 'bench');
  mark();
  writeThreeMf(shell.mesh, { name: 'bench', description: 'bench' });
  mark();
  const times = marks
    .slice(1)
    .map(([wall, busy], k): [number, number] => [wall - marks[k][0], busy - marks[k][1]]);
  return { times, mesh: shell.mesh };
}

const rows = COUNTS.map((count) => ({
  count,
  design: benchDesign(count),
  runs: [] as [number, number][][],
}));
const sums = new Map<number, string>();
for (let repeat = -1; repeat < REPEATS; repeat++) {
  for (const row of rows) {
    const { times, mesh } = await once(row.design);
    if (repeat >= 0) row.runs.push(times);
    sums.set(row.count, `${mesh.triangles.length / 3} triangles, ${checksum(mesh)}`);
  }
}
for (const { count, runs } of rows) {
  process.stdout.write(`${count} channels: ${sums.get(count)}\n`);
  STEPS.forEach((step, k) => {
    const figures = [0, 1].map((clock) => {
      const sorted = runs.map((times) => times[k][clock]).toSorted((a, b) => a - b);
      return `${sorted[0].toFixed(1)} best, ${sorted[sorted.length >> 1].toFixed(1)} median`;
    });
    process.stdout.write(
      `  ${step.padEnd(24)} wall ms ${figures[0].padEnd(28)} processor ms ${figures[1]}\n`,
    );
  });
}
