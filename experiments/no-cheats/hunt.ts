/**
 * Hunts for holes in the scores: each measure alone as the only objective, evolved hard, and its
 * winner looked at with finer sampling and with the mesh.
 *
 *   node dist/experiments/no-cheats/hunt.js BRIEF.json... --out FOLDER
 *     [--limits own|brief] [--measures id,id] [--population 64] [--generations 60]
 *
 * Per brief and measure it writes the winner's design file, a drawing and one line of JSON with every
 * reading at 32 (fast), 64, 128 and 256 stations, and what the mesh says.
 */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { parseArgs } from 'node:util';
import { sampleDesign } from '../../src/design/index.ts';
import type { Design } from '../../src/design/index.ts';
import { createEvaluator, designOf, evolve, solid } from '../../src/engine/index.ts';
import type { Brief, Crew, Front, FrontDesign } from '../../src/engine/index.ts';
import { drawDesign, readBriefFile, writeDesignFile } from '../../src/formats/index.ts';
import { MEASURES, createAssessment } from '../../src/measures/index.ts';
import { plateViews } from '../../src/solids/index.ts';

const { values: options, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    out: { type: 'string' },
    limits: { type: 'string', default: 'own' },
    measures: { type: 'string' },
    population: { type: 'string', default: '64' },
    generations: { type: 'string', default: '60' },
  },
});

/** Readings of every measure at one sampling, by id. */
function readings(
  brief: Brief,
  design: Design,
  stations: number,
  exact: boolean,
): Record<string, number | null> {
  const assessment = createAssessment(brief, design, sampleDesign(design, stations), exact);
  return Object.fromEntries(
    MEASURES.map((measure) => {
      const has = (measure.unavailable?.(brief) ?? null) === null;
      const value = has ? measure.evaluate(assessment) : Number.NaN;
      return [measure.id, Number.isFinite(value) ? Number(value.toPrecision(6)) : null];
    }),
  );
}

async function winner(brief: Brief): Promise<{ front: Front; best: FrontDesign | null }> {
  const evaluator = createEvaluator(brief);
  const crew: Crew = {
    size: 1,
    evaluate: ({ rows, count, form }) => Promise.resolve(evaluator.evaluate(rows, count, form)),
  };
  const run = evolve(
    brief,
    {},
    { crew, keep: () => Promise.resolve(), now: () => 0, signal: new AbortController().signal },
  );
  for (;;) {
    const step = await run.next();
    if (step.done === true) return { front: step.value, best: step.value.designs[0] ?? null };
  }
}

/** What the mesh says, and a drawing from its cuts. */
async function meshed(
  name: string,
  design: Design,
  notes: readonly string[],
): Promise<{ words: Record<string, unknown>; svg: string | null }> {
  try {
    const { mesh, report } = await solid(name, design, { stations: 64 });
    const words = {
      genus: [report.genus, report.expectedGenus],
      parts: report.parts,
      volume_mm3: Math.round(report.volume_mm3),
      crossings: report.crossings,
      faults: report.faults.map((fault) => fault.message),
    };
    return { words, svg: drawDesign(design, plateViews(design, mesh), { title: name, notes }) };
  } catch (error) {
    return { words: { failed: error instanceof Error ? error.message : String(error) }, svg: null };
  }
}

function settings(brief: Brief, id: string): Brief {
  return {
    ...brief,
    goals: { objectives: [id], limits: options.limits === 'own' ? [] : brief.goals.limits },
    search: {
      ...brief.search,
      population: Number(options.population),
      generations: Number(options.generations),
      stallGenerations: 0,
      archive: 8,
    },
  };
}

const folder = options.out;
if (folder === undefined || positionals.length === 0) {
  throw new Error('Give at least one brief file and --out FOLDER.');
}
mkdirSync(folder, { recursive: true });
const chosen = options.measures?.split(',') ?? MEASURES.map((measure) => measure.id);
for (const id of chosen) {
  for (const path of positionals) {
    const given = readBriefFile(readFileSync(path, 'utf8'), path);
    const measure = MEASURES.find((known) => known.id === id);
    if (measure === undefined) throw new Error(`No measure "${id}".`);
    if ((measure.unavailable?.(given) ?? null) !== null) continue;
    const brief = settings(given, id);
    const name = `${basename(dirname(path))}-${options.limits}-${id}`;
    const { front, best } = await winner(brief);
    if (best === null) {
      console.log(JSON.stringify({ name, winner: null }));
      continue;
    }
    const design = designOf(front, best);
    const exact = readings(brief, design, 64, true);
    const notes = Object.entries(exact).map(([key, value]) => `${key}: ${value ?? '-'}`);
    const { words, svg } = await meshed(name, design, notes);
    const told = {
      name,
      origin: best.origin,
      channels: design.channels.reduce((sum, channel) => sum + channel.placements.length, 0),
      fast: readings(brief, design, 32, false),
      exact,
      at128: readings(brief, design, 128, true),
      at256: readings(brief, design, 256, true),
      mesh: words,
      outside: best.outside,
    };
    console.log(JSON.stringify(told));
    writeFileSync(
      join(folder, `${name}.design.json`),
      writeDesignFile({ name, brief, design, genes: null }),
    );
    if (svg !== null) writeFileSync(join(folder, `${name}.svg`), svg);
  }
}
