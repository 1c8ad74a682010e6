/**
 * Two rankings of the same designs by dust kept: the heuristic's, and that of grains tracked through a
 * computed flow.
 *
 *   node dist/experiments/verified/verified.js [--designs 34] [--cells 10] [--grains 200] [--front FILE] [--flow M3_PER_H]
 *
 * Without `--front` the designs are random rows of genes that decode to a plate whose median channel the
 * solver takes; with it they are spread evenly over the front, at another flow than the brief's where
 * that is beyond the solver. One JSON line per design goes to stdout
 * as it is done, a summary to stderr.
 */
import { readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import type { Design } from '../../src/design/index.ts';
import { designOf, planVerification } from '../../src/engine/index.ts';
import type { VerifyPlan } from '../../src/engine/index.ts';
import { assessDesign } from '../../src/engine/evaluator.ts';
import { flowFindings } from '../../src/flow/index.ts';
import { solveDuct } from '../../src/flow/solve.ts';
import type { Solved } from '../../src/flow/solve.ts';
import { readBriefFile, readFrontFile } from '../../src/formats/index.ts';
import { createGenome } from '../../src/genome/index.ts';
import { downOf } from '../../src/measures/analyses/dust-rest.ts';
import { dustAnalysis, flowAnalysis } from '../../src/measures/index.ts';
import { createStream, rankCorrelation } from '../../src/numeric/index.ts';
import { FINE_TEST_DUST } from '../../src/physics/index.ts';

const { values: options } = parseArgs({
  options: {
    designs: { type: 'string', default: '34' },
    cells: { type: 'string', default: '10' },
    grains: { type: 'string', default: '200' },
    front: { type: 'string' },
    flow: { type: 'string' },
  },
});
const SPEED = 0.08;
/** Largest grid worth the wait [cells]. */
const MOST_CELLS = 400_000;

const path = 'experiments/verified/brief.json';
const front =
  options.front === undefined
    ? null
    : readFrontFile(readFileSync(options.front, 'utf8'), options.front);
const asked = front?.brief ?? readBriefFile(readFileSync(path, 'utf8'), path);
const brief =
  options.flow === undefined
    ? asked
    : {
        ...asked,
        air: {
          ...asked.air,
          supply: { kind: 'flow' as const, flow_m3_per_h: Number(options.flow) },
        },
      };
const wanted = Number(options.designs);

function* candidates(): Generator<readonly [string, Design]> {
  if (front !== null) {
    const count = Math.min(wanted, front.designs.length);
    for (let i = 0; i < count; i++) {
      const at = Math.round((i * (front.designs.length - 1)) / Math.max(1, count - 1));
      yield [front.designs[at].id, designOf(front, front.designs[at])];
    }
    return;
  }
  const genome = createGenome(brief);
  const { kinds, lower, upper } = genome.space;
  const stream = createStream('verified', brief.name);
  for (let n = 0; ; n++) {
    const row = lower.map((low, i) =>
      // Kind 0 is real, the others are whole numbers.
      kinds[i] === 0
        ? low + (upper[i] - low) * stream.next()
        : low + Math.floor((upper[i] - low + 1) * stream.next()),
    );
    const decoded = genome.decode(row, 0);
    if (decoded.ok) yield [`r${n}`, decoded.design];
  }
}

function solve(plan: VerifyPlan): Solved {
  const march = solveDuct(plan.duct, {
    side_mm: plan.options.side_mm,
    cells: plan.options.cells,
    inletLength_mm: 10,
    outletLength_mm: 15,
    reynolds: plan.reynolds,
    tolerance: 0.003,
    maxSteps: 8000,
    speed: SPEED * plan.options.narrowing,
    subgrid: 0.05,
  });
  let next = march.next();
  while (next.done !== true) next = march.next();
  return next.value;
}

const rows: Record<'heuristic' | 'caught' | 'inPockets' | 'dry' | 'dryPockets', number>[] = [];
const refused = new Map<string, number>();
for (const [id, design] of candidates()) {
  if (rows.length >= wanted) break;
  const plan = planVerification(brief, design, Number(options.cells), null);
  if (typeof plan === 'string') {
    const why = plan.replaceAll(/[\d.]+/g, '#');
    refused.set(why, (refused.get(why) ?? 0) + 1);
    continue;
  }
  if (plan.memory_bytes > 152 * MOST_CELLS * 4) {
    refused.set('too large', (refused.get('too large') ?? 0) + 1);
    continue;
  }
  const drawn = { ...brief.process, holeShrinkage_mm: 0 };
  const assessment = assessDesign({ ...brief, process: drawn }, design, 'refined');
  const heuristic = assessment.get(dustAnalysis).shapeCapture[plan.shape];
  const began = process.cpuUsage().user;
  const solved = solve(plan);
  if (solved.diverged) continue;
  const findings = flowFindings(
    {
      solved,
      velocity_m_per_s: plan.velocity_m_per_s,
      speed: SPEED * plan.options.narrowing,
    },
    null,
    {
      samples: assessment.samples,
      shape: plan.shape,
      air: assessment.get(flowAnalysis).air,
      classes: brief.dust.classes ?? FINE_TEST_DUST,
      density_kg_per_m3: brief.dust.density_kg_per_m3,
      down: downOf(brief),
      grains: Number(options.grains),
    },
  );
  const caught = findings.dust.caught.share;
  const inPockets = findings.dust.inPockets.share;
  const dry = findings.dryDust.caught.share;
  const dryPockets = findings.dryDust.inPockets.share;
  rows.push({ heuristic, caught, inPockets, dry, dryPockets });
  process.stdout.write(
    `${JSON.stringify({
      id,
      velocity_m_per_s: plan.velocity_m_per_s,
      reynolds: Math.round(plan.reynolds),
      pockets: findings.pocketShear.length,
      heuristic,
      caught,
      low: findings.dust.caught.low,
      high: findings.dust.caught.high,
      inPockets,
      dry,
      dryPockets,
      lifted: findings.lifted.share,
      recirculation: findings.recirculation.share,
      loss: solved.loss,
      steps: solved.steps,
      cells: solved.cells,
      converged: solved.converged,
      seconds: Math.round((process.cpuUsage().user - began) / 1e5) / 10,
    })}\n`,
  );
}
for (const [why, count] of refused) process.stderr.write(`passed over ${count}: ${why}\n`);
const spearman = (key: keyof (typeof rows)[number]): string =>
  rankCorrelation(
    rows.map((row) => row.heuristic),
    rows.map((row) => row[key]),
  ).toFixed(3);
process.stderr.write(
  `${rows.length} designs. Spearman of the heuristic with sticky grains caught ${spearman('caught')}, in pockets ${spearman('inPockets')}; with dry grains caught ${spearman('dry')}, in pockets ${spearman('dryPockets')}\n`,
);
