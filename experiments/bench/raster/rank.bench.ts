/**
 * How the fast print estimate ranks random designs against the exact raster.
 *
 * `npm run bench -- raster/rank`: Spearman's rank correlation per measure, over random rows of the
 * genomes of the three example briefs; designs whose channels overlap are told apart, since only
 * sound ones enter an archive.
 */
import { readFileSync } from 'node:fs';

import { readBrief } from '../../../src/brief/index.ts';
import { FAST_STATIONS, sampleDesign } from '../../../src/design/index.ts';
import { createGenome } from '../../../src/genome/index.ts';
import { createAssessment } from '../../../src/measures/assessment.ts';
import { overlapDepth } from '../../../src/measures/overlap-depth.ts';
import { createStream, rankCorrelation } from '../../../src/numeric/index.ts';
import { estimatePrint, rasterPrint } from '../../../src/print/index.ts';
import type { PrintReport } from '../../../src/print/index.ts';

const BRIEFS = ['flour-trap', 'light-tight', 'finger-guard'];
const ROWS = 80;
const EXACT_STATIONS = 64;
const FIELDS = [
  'overhangArea_mm2',
  'bridge_mm',
  'newIslands',
  'contoursPerLayer',
  'supportArea_mm2',
  'supportVolume_mm3',
  'finestFeature_mm',
  'weakestSection',
  'mass_g',
  'printTime_h',
  'cost',
] as const satisfies readonly (keyof PrintReport)[];

interface Pair {
  readonly name: string;
  readonly fast: PrintReport;
  readonly exact: PrintReport;
  readonly overlap_mm: number;
}

function pairsOf(name: string): Pair[] {
  const url = new URL(`experiments/${name}/brief.json`, root());
  const read = readBrief(JSON.parse(readFileSync(url, 'utf8')));
  if (!read.ok) throw new Error(`${name}: the brief does not read.`);
  const { brief } = read;
  const genome = createGenome(brief);
  const { kinds, lower, upper } = genome.space;
  const pairs: Pair[] = [];
  const rows: Float64Array[] = genome.starts.map((start) => start.row);
  for (let i = 0; i < ROWS; i++) {
    const stream = createStream('rank', name, `row/${i}`);
    const row = Float64Array.from(kinds, (kind, g) => {
      const value = lower[g] + stream.next() * (upper[g] - lower[g]);
      return kind === 0 ? value : Math.round(value);
    });
    rows.push(row);
    // Half-way to a start that prints: sound designs are rare among random rows.
    const start = genome.starts[i % genome.starts.length].row;
    const share = 0.15 + 0.2 * stream.next();
    rows.push(
      Float64Array.from(kinds, (kind, g) =>
        kind === 0
          ? start[g] + share * (row[g] - start[g])
          : stream.next() < share
            ? row[g]
            : start[g],
      ),
    );
  }
  for (const row of rows) {
    const decoded = genome.decode(row, 0);
    if (!decoded.ok) continue;
    const fast = sampleDesign(decoded.design, FAST_STATIONS);
    const exact = sampleDesign(decoded.design, EXACT_STATIONS);
    pairs.push({
      name,
      fast: estimatePrint(fast, brief.process),
      exact: rasterPrint(exact, brief.process),
      overlap_mm: overlapDepth.evaluate(createAssessment(brief, decoded.design, fast, false)),
    });
  }
  return pairs;
}

/** The project's folder, from the source or from the built file. */
function root(): URL {
  const here = new URL('.', import.meta.url);
  return here.pathname.includes('/dist/')
    ? new URL('../../../../', here)
    : new URL('../../../', here);
}

function tableRow(label: string, pairs: readonly Pair[]): string {
  const cells = FIELDS.map((field) => {
    const fast = pairs.map((pair) => pair.fast[field]);
    const exact = pairs.map((pair) => pair.exact[field]);
    // '=': one of the two says the same of every design, so there is no ranking to compare.
    const alike = [fast, exact].some((values) => values.every((value) => value === values[0]));
    return (alike ? '=' : rankCorrelation(fast, exact).toFixed(3)).padStart(8);
  });
  return `${label.padEnd(22)}${String(pairs.length).padStart(5)}${cells.join('')}`;
}

const all = BRIEFS.flatMap(pairsOf);
const short = FIELDS.map((field) => field.replace(/_.*/, '').slice(0, 7).padStart(8)).join('');
process.stdout.write(`${'Spearman'.padEnd(22)}${'n'.padStart(5)}${short}\n`);
process.stdout.write(`${tableRow('all', all)}\n`);
process.stdout.write(
  `${tableRow(
    'no overlap',
    all.filter((pair) => pair.overlap_mm <= 0),
  )}\n`,
);
for (const name of BRIEFS) {
  const own = all.filter((pair) => pair.name === name);
  process.stdout.write(`${tableRow(name, own)}\n`);
  process.stdout.write(
    `${tableRow(
      '  no overlap',
      own.filter((pair) => pair.overlap_mm <= 0),
    )}\n`,
  );
}
if (process.argv.includes('--dump')) {
  for (const pair of all) {
    const cells = FIELDS.map(
      (f) => `${pair.fast[f].toPrecision(4)} ${pair.exact[f].toPrecision(4)}`,
    );
    process.stdout.write(
      `${pair.name} ${pair.overlap_mm <= 0 ? 'sound' : 'overlap'} | ${cells.join(' | ')}\n`,
    );
  }
}
