/** The run loop: generations, checkpoints, reasons to stop, the front at the end. */
import type { Brief } from '../brief/index.ts';
import { hasStalled } from '../search/index.ts';
import { buildFront, refineFront } from './front.ts';
import { runGeneration } from './generation.ts';
import type { Checkpoint, Front, HistoryEntry } from './model.ts';
import { scoreNearest } from './nearest.ts';
import type { Ports } from './ports.ts';
import { beginRun, packRun, unpackRun } from './run.ts';
import type { ExtraStart, Run } from './run.ts';
import { scoreStarts } from './starts.ts';

export interface EvolveOptions {
  /** Goes on from here; the brief then is the checkpoint's own. */
  readonly checkpoint?: Checkpoint;
  /** Further rows of genes to begin with. */
  readonly starts?: readonly ExtraStart[];
  /** Generations between checkpoints. */
  readonly checkpointEvery?: number;
}

const EVOLVE_DEFAULTS = { checkpointEvery: 5 } as const;

export type StopReason = 'budget' | 'time' | 'stalled' | 'interrupted';

export type RunEvent =
  | {
      readonly kind: 'started';
      readonly genes: number;
      readonly labels: readonly string[];
      /** Generations done before, when resumed. */
      readonly generation: number;
    }
  | { readonly kind: 'generation'; readonly entry: HistoryEntry; readonly generations: number }
  | { readonly kind: 'checkpoint'; readonly generation: number }
  | { readonly kind: 'stopping'; readonly why: StopReason; readonly designs: number };

/**
 * Evolves a brief to a front. The events say how it goes; the generator's return value is the front.
 *
 * Same brief and seed give the same front for any crew, and after a resume from any checkpoint;
 * a time limit or an interruption ends the run at a generation that depends on speed.
 *
 * @throws InputError when the brief names measures it cannot have.
 */
export async function* evolve(
  brief: Brief,
  options: EvolveOptions,
  ports: Ports,
): AsyncGenerator<RunEvent, Front> {
  const every = options.checkpointEvery ?? EVOLVE_DEFAULTS.checkpointEvery;
  const run =
    options.checkpoint === undefined
      ? beginRun(brief, options.starts ?? [])
      : unpackRun({ ...options.checkpoint, brief });
  const began_ms = ports.now();
  yield {
    kind: 'started',
    genes: run.genome.genes.length,
    labels: run.labelled.map(({ label }) => label),
    generation: run.history.length,
  };
  let why = reasonToStop(run, ports, began_ms);
  while (why === null) {
    const entry = await runGeneration(run, ports.crew);
    yield { kind: 'generation', entry, generations: run.brief.search.generations };
    why = reasonToStop(run, ports, began_ms);
    // The first one comes at once, so that hardly any work can be lost early on.
    if (why !== null || run.history.length === 1 || run.history.length % every === 0) {
      await ports.keep(packRun(run));
      yield { kind: 'checkpoint', generation: run.history.length };
    }
  }
  yield { kind: 'stopping', why, designs: run.records.size };
  const starts = await scoreStarts(run, ports.crew);
  const nearest = await scoreNearest(run, ports.crew);
  // Whoever interrupts wants the result now; a resumed run still refines it.
  const refined = why === 'interrupted' ? null : await refineFront(run, ports.crew);
  return buildFront(run, starts, nearest, refined);
}

/** The front of a checkpoint, as it stood then; the starting designs are scored at the end only. */
export function frontOf(checkpoint: Checkpoint): Front {
  return buildFront(unpackRun(checkpoint), [], null, null);
}

function reasonToStop(run: Run, ports: Ports, began_ms: number): StopReason | null {
  const { generations, timeLimit_s, stallGenerations } = run.brief.search;
  if (run.history.length >= generations) return 'budget';
  const volumes = run.history.map((entry) => entry.hypervolume);
  if (stallGenerations > 0 && hasStalled(volumes, stallGenerations)) return 'stalled';
  if (ports.signal.aborted) return 'interrupted';
  if (timeLimit_s !== undefined && ports.now() - began_ms >= timeLimit_s * 1000) return 'time';
  return null;
}
