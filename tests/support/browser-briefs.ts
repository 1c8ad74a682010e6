/** Briefs for the browser tests; invented. */
import { checkBrief } from '../../src/engine/index.ts';
import type { Brief } from '../../src/engine/index.ts';
import { MEASURES } from '../../src/measures/index.ts';

/** Objectives of the wide brief; every other measure is one of its limits, built in or written. */
const OBJECTIVES = [
  'operatingFlow_m3_per_h',
  'dustCapture',
  'partCost',
  'pocketCapacity_g',
  'purge',
];
const BUILT_IN = ['overlapDepth_mm', 'thinnestWall_mm'];

/** The wide brief before it names measures: every section of physics, section, motif and lattice. */
const WIDE = {
  format: 'anfract-brief',
  version: 1,
  name: 'wide test plate',
  plate: {
    outline: {
      kind: 'polygon',
      points_mm: [
        [-25, -18],
        [22, -20],
        [26, 14],
        [0, 24],
        [-24, 16],
      ],
    },
    thickness_mm: { min_mm: 8, max_mm: 16 },
    rim_mm: 2,
    mounting: { kind: 'holes', holes: [{ x_mm: -17, y_mm: -12, diameter_mm: 3 }] },
    build: 'any',
  },
  air: {
    temperature_C: 31,
    altitude_m: 450,
    supply: {
      kind: 'fan',
      curve: [
        { flow_m3_per_h: 0, pressure_Pa: 40 },
        { flow_m3_per_h: 3, pressure_Pa: 31 },
        { flow_m3_per_h: 6, pressure_Pa: 26 },
        { flow_m3_per_h: 9, pressure_Pa: 14 },
        { flow_m3_per_h: 11, pressure_Pa: 0 },
      ],
      swept: { diameter_mm: 40, hub_mm: 12 },
    },
  },
  goals: { objectives: OBJECTIVES },
  dust: { load_mg_per_m3: 20, down: 'minusY' },
  heat: { source: { kind: 'face', temperature_C: 60 }, conductivity_W_per_mK: 2 },
  strength: {},
  sound: {},
  light: {},
  routes: {
    bore_mm: { min: 2, max: 6 },
    maxChannels: 40,
    teeth: true,
    pocketLips: true,
    pocketTurns: true,
  },
  search: { population: 40, generations: 3, seed: 'wide', archive: 60 },
} as const;

/**
 * A brief that names every measure and allows every section, motif, lattice and build direction, so
 * that the fast form runs all there is. Beyond the two built-in limits they are so
 * wide that no design breaks them.
 */
export function wideBrief(): Brief {
  const plain = checkBrief(WIDE);
  const others = MEASURES.filter((measure) => (measure.unavailable?.(plain) ?? null) === null)
    .map((measure) => measure.id)
    .filter((id) => ![...OBJECTIVES, ...BUILT_IN].includes(id));
  return checkBrief({
    ...WIDE,
    goals: {
      objectives: OBJECTIVES,
      limits: others.map((measure) => ({ measure, atLeast: -1e9 })),
    },
  });
}
