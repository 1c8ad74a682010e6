/**
 * A crew: a few workers that score batches of genes and put the results back by row, so that a
 * run does not depend on how many there are, which is faster, or whether one dies on the way.
 */
import type { Brief, Crew, Evaluated, EvaluateJob, Form } from '../src/engine/index.ts';
import type { EvaluateService } from './evaluate.ts';
import type { Remote } from 'comlink';

/** One running worker, of whichever kind. */
export interface WorkerHandle {
  readonly service: Remote<EvaluateService>;
  /** Resolves with the reason when the worker is lost; never rejects. */
  readonly lost: Promise<string>;
  terminate(): Promise<void>;
}

export interface CrewOptions {
  readonly size: number;
  spawn(): WorkerHandle;
  /** Told when a worker was lost and replaced, for the log. */
  readonly onLoss?: (reason: string) => void;
}

/** Rows per call: long enough to hide a call's cost, short enough to keep workers level. */
const CHUNK_ROWS: Readonly<Record<Form, number>> = { fast: 12, exact: 1, refined: 1 };
/** Calls under way per worker, so that none waits for the master. */
const IN_FLIGHT = 2;
/** A row that was being scored at so many losses is given up. */
const LOSSES_PER_ROW = 2;
/** Losses in a row, without one answer between, after which the crew gives up. */
const LOSSES_IN_A_ROW = 12;

interface Chunk {
  readonly from: number;
  readonly count: number;
  losses: number;
}

class CrewLost extends Error {}

interface Member {
  handle: WorkerHandle;
  started: Promise<unknown>;
}

/** Starts the workers; they load while the caller goes on. Close the crew when done. */
export function createCrew(brief: Brief, options: CrewOptions): Crew & { close(): Promise<void> } {
  let lossesInARow = 0;
  const start = (): Member => {
    const handle = options.spawn();
    const started = handle.service.ready(brief);
    // A failure to start shows up where the first batch awaits it.
    started.catch(() => undefined);
    return { handle, started };
  };
  const members = Array.from({ length: options.size }, start);

  /** One call that also settles when its worker dies. */
  async function call(member: Member, job: EvaluateJob, chunk: Chunk): Promise<Evaluated> {
    const genes = job.rows.length / job.count;
    const rows = job.rows.slice(chunk.from * genes, (chunk.from + chunk.count) * genes);
    const answer = member.started.then(() =>
      member.handle.service.evaluate(rows, chunk.count, job.form),
    );
    const loss = member.handle.lost.then((reason) => {
      throw new CrewLost(reason);
    });
    return Promise.race([answer, loss]);
  }

  async function evaluate(job: EvaluateJob): Promise<Evaluated> {
    const size = CHUNK_ROWS[job.form];
    const queue: Chunk[] = [];
    for (let from = 0; from < job.count; from += size) {
      queue.push({ from, count: Math.min(size, job.count - from), losses: 0 });
    }
    const parts = new Map<number, { chunk: Chunk; result: Evaluated | null }>();

    /** After a loss: the rows go back singly, so that one bad row cannot take others with it. */
    const giveBack = (chunk: Chunk): void => {
      const losses = chunk.losses + 1;
      if (chunk.count === 1 && losses >= LOSSES_PER_ROW) {
        parts.set(chunk.from, { chunk, result: null });
        return;
      }
      for (let i = chunk.count - 1; i >= 0; i--) {
        queue.unshift({ from: chunk.from + i, count: 1, losses: chunk.count === 1 ? losses : 0 });
      }
    };

    const lane = async (index: number): Promise<void> => {
      for (let chunk = queue.shift(); chunk !== undefined; chunk = queue.shift()) {
        const member = members[index];
        try {
          parts.set(chunk.from, { chunk, result: await call(member, job, chunk) });
          lossesInARow = 0;
        } catch (error) {
          if (!(error instanceof CrewLost)) throw error;
          giveBack(chunk);
          // The first lane to notice replaces the worker; the others find the new one.
          if (members[index] === member) {
            lossesInARow++;
            options.onLoss?.(error.message);
            if (lossesInARow >= LOSSES_IN_A_ROW) {
              throw new Error(`Workers keep failing: ${error.message}`, { cause: error });
            }
            members[index] = start();
          }
        }
      }
    };
    const lanes = members.flatMap((_, i) => Array.from({ length: IN_FLIGHT }, () => lane(i)));
    await Promise.all(lanes);
    // A lane may have ended before another gave its rows back.
    while (queue.length > 0) await lane(0);
    return join(job, parts);
  }

  return {
    size: options.size,
    evaluate,
    async close() {
      await Promise.all(members.map((member) => member.handle.terminate()));
    },
  };
}

/** Puts the parts together in row order, whatever order they came in. */
function join(
  job: EvaluateJob,
  parts: ReadonlyMap<number, { chunk: Chunk; result: Evaluated | null }>,
): Evaluated {
  let columns = 0;
  for (const { chunk, result } of parts.values()) {
    if (result !== null) columns = result.values.length / chunk.count;
  }
  const values = new Float64Array(job.count * columns).fill(Number.NaN);
  const failures: (string | null)[] = Array.from({ length: job.count }, () => null);
  const notes: (readonly string[])[] = Array.from({ length: job.count }, () => []);
  for (const { chunk, result } of parts.values()) {
    if (result === null) {
      failures[chunk.from] = 'The worker was lost each time it scored this row.';
      continue;
    }
    values.set(result.values, chunk.from * columns);
    for (let i = 0; i < chunk.count; i++) {
      failures[chunk.from + i] = result.failures[i];
      notes[chunk.from + i] = result.notes[i];
    }
  }
  return { values, failures, notes };
}
