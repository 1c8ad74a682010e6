/** What teeth and lips do, one at a time: the tables of the README. */
import { readFileSync } from 'node:fs';
import type { Design, Pocket, Teeth } from '../../src/design/index.ts';
import { assessDesign } from '../../src/engine/evaluator.ts';
import { readBriefFile } from '../../src/formats/index.ts';
import { findMeasure } from '../../src/measures/index.ts';
import type { Brief } from '../../src/brief/index.ts';
import { plateOf } from '../../src/design/index.ts';

const HERE = 'experiments/stirring';

function briefOf(file: string): Brief {
  return readBriefFile(readFileSync(file, 'utf8'), file);
}

function read(brief: Brief, design: Design, ids: readonly string[]): string[] {
  const assessment = assessDesign(brief, design, 'exact');
  return ids.map((id) => {
    const measure = findMeasure(id);
    if (measure === null) throw new Error(`no measure ${id}`);
    return measure.evaluate(assessment).toPrecision(4);
  });
}

function table(head: readonly string[], rows: readonly (readonly string[])[]): void {
  console.log(`| ${head.join(' | ')} |`);
  console.log(`|${head.map(() => '---').join('|')}|`);
  for (const row of rows) console.log(`| ${row.join(' | ')} |`);
  console.log('');
}

/** 36 straight square channels of 10 mm through 40 mm. */
function toothed(brief: Brief, teeth?: Teeth): Design {
  const placements = Array.from({ length: 36 }, (_, i) => ({
    x_mm: 12.5 * ((i % 6) - 2.5),
    y_mm: 12.5 * (Math.floor(i / 6) - 2.5),
    turn_deg: 0,
    mirrored: false,
  }));
  return {
    plate: plateOf(brief, 40, 'flat'),
    channels: [
      {
        points_mm: [
          [0, 0, 0],
          [0, 0, 40],
        ],
        inletDirection: [0, 0, 1],
        outletDirection: [0, 0, 1],
        section: { kind: 'polygon', sides: 4 },
        bore_mm: [10],
        roll_deg: 0,
        pockets: [],
        placements,
        ...(teeth ? { teeth } : {}),
      },
    ],
  };
}

/** 49 S-bends of 5 mm through 24 mm, a pocket on the outer side of the first bend. */
function pocketed(brief: Brief, lip_mm: number, side_deg: number): Design {
  const placements = Array.from({ length: 49 }, (_, i) => ({
    x_mm: 9.8 * ((i % 7) - 3),
    y_mm: 9.8 * (Math.floor(i / 7) - 3),
    turn_deg: 0,
    mirrored: false,
  }));
  const pocket: Pocket = {
    at: 0.34,
    length_mm: 5,
    depth_mm: 1.5,
    width_deg: 120,
    side_deg,
    ...(lip_mm > 0 ? { lip_mm } : {}),
  };
  return {
    plate: plateOf(brief, 24, 'flat'),
    channels: [
      {
        points_mm: [
          [0, 0, 0],
          [0, 3, 8],
          [0, -3, 16],
          [0, 0, 24],
        ],
        inletDirection: [0, 0, 1],
        outletDirection: [0, 0, 1],
        section: { kind: 'round' },
        bore_mm: [5],
        roll_deg: 0,
        pockets: [pocket],
        placements,
      },
    ],
  };
}

const stirring = briefOf(`${HERE}/brief.json`);
const STIRRED = ['reynolds', 'stirringIndex', 'wallExchange', 'pressureDrop_Pa'];
const rows: string[][] = [];
for (const flow_m3_per_h of [30, 110, 300]) {
  const air = { ...stirring.air, supply: { kind: 'flow', flow_m3_per_h } } as const;
  for (const height_mm of [0, 0.2, 0.4, 0.8]) {
    const teeth = height_mm > 0 ? { height_mm, pitch_mm: 12 * height_mm } : undefined;
    const brief = { ...stirring, air };
    rows.push([`${flow_m3_per_h}`, `${height_mm}`, ...read(brief, toothed(brief, teeth), STIRRED)]);
  }
}
table(['flow [m3/h]', 'teeth [mm]', ...STIRRED], rows);

const trap = briefOf(`${HERE}/pockets/brief.json`);
const TRAPPED = [
  'pressureDrop_Pa',
  'dustCapture',
  'captureWhenFull',
  'pocketFillTime_h',
  'pocketCapacity_g',
  'purge',
];
const traps: string[][] = [];
for (const down of ['minusY', 'alongAir', 'againstAir'] as const) {
  const brief: Brief = { ...trap, dust: { ...trap.dust, down } };
  for (const [side, side_deg] of [
    ['+y', 90],
    ['-y', -90],
  ] as const) {
    for (const lip_mm of [0, 0.5, 1]) {
      traps.push([
        down,
        side,
        `${lip_mm}`,
        ...read(brief, pocketed(brief, lip_mm, side_deg), TRAPPED),
      ]);
    }
  }
}
table(['down', 'pocket towards', 'lip [mm]', ...TRAPPED], traps);
