/**
 * What each group of measures costs: fast evaluations per CPU-second and exact milliseconds, for a
 * plate of 100 different tangled channels and for one motif repeated.
 *
 * `npm run bench -- evaluate/groups`. Each group runs alone, with everything it needs (the flow for
 * dust, heat and noise, for instance) but without decoding and sampling, which the line `all` has.
 */
import { sampleDesign } from '../../../src/design/index.ts';
import { MEASURES, createAssessment } from '../../../src/measures/index.ts';
import type { Assessment, Measure } from '../../../src/measures/index.ts';
import { alonePlates } from './alone.ts';
import type { AlonePlate } from './alone.ts';

const GROUPS: Readonly<Record<string, readonly string[]>> = {
  'air and fan': [
    'pressureDrop_Pa',
    'operatingFlow_m3_per_h',
    'channelVelocity_m_per_s',
    'reynolds',
    'flowEvenness',
    'slowestOutlet_m_per_s',
    'fastestOutlet_m_per_s',
    'outletUniformity',
  ],
  walls: ['thinnestWall_mm', 'overlapDepth_mm'],
  print: [
    'overhangArea_mm2',
    'supportVolume_mm3',
    'supportContact_mm2',
    'bridge_mm',
    'newIslands',
    'contoursPerLayer',
    'retractions',
    'travel_m',
    'stringingIndex_per_cm3',
    'finestFeature_mm',
    'mass_g',
    'printTime_h',
    'partCost',
    'batchCost',
    'packingDensity',
  ],
  dust: ['dustCapture', 'pocketCapacity_g', 'pocketFillTime_h', 'captureWhenFull', 'purge'],
  'sight and light leak': ['lightLeak', 'sightMargin_mm'],
  openings: ['probeOpening_mm', 'reachMargin_mm', 'accessDigit', 'straightRod_mm', 'openArea'],
  strength: [
    'weakestSection',
    'ligamentEfficiency',
    'ligamentSlenderness',
    'tearShare',
    'pushDeflection_mm',
    'pushStressShare',
  ],
  heat: [
    'thermalResistance_K_per_W',
    'hotFaceTemperature_C',
    'airTemperatureRise_K',
    'wallHeatShare',
  ],
  sound: ['soundLoss_dB', 'flowNoiseIndex_dB'],
  'diffuse light': ['diffuseLight'],
};
const SECTIONS = {
  heat: { source: { kind: 'load', heat_W: 20 }, material: undefined, conductivity_W_per_mK: 1 },
  sound: {},
  light: {},
  strength: {},
};
const SHOWN = ['100 different, round', 'one motif, round'];
const ROUNDS = 7;
const ROUND_ms = 200;

function cpu_ms(): number {
  const { user, system } = process.cpuUsage();
  return 1e-3 * (user + system);
}

function read(assessment: Assessment, measures: readonly Measure[]): void {
  for (const measure of measures) measure.evaluate(assessment);
}

/** CPU time of one design [ms], best of a few rounds. */
function bestTime(
  plate: AlonePlate,
  exact: boolean,
  measures: readonly Measure[],
  withSampling: boolean,
): number {
  const samples = exact ? plate.exact : plate.fast;
  const stations = exact ? 64 : 32;
  let best = Number.POSITIVE_INFINITY;
  for (let round = 0; round < (exact ? 2 : ROUNDS); round++) {
    const begin = cpu_ms();
    let spent = 0;
    let done = 0;
    while (spent < (exact ? 0 : ROUND_ms) || done === 0) {
      for (const [i, design] of plate.designs.entries()) {
        const sampled = withSampling ? sampleDesign(design, stations) : samples[i];
        read(createAssessment(plate.brief, design, sampled, exact), measures);
        done++;
      }
      spent = cpu_ms() - begin;
    }
    best = Math.min(best, spent / done);
  }
  return best;
}

const plates = alonePlates(SECTIONS).filter(({ name }) => SHOWN.includes(name));
const had = (plate: AlonePlate, ids: readonly string[] | null): Measure[] =>
  MEASURES.filter(
    (measure) =>
      (ids === null || ids.includes(measure.id)) &&
      (measure.unavailable?.(plate.brief) ?? null) === null,
  );
process.stdout.write(
  `${'group'.padEnd(24)}${plates.map(({ name }) => `${name}: fast/s, exact ms`.padStart(42)).join('')}\n`,
);
const line = (name: string, ids: readonly string[] | null): void => {
  const cells = plates.map((plate) => {
    const measures = had(plate, ids);
    const fast = 1000 / bestTime(plate, false, measures, ids === null);
    const exact = bestTime(plate, true, measures, ids === null);
    return `${fast.toFixed(0).padStart(30)}${exact.toFixed(1).padStart(12)}`;
  });
  process.stdout.write(`${name.padEnd(24)}${cells.join('')}\n`);
};
for (const [name, ids] of Object.entries(GROUPS)) line(name, ids);
line('all, with sampling', null);
