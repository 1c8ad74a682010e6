/**
 * Time of the print estimate and of the exact raster, 120 x 120 x 20 mm, all channels different.
 *
 * `npm run bench -- raster/speed`: the three plates are taken in turn, so that a change of the
 * machine's speed meets all of them; the volume is the checksum.
 */
import type { Process } from '../../../src/brief/index.ts';
import { sampleDesign } from '../../../src/design/index.ts';
import type { Build, Channel, PlateSamples } from '../../../src/design/index.ts';
import { median } from '../../../src/numeric/index.ts';
import { estimatePrint, rasterPrint } from '../../../src/print/index.ts';

const ROUNDS = 40;
const ESTIMATES = 50;
const PROCESS: Process = {
  lineWidth_mm: 0.4,
  layerHeight_mm: 0.2,
  overhangLimit_deg: 45,
  bridgeLimit_mm: 10,
  minimumWall_mm: 0.8,
  minimumFeature_mm: 0.8,
  holeShrinkage_mm: 0.2,
  printSpeed_mm_per_s: 60,
  travelSpeed_mm_per_s: 150,
  volumeRate_mm3_per_s: 12,
  retraction_s: 0.3,
  layerChange_s: 2,
  minimumLayer_s: 6,
  materialDensity_kg_per_m3: 1240,
  materialPrice_per_kg: 25,
  machineRate_per_h: 3,
  currency: 'EUR',
};

/** n x n bent channels, each its own shape. */
function plateOf(n: number, pitch_mm: number, build: Build): PlateSamples {
  const half = ((n - 1) / 2) * pitch_mm;
  const channels = Array.from({ length: n * n }, (_, i): Channel => {
    const x = (i % n) * pitch_mm - half;
    const y = Math.floor(i / n) * pitch_mm - half;
    return {
      points_mm: [
        [0, 0, 0],
        [2 + x / 50, 1, 6],
        [-2, y / 40, 13],
        [0.5, 0, 20],
      ],
      inletDirection: [0, 0, 1],
      outletDirection: [0, 0, 1],
      section: { kind: 'round' },
      bore_mm: [4 + (x + 60) / 120],
      roll_deg: 0,
      pockets: [],
      placements: [{ x_mm: x, y_mm: y, turn_deg: 0, mirrored: false }],
    };
  });
  const plate = {
    outline: { kind: 'rectangle', width_mm: 120, height_mm: 120, cornerRadius_mm: 3 },
    thickness_mm: 20,
    rim_mm: 2,
    holes: [],
    build,
  } as const;
  return sampleDesign({ plate, channels });
}

const cases = [
  { name: '100 channels, flat', samples: plateOf(10, 11, 'flat') },
  { name: '144 channels, flat', samples: plateOf(12, 9.5, 'flat') },
  { name: '100 channels, on edge', samples: plateOf(10, 11, 'edge') },
].map((each) => ({
  ...each,
  wall: new Array<number>(),
  cpu: new Array<number>(),
  fast: new Array<number>(),
  volume: 0,
}));

for (let round = -5; round < ROUNDS; round++) {
  for (const each of cases) {
    const used = process.cpuUsage();
    const start = performance.now();
    each.volume = rasterPrint(each.samples, PROCESS).solidVolume_mm3;
    const wall = performance.now() - start;
    const cpu = process.cpuUsage(used).user / 1000;
    const from = performance.now();
    for (let i = 0; i < ESTIMATES; i++) estimatePrint(each.samples, PROCESS);
    const fast = (performance.now() - from) / ESTIMATES;
    if (round < 0) continue;
    each.wall.push(wall);
    each.cpu.push(cpu);
    each.fast.push(fast);
  }
}

for (const { name, wall, cpu, fast, volume } of cases) {
  const least = Math.min(...wall).toFixed(1);
  process.stdout.write(
    `${name.padEnd(24)} raster ${median(wall).toFixed(1)} ms (least ${least}, cpu ${median(cpu).toFixed(1)}), ` +
      `estimate ${median(fast).toFixed(3)} ms (least ${Math.min(...fast).toFixed(3)}), ` +
      `volume ${volume.toFixed(3)} mm3\n`,
  );
}
