/**
 * Diffuse light alone: fast evaluations per CPU-second, exact milliseconds, and how alike both rank.
 *
 * `npm run bench -- light/light`: plates of the evaluation bench, with the direct light worked out
 * beforehand. Ranking: starting designs of an invented brief, every gene moved by up to four tenths of
 * the way to a random value, read in both forms; Spearman over all and over those without direct light.
 */
import { checkBrief } from '../../../src/engine/index.ts';
import { sampleDesign } from '../../../src/design/index.ts';
import { createGenome } from '../../../src/genome/index.ts';
import type { Genome } from '../../../src/genome/index.ts';
import { createAssessment } from '../../../src/measures/assessment.ts';
import { diffuseAnalysis } from '../../../src/measures/analyses/diffuse.ts';
import { leakAnalysis } from '../../../src/measures/analyses/sight.ts';
import { createStream, median, quantile, rankCorrelation } from '../../../src/numeric/index.ts';
import { alonePlates, reportAlone } from '../evaluate/alone.ts';

const DESIGNS = 60;
/** Direct light under which a plate counts as dark. */
const DARK = 1e-5;

function variedRow(genome: Genome, i: number): Float64Array {
  const random = createStream('bench/light', `row/${i}`);
  const start = genome.starts[i % genome.starts.length].row;
  const mix = 0.4 * random.next();
  return Float64Array.from(genome.genes, ({ kind, min, max }, j) => {
    const drawn = min + (max - min) * random.next();
    if (kind === 'real') return start[j] + mix * (drawn - start[j]);
    return random.next() < mix ? Math.round(drawn) : start[j];
  });
}

function rank(wallReflectance: number): void {
  const brief = checkBrief({
    format: 'anfract-brief',
    version: 1,
    name: 'bench of light',
    plate: {
      outline: { kind: 'round', diameter_mm: 70 },
      thickness_mm: { min_mm: 10, max_mm: 25 },
      build: 'any',
    },
    air: { supply: { kind: 'flow', flow_m3_per_h: 8 } },
    light: { wallReflectance },
  });
  const genome = createGenome(brief);
  const fast: number[] = [];
  const exact: number[] = [];
  const dark: boolean[] = [];
  const errors: number[] = [];
  const times_ms: number[] = [];
  for (let i = 0; fast.length < DESIGNS; i++) {
    const decoded = genome.decode(variedRow(genome, i), 0);
    if (!decoded.ok) continue;
    const { design } = decoded;
    const quick = createAssessment(brief, design, sampleDesign(design, 32), false);
    const slow = createAssessment(brief, design, sampleDesign(design, 64), true);
    fast.push(quick.get(diffuseAnalysis).plate);
    dark.push(slow.get(leakAnalysis).plate < DARK);
    const begin = process.cpuUsage();
    const report = slow.get(diffuseAnalysis);
    const used = process.cpuUsage(begin);
    times_ms.push(1e-3 * (used.user + used.system));
    exact.push(report.plate);
    errors.push(report.error / report.plate);
  }
  const pick = (values: readonly number[]): number[] => values.filter((_, i) => dark[i]);
  process.stdout.write(
    `reflectance ${wallReflectance}: Spearman ${rankCorrelation(fast, exact).toFixed(3)} of ${DESIGNS}, ` +
      `${rankCorrelation(pick(fast), pick(exact)).toFixed(3)} of the ${pick(fast).length} dark ones; exact ` +
      `${median(times_ms).toFixed(0)} ms, at most ${Math.max(...times_ms).toFixed(0)}; error ` +
      `${(100 * median(errors)).toFixed(1)} %, 95 % of plates under ${(100 * quantile(errors, 0.95)).toFixed(0)} %\n`,
  );
}

reportAlone('Diffuse light', alonePlates({ light: {} }), {
  before: (assessment) => assessment.get(leakAnalysis),
  work: (assessment) => assessment.get(diffuseAnalysis).plate,
  assess: createAssessment,
});
for (const wallReflectance of [0.05, 0.3, 0.8]) rank(wallReflectance);
