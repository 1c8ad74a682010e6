/**
 * How well the layers of the search rank designs against the solved conduction.
 *
 * `npm run bench -- heat/rank`: random designs of the heat-sink brief (INVENTED) without overlaps, each once in the
 * fast form at 32 stations and once exactly at 64, for a plastic, a filled plastic and a metal.
 * Prints the rank correlation and the spread of fast over exact thermal resistance.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

import { sampleDesign } from '../../../src/design/index.ts';
import type { Design } from '../../../src/design/index.ts';
import { checkBrief } from '../../../src/engine/index.ts';
import type { Brief } from '../../../src/engine/index.ts';
import { createGenome } from '../../../src/genome/index.ts';
import { heatAnalysis } from '../../../src/measures/analyses/heat.ts';
import { createAssessment, findMeasure } from '../../../src/measures/index.ts';
import { createStream, median, quantile, rankCorrelation } from '../../../src/numeric/index.ts';

const ROOT = fileURLToPath(new URL('../../../../', import.meta.url));
const DESIGNS = 40;

/** Whether channels run into each other: such a plate is no part, and its layers hold less solid than none. */
function isTangled(brief: Brief, design: Design): boolean {
  const assessment = createAssessment(brief, design, sampleDesign(design, 32), false);
  return (findMeasure('overlapDepth_mm')?.evaluate(assessment) ?? 0) > 0;
}

const value: object = JSON.parse(
  readFileSync(join(ROOT, 'experiments/heat-sink/brief.json'), 'utf8'),
);
for (const material of ['pla', 'conductivePlastic', 'aluminium']) {
  const heat = { source: { kind: 'load', heat_W: 15 }, material };
  const brief = checkBrief({ ...value, heat });
  const genome = createGenome(brief);
  const random = createStream('bench/heat-rank', material);
  const both: [number[], number[]] = [[], []];
  while (both[0].length < DESIGNS) {
    const row = Float64Array.from(genome.genes, (gene) => {
      const place = gene.min + (gene.max - gene.min) * random.next();
      return gene.kind === 'real' ? place : Math.round(place);
    });
    const decoded = genome.decode(row, 0);
    if (!decoded.ok) continue;
    if (isTangled(brief, decoded.design)) continue;
    for (const [i, exact] of [false, true].entries()) {
      const samples = sampleDesign(decoded.design, exact ? 64 : 32);
      const assessment = createAssessment(brief, decoded.design, samples, exact);
      both[i].push(1 / assessment.get(heatAnalysis).conductance_W_per_K);
    }
  }
  const ratio = both[0].map((fast, i) => fast / both[1][i]);
  process.stdout.write(
    `${material.padEnd(20)} rank correlation ${rankCorrelation(both[0], both[1]).toFixed(3)}; fast / exact: ` +
      `median ${median(ratio).toFixed(3)}, 5-95 % ${quantile(ratio, 0.05).toFixed(3)}..${quantile(ratio, 0.95).toFixed(3)}; ` +
      `R ${Math.min(...both[1]).toFixed(2)}..${Math.max(...both[1]).toFixed(2)} K/W\n`,
  );
}
