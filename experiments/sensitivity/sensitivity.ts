/**
 * Which genes drive which measure of a brief: elementary effects (Morris) in the fast form.
 *
 *   node dist/experiments/sensitivity/sensitivity.js BRIEF.json [--walks 40] [--genes 8] [--json FILE]
 *
 * Prints one line per measure with its strongest genes; effects are in units of the measure's own spread
 * over all rows, so that 1 means: moving this gene over its range moves the measure by about as much as
 * designs differ at all.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { sampleDesign } from '../../src/design/index.ts';
import { readBriefFile } from '../../src/formats/index.ts';
import { createGenome } from '../../src/genome/index.ts';
import { MEASURES, createAssessment } from '../../src/measures/index.ts';
import { createStream, quantile } from '../../src/numeric/index.ts';
import { morrisEffects, walkSpace } from '../../src/search/index.ts';

const { values: options, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    walks: { type: 'string', default: '40' },
    genes: { type: 'string', default: '8' },
    json: { type: 'string' },
  },
});
/** Stations of the fast form. */
const STATIONS = 32;

const [path] = positionals;
const brief = readBriefFile(readFileSync(path, 'utf8'), path);
const genome = createGenome(brief);
const measures = MEASURES.filter((measure) => (measure.unavailable?.(brief) ?? null) === null);
const walks = walkSpace(
  genome.space,
  Number(options.walks),
  createStream('sensitivity', brief.name),
);
const genes = genome.genes.length;
const count = walks.rows.length / genes;
const values = measures.map(() => new Float64Array(count).fill(Number.NaN));
let failed = 0;
for (let i = 0; i < count; i++) {
  const decoded = genome.decode(walks.rows, i * genes);
  if (!decoded.ok) {
    failed++;
    continue;
  }
  const samples = sampleDesign(decoded.design, STATIONS);
  const assessment = createAssessment(brief, decoded.design, samples, false);
  measures.forEach((measure, j) => (values[j][i] = measure.evaluate(assessment)));
}

const report = measures.map((measure, j) => {
  const known = [...values[j]].filter(Number.isFinite);
  // The middle four fifths: a few absurd random designs would flatten everything.
  const scale = quantile(known, 0.9) - quantile(known, 0.1);
  const limited = values[j].map((value) =>
    Math.min(quantile(known, 0.98), Math.max(quantile(known, 0.02), value)),
  );
  const { strength, mean, spread } = morrisEffects(walks, limited);
  const ranked = genome.genes
    .map((gene, g) => ({
      gene: gene.name,
      strength: strength[g] / scale,
      mean: mean[g] / scale,
      spread: spread[g] / scale,
    }))
    .filter((entry) => Number.isFinite(entry.strength))
    .toSorted((a, b) => b.strength - a.strength);
  return { measure: measure.id, scale, ranked };
});

process.stdout.write(
  `${brief.name}: ${genes} genes, ${options.walks} walks, ${count} rows, ${failed} of them no plate\n\n`,
);
process.stdout.write(
  '| measure | strongest genes: effect (with sign where it keeps one) |\n|---|---|\n',
);
for (const { measure, ranked } of report) {
  const shown = ranked.slice(0, Number(options.genes)).map(({ gene, strength, mean }) => {
    const keeps = Math.abs(mean) > 0.7 * strength;
    return `${gene} ${keeps ? (mean > 0 ? '+' : '-') : ''}${strength.toFixed(2)}`;
  });
  process.stdout.write(`| ${measure} | ${shown.join(', ')} |\n`);
}
if (options.json !== undefined) writeFileSync(options.json, JSON.stringify(report, null, 1));
