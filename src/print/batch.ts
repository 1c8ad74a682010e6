/** What a batch of parts takes: jobs, hours, cost per part. */
import type { Batch, Process } from '../brief/index.ts';
import { outlineBounds } from '../design/index.ts';
import type { Plate } from '../design/index.ts';
import { depositRate } from './plan.ts';
import type { PrintReport } from './report.ts';

export interface BatchPlan {
  readonly parts: number;
  /** Most parts of a job; 0: the part does not fit the bed, and the rest is NaN. */
  readonly partsPerJob: number;
  readonly jobs: number;
  /** Machine hours of the whole batch, scrap included, and hours until it is done on all machines. */
  readonly machine_h: number;
  readonly elapsed_h: number;
  /** Hands-on hours of the whole batch. */
  readonly labour_h: number;
  /** Material, machine and labour per good part, in the brief's currency. */
  readonly costPerPart: number;
}

const S_PER_H = 3600;
const G_PER_KG = 1000;

/**
 * Plans a batch: as many parts per job as stand on the bed, the last job with what is left.
 *
 *   job time = max(time of one part, k x active time + layers x layer change)
 *   active   = laying + travel + retractions
 *
 * Parts printed side by side share layer changes and cool while the others are laid, so waiting for
 * the least layer time falls away from some two parts on.
 *
 * @param report one part. @param parts good parts wanted, >= 1.
 * Source: own heuristic; common practice of filament printing, no source.
 */
export function planBatch(
  report: PrintReport,
  plate: Plate,
  process: Process,
  batch: Batch,
  parts: number,
): BatchPlan {
  const perJob = partsOnBed(plate, batch);
  if (perJob === 0) {
    const none = Number.NaN;
    return {
      parts,
      partsPerJob: 0,
      jobs: none,
      machine_h: none,
      elapsed_h: none,
      labour_h: none,
      costPerPart: none,
    };
  }
  const printed = Math.ceil(parts / (1 - batch.scrapShare));
  const full = Math.floor(printed / perJob);
  const rest = printed - full * perJob;
  const jobs = full + (rest > 0 ? 1 : 0);
  const fullJob_h = jobTime_h(report, process, perJob);
  const restJob_h = rest > 0 ? jobTime_h(report, process, rest) : 0;
  const machine_h = full * fullJob_h + restJob_h;
  const rounds = Math.ceil(jobs / batch.machines);
  const longest_h = full > 0 ? fullJob_h : restJob_h;
  const labour_h = jobs * batch.setup_h + parts * batch.handling_h;
  const material = (printed * report.mass_g * process.materialPrice_per_kg) / G_PER_KG;
  const cost = material + machine_h * process.machineRate_per_h + labour_h * batch.labourRate_per_h;
  return {
    parts,
    partsPerJob: Math.min(perJob, printed),
    jobs,
    machine_h,
    elapsed_h: batch.machines === 1 ? machine_h : rounds * longest_h,
    labour_h,
    costPerPart: cost / parts,
  };
}

/** Parts that stand on the bed beside each other, either way round; 0 when one does not fit. */
export function partsOnBed(plate: Plate, batch: Batch): number {
  const box = outlineBounds(plate.outline);
  const width = box.maxX_mm - box.minX_mm;
  const depth = box.maxY_mm - box.minY_mm;
  const onEdge = plate.build === 'edge';
  const [x, y, z] = onEdge
    ? [width, plate.thickness_mm, depth]
    : [width, depth, plate.thickness_mm];
  if (z > batch.bedZ_mm) return 0;
  const along = (bed: number, part: number): number =>
    Math.floor((bed + batch.gap_mm) / (part + batch.gap_mm));
  return Math.max(
    along(batch.bedX_mm, x) * along(batch.bedY_mm, y),
    along(batch.bedX_mm, y) * along(batch.bedY_mm, x),
  );
}

function jobTime_h(report: PrintReport, process: Process, count: number): number {
  const active_s =
    report.solidVolume_mm3 / depositRate(process) +
    report.travel_mm / process.travelSpeed_mm_per_s +
    report.retractions * process.retraction_s;
  const changes_s = report.layers * process.layerChange_s;
  return Math.max(report.printTime_h, (count * active_s + changes_s) / S_PER_H);
}
