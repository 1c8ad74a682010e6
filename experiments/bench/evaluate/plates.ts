/** Briefs and rows of genes for the evaluation benches; all invented. */
import { checkBrief } from '../../../src/engine/index.ts';
import type { Brief } from '../../../src/engine/index.ts';
import type { Genome } from '../../../src/genome/index.ts';
import { MEASURES } from '../../../src/measures/index.ts';
import { createStream } from '../../../src/numeric/index.ts';

const OBJECTIVES = ['operatingFlow_m3_per_h', 'dustCapture', 'partCost'];
const BUILT_IN = ['overlapDepth_mm', 'thinnestWall_mm'];

/**
 * What a brief asks for. card: pressure drop and operating flow, thinnest wall, overlap depth, what
 * printing asks for (overhang, support, bridge, islands, contours, finest feature), dust capture,
 * pocket capacity and purge, part cost. channel: these and every other measure of a plate of
 * channels (velocities, light, openings, weakest section, mass, time). every: all that such a brief
 * can have.
 */
export type Asked = 'card' | 'channel' | 'every';

const CARD = [
  'pressureDrop_Pa',
  'operatingFlow_m3_per_h',
  'thinnestWall_mm',
  'overlapDepth_mm',
  'overhangArea_mm2',
  'supportVolume_mm3',
  'bridge_mm',
  'newIslands',
  'contoursPerLayer',
  'finestFeature_mm',
  'dustCapture',
  'pocketCapacity_g',
  'purge',
  'partCost',
];
const CHANNEL = [
  ...CARD,
  'channelVelocity_m_per_s',
  'reynolds',
  'flowEvenness',
  'lightLeak',
  'sightMargin_mm',
  'probeOpening_mm',
  'reachMargin_mm',
  'openArea',
  'weakestSection',
  'mass_g',
  'printTime_h',
];

export type Motif = 'free' | 'alike' | 'turned';
export type SectionKind = 'round' | 'teardrop' | 'slot' | 'polygon';

export interface PlateChoice {
  readonly motif: Motif;
  readonly section: SectionKind;
  readonly pockets: number;
}

/** A 120 mm plate of 20 mm for up to 100 channels. */
export function benchBrief(choice: PlateChoice, asked: Asked = 'channel'): Brief {
  if (asked !== 'every') return briefOf(choice, asked === 'card' ? CARD : CHANNEL);
  const plain = briefOf(choice, CHANNEL);
  const had = MEASURES.filter((measure) => (measure.unavailable?.(plain) ?? null) === null);
  // More limits than a brief may list, hence past its door.
  const [sample] = plain.goals.limits;
  const limits = had
    .filter(({ id }) => ![...OBJECTIVES, ...BUILT_IN].includes(id))
    .map(({ id }) => ({ ...sample, measure: id }));
  return { ...plain, goals: { ...plain.goals, limits } };
}

function briefOf(choice: PlateChoice, measures: readonly string[]): Brief {
  const limits = measures
    .filter((id) => ![...OBJECTIVES, ...BUILT_IN].includes(id))
    .map((measure) => ({ measure, atLeast: -1e9 }));
  return checkBrief({
    format: 'anfract-brief',
    version: 1,
    name: 'bench plate',
    plate: {
      outline: { kind: 'rectangle', width_mm: 120, height_mm: 120, cornerRadius_mm: 6 },
      thickness_mm: 20,
      rim_mm: 3,
      mounting: { kind: 'frame', frame_mm: 120 },
    },
    air: {
      supply: {
        kind: 'fan',
        curve: [
          { flow_m3_per_h: 0, pressure_Pa: 52 },
          { flow_m3_per_h: 30, pressure_Pa: 40 },
          { flow_m3_per_h: 60, pressure_Pa: 33 },
          { flow_m3_per_h: 90, pressure_Pa: 26 },
          { flow_m3_per_h: 120, pressure_Pa: 13 },
          { flow_m3_per_h: 145, pressure_Pa: 0 },
        ],
        designFlow_m3_per_h: 40,
      },
    },
    goals: { objectives: OBJECTIVES, limits },
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

/**
 * Rows of 100 channels with three bends. Free ones wander by up to 0.5 of a pitch of their own; size
 * classes and steps make the 32 slots of own offsets into 100 different channels.
 */
export function benchRows(choice: PlateChoice, genome: Genome, count: number): Float64Array {
  const genes = genome.genes.length;
  const rows = new Float64Array(count * genes);
  for (let i = 0; i < count; i++) {
    const random = createStream('bench/evaluate', choice.motif, choice.section, `row/${i}`);
    const between = (low: number, high: number): number => low + (high - low) * random.next();
    const named: Record<string, number | string> = {
      bore_mm: choice.section === 'slot' ? 3 : 4,
      ligament_mm: choice.section === 'slot' ? 2.5 : 5,
      slotAspect: 1.8,
      sides: 6,
      bends: 3,
      inletBore: between(0.95, 1.05),
      middleBore: between(0.85, 0.95),
      outletBore: between(0.95, 1.05),
      rotation_deg: between(0, 3),
      pockets: choice.pockets,
      pocketDepth_mm: 1,
      pocketLength_mm: 3.5,
      pocketWidth_deg: 100,
    };
    for (let bend = 1; bend <= 3; bend++) {
      named[`bend${bend}X_mm`] = between(-2, 2);
      named[`bend${bend}Y_mm`] = between(-2, 2);
      named[`bend${bend}Depth`] = between(-0.3, 0.3);
    }
    if (choice.motif === 'free') {
      named.grading = between(0.2, 0.3);
      named.steps = 3;
      named.stepDepth = 0.5;
      for (let slot = 1; slot <= 32; slot++) {
        named[`free${slot}X`] = between(-0.66, 0.66);
        named[`free${slot}Y`] = between(-0.66, 0.66);
      }
    }
    // A brief has no gene for what it leaves no choice about.
    const known = new Set(genome.genes.map((gene) => gene.name));
    const row = genome.expressGenes(
      Object.fromEntries(Object.entries(named).filter(([name]) => known.has(name))),
    );
    if ('reason' in row) throw new Error(row.reason);
    rows.set(row, i * genes);
  }
  return rows;
}
