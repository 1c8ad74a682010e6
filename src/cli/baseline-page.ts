/** A baseline for people and for programs. */
import type {
  Baseline,
  BaselineComparison,
  BaselineFamily,
  BaselinePlate,
} from '../engine/index.ts';
import { figure } from '../formats/index.ts';
import type { Terminal } from './terminal.ts';
import { table, wrap } from './words.ts';

/** Plates shown per family: the best of each objective and as many again between. */
const ROWS_PER_FAMILY = 6;

export function baselinePage(
  name: string,
  baseline: Baseline,
  comparison: BaselineComparison | null,
  terminal: Terminal,
): string {
  const parts = [terminal.strong(`${name}: what one would have drawn`), '', platesTable(baseline)];
  parts.push('', ...baseline.families.map(familyLine));
  if (comparison !== null) parts.push('', ...comparisonLines(comparison));
  return parts.join('\n');
}

function platesTable(baseline: Baseline): string {
  const at = baseline.objectives.map((id) => baseline.measures.findIndex((info) => info.id === id));
  const headings = [
    'plate',
    'kind',
    ...at.map((j) => `${baseline.measures[j].label} [${baseline.measures[j].unit}]`),
    'meets limits',
    'drawn as',
  ];
  const rows = baseline.families.flatMap(({ plates }) =>
    pick(plates).map((plate) => [
      plate.id,
      plate.family,
      ...at.map((j) => figure(plate.readings[j])),
      plate.feasible ? 'yes' : `no: ${missed(plate)}`,
      sizes(plate),
    ]),
  );
  return rows.length === 0 ? 'No plain plate of this brief can be drawn.' : table(headings, rows);
}

/** Evenly over the family's front, which is in order of the first objective. */
function pick(plates: readonly BaselinePlate[]): readonly BaselinePlate[] {
  if (plates.length <= ROWS_PER_FAMILY) return plates;
  const step = (plates.length - 1) / (ROWS_PER_FAMILY - 1);
  return Array.from({ length: ROWS_PER_FAMILY }, (_, i) => plates[Math.round(i * step)]);
}

function missed(plate: BaselinePlate): string {
  return plate.limits
    .filter((limit) => !(limit.margin >= 0))
    .map((limit) => limit.measure)
    .join(', ');
}

/** Thickness, count and bore in words: '128 bores of 4.2 mm, 12 mm thick'. */
function sizes({ design }: BaselinePlate): string {
  const { thickness_mm, build } = design.plate;
  let count = 0;
  for (const channel of design.channels) count += channel.placements.length;
  const [first] = design.channels;
  const bore = figure(first.bore_mm[0]);
  const size =
    first.section.kind === 'slot'
      ? `${count === 1 ? 'slot' : 'slots'} ${bore} x ${figure(first.bore_mm[0] * first.section.aspect)} mm`
      : `${count === 1 ? 'hole' : 'holes'} of ${bore} mm`;
  return `${count} ${size}, ${figure(thickness_mm)} mm thick, built ${build}`;
}

function familyLine({ family, tried, feasible, plates }: BaselineFamily): string {
  const held = plates.filter((plate) => plate.feasible).length;
  return `${family}: ${tried} tried, ${feasible} met the limits by the fast form, ${held} make its front exactly.`;
}

function comparisonLines(comparison: BaselineComparison): string[] {
  const { front, baseline, families, plates, platesDominated, designsDominated } = comparison;
  const each = families
    .map(({ family, hypervolume }) => `${family} ${figure(hypervolume)}`)
    .join(', ');
  return [
    wrap(
      `Hypervolume: the front ${figure(front)}, all plain plates ${figure(baseline)} (${each}).`,
      '',
    ),
    wrap(
      `Designs of the front beat ${platesDominated} of ${plates} plain plates outright; plain plates beat ${designsDominated} designs of the front.`,
      '',
    ),
  ];
}

/** One JSON object: families with their plates, and the comparison where there is a run. */
export function baselineData(baseline: Baseline, comparison: BaselineComparison | null): string {
  return JSON.stringify({ ...baseline, comparison }, null, 2);
}
