/**
 * What the flow analysis costs in the search loop.
 *
 * `npm run bench -- flow/flow`: 100 channels, all different, tangled, 32 stations each; the digest,
 * one pressure drop of every channel, the split at design flow, and the whole analysis for a flow
 * brief and for a fan brief. Best and median of interleaved repeats, and a checksum.
 */
import { readBrief } from '../../../src/brief/index.ts';
import type { Brief } from '../../../src/brief/index.ts';
import { sampleDesign } from '../../../src/design/index.ts';
import type { Channel, Design, Section } from '../../../src/design/index.ts';
import { digestPlate } from '../../../src/measures/analyses/flow-channels.ts';
import { flowAnalysis } from '../../../src/measures/analyses/flow.ts';
import { createAssessment } from '../../../src/measures/assessment.ts';
import { createStream } from '../../../src/numeric/index.ts';
import {
  channelPressure,
  createFlowSplit,
  roomAir,
  shapeFlowFacts,
  splitFlow,
} from '../../../src/physics/index.ts';

const CHANNELS = 100;
const FLOW_M3_PER_H = 20;
const REPEATS = 31;
const CALLS = 50;

const SECTIONS: readonly Section[] = [
  { kind: 'round' },
  { kind: 'teardrop' },
  { kind: 'slot', aspect: 1.5 },
];

function tangledPlate(): Design {
  const random = createStream('bench', 'flow');
  const swing = (mm: number): number => mm * (random.next() - 0.5);
  const channels = Array.from({ length: CHANNELS }, (_, i): Channel => {
    const bore = 2.5 + 3 * random.next();
    return {
      points_mm: [
        [0, 0, 0],
        [swing(6), swing(6), 5],
        [swing(8), swing(8), 10],
        [swing(6), swing(6), 15],
        [swing(4), swing(4), 20],
      ],
      inletDirection: [0, 0, 1],
      outletDirection: [0, 0, 1],
      section: SECTIONS[i % SECTIONS.length],
      bore_mm: [bore, bore * (1 + swing(0.4)), bore * (1 + swing(0.4))],
      roll_deg: 0,
      pockets: [],
      placements: [
        {
          x_mm: 10 * (i % 10) - 45,
          y_mm: 10 * Math.floor(i / 10) - 45,
          turn_deg: 0,
          mirrored: false,
        },
      ],
    };
  });
  return {
    plate: {
      outline: { kind: 'rectangle', width_mm: 120, height_mm: 120, cornerRadius_mm: 0 },
      thickness_mm: 20,
      rim_mm: 3,
      holes: [],
      build: 'flat',
    },
    channels,
  };
}

function briefFor(supply: unknown): Brief {
  const read = readBrief({
    format: 'anfract-brief',
    version: 1,
    plate: {
      outline: { kind: 'rectangle', width_mm: 120, height_mm: 120 },
      thickness_mm: 20,
    },
    air: { supply },
  });
  if (!read.ok) throw new Error(read.faults.map((fault) => fault.message).join('\n'));
  return read.brief;
}

// INVENTED fan.
const CURVE = [
  [0, 40],
  [7, 36],
  [14, 30],
  [21, 27],
  [28, 23],
  [36, 16],
  [43, 7],
  [48, 0],
].map(([flow_m3_per_h, pressure_Pa]) => ({ flow_m3_per_h, pressure_Pa }));

const design = tangledPlate();
const samples = sampleDesign(design, 32);
const byFlow = briefFor({ kind: 'flow', flow_m3_per_h: FLOW_M3_PER_H });
const byFan = briefFor({ kind: 'fan', curve: CURVE });
const air = roomAir(20, 0);
const digests = digestPlate(samples, byFlow, air);
const areas = Float64Array.from(
  { length: CHANNELS },
  (_, m) => 1 / shapeFlowFacts(digests, m).narrowest_per_m2,
);
const ones = new Float64Array(CHANNELS).fill(1);
const reply = new Float64Array(2);
let checksum = 0;

const TASKS: readonly (readonly [string, () => void])[] = [
  ['digest of 100 shapes', () => void digestPlate(samples, byFlow, air)],
  [
    'one drop of 100 shapes',
    () => {
      for (let m = 0; m < CHANNELS; m += 1) {
        channelPressure(digests, m, FLOW_M3_PER_H / 3600 / CHANNELS, reply);
      }
    },
  ],
  [
    'split at design flow',
    () => {
      splitFlow(createFlowSplit(ones, areas), FLOW_M3_PER_H / 3600, (branch, flow, out) =>
        channelPressure(digests, branch, flow, out),
      );
    },
  ],
  [
    'analysis, flow brief',
    () => {
      checksum += flowAnalysis.run(
        createAssessment(byFlow, design, samples, false),
      ).pressureDrop_Pa;
    },
  ],
  [
    'analysis, fan brief',
    () => {
      const report = flowAnalysis.run(createAssessment(byFan, design, samples, false));
      checksum += report.operatingFlow_m3_per_h ?? 0;
    },
  ],
];

const times = TASKS.map((): number[] => []);
for (let repeat = -5; repeat < REPEATS; repeat += 1) {
  TASKS.forEach(([, task], i) => {
    const start = performance.now();
    for (let call = 0; call < CALLS; call += 1) task();
    const spent_us = ((performance.now() - start) * 1000) / CALLS;
    if (repeat >= 0) times[i].push(spent_us);
  });
}
TASKS.forEach(([name], i) => {
  const sorted = times[i].toSorted((a, b) => a - b);
  const best = sorted[0].toFixed(1).padStart(8);
  const median = sorted[REPEATS >> 1].toFixed(1).padStart(8);
  process.stdout.write(`${name.padEnd(24)} best ${best} us, median ${median} us\n`);
});
process.stdout.write(`checksum ${checksum.toPrecision(12)}\n`);
