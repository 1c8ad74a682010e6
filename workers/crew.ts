/**
 * A crew: a few workers that score batches of genes and put the results back by row, so that a
 * run does not depend on how many there are, which is faster, or whether one dies on the way.
 */
import { RunError } from '../src/engine/index.ts';
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

interface CrewOptions {
  readonly size: number;
  spawn(): WorkerHandle;
  /** Told when a worker was lost and replaced, for the log. */
  readonly onLoss?: (reason: string) => void;
}

/** Most rows per call, and how many calls are under way per worker. */
interface Pace {
  readonly rows: number;
  readonly inFlight: number;
}

/**
 * Fast rows take about a millisecond, as long as thirty calls: a dozen hide the call, and a second
 * call under way keeps the worker from waiting for the master. Exact rows take tens: one at a time.
 */
const PACE: Readonly<Record<Form, Pace>> = {
  fast: { rows: 12, inFlight: 2 },
  exact: { rows: 1, inFlight: 1 },
  refined: { rows: 1, inFlight: 1 },
};
/** A row that loses its worker so often, alone with it, is given up. */
const LOSSES_PER_ROW = 2;
/** Losses in a row, without one answer between, after which the crew gives up. */
const LOSSES_IN_A_ROW = 12;

interface Chunk {
  readonly from: number;
  readonly count: number;
}

class CrewLost extends Error {}

interface Member {
  readonly handle: WorkerHandle;
  readonly started: Promise<unknown>;
  /** Fails the calls under way when the worker is lost. */
  readonly pending: Set<(loss: CrewLost) => void>;
  loss: CrewLost | null;
}

/**
 * One call that also settles when its worker dies. Not a race with `lost`: that promise lives as
 * long as the worker, and would hold the result of every call ever raced with it.
 */
function call(member: Member, job: EvaluateJob, chunk: Chunk): Promise<Evaluated> {
  const genes = job.rows.length / job.count;
  const rows = job.rows.slice(chunk.from * genes, (chunk.from + chunk.count) * genes);
  return new Promise((resolve, reject) => {
    if (member.loss !== null) {
      reject(member.loss);
      return;
    }
    member.pending.add(reject);
    const settled = (): void => void member.pending.delete(reject);
    member.started
      .then(() => member.handle.service.evaluate(rows, chunk.count, job.form))
      .then(resolve, reject)
      .finally(settled);
  });
}

/**
 * Rows cut into chunks that shrink towards the end, so that all workers finish together.
 *
 * @param most rows in the largest chunk.
 * @param shares a chunk is at most the rows left over so many.
 */
function chunksOf(rows: number, most: number, shares: number): Chunk[] {
  const chunks: Chunk[] = [];
  for (let from = 0; from < rows;) {
    const count = Math.max(1, Math.min(most, Math.floor((rows - from) / shares)));
    chunks.push({ from, count });
    from += count;
  }
  return chunks;
}

/**
 * Starts the workers; they load while the caller goes on. Close the crew when done.
 *
 * Its `evaluate` throws RunError `workers-lost` when workers do nothing but die.
 */
export function createCrew(brief: Brief, options: CrewOptions): Crew & { close(): Promise<void> } {
  let lossesInARow = 0;
  const start = (): Member => {
    const handle = options.spawn();
    const started = handle.service.ready(brief);
    // A failure to start shows up where the first batch awaits it.
    started.catch(() => undefined);
    const member: Member = { handle, started, pending: new Set(), loss: null };
    void handle.lost.then((reason) => {
      member.loss = new CrewLost(reason);
      for (const fail of member.pending) fail(member.loss);
    });
    return member;
  };
  const members = Array.from({ length: options.size }, start);

  /** Replaces a lost worker; whoever notices later finds the new one. */
  function replace(index: number, member: Member, loss: CrewLost): void {
    if (members[index] !== member) return;
    lossesInARow++;
    options.onLoss?.(loss.message);
    if (lossesInARow >= LOSSES_IN_A_ROW) {
      const remedy = 'Free some memory or use fewer workers, then resume the run.';
      throw new RunError('workers-lost', 'crew', `workers keep failing (${loss.message})`, remedy);
    }
    members[index] = start();
  }

  /** The result of a chunk, or null when its worker was lost and replaced. */
  async function attempt(index: number, job: EvaluateJob, chunk: Chunk): Promise<Evaluated | null> {
    const member = members[index];
    try {
      const result = await call(member, job, chunk);
      lossesInARow = 0;
      return result;
    } catch (error) {
      if (!(error instanceof CrewLost)) throw error;
      replace(index, member, error);
      return null;
    }
  }

  async function evaluate(job: EvaluateJob): Promise<Evaluated> {
    const pace = PACE[job.form];
    const queue = chunksOf(job.count, pace.rows, 2 * options.size * pace.inFlight);
    const parts = new Map<number, { chunk: Chunk; result: Evaluated | null }>();
    const suspects: Chunk[] = [];
    const lane = async (index: number): Promise<void> => {
      for (let chunk = queue.shift(); chunk !== undefined; chunk = queue.shift()) {
        const result = await attempt(index, job, chunk);
        if (result === null) suspects.push(chunk);
        else parts.set(chunk.from, { chunk, result });
      }
    };
    await Promise.all(
      members.flatMap((_, i) => Array.from({ length: pace.inFlight }, () => lane(i))),
    );
    // Rows that were on a lost worker are scored alone with one, so that a row which kills workers
    // takes no other with it, whatever it happened to share a worker with.
    for (const { from, count } of suspects) {
      for (let row = from; row < from + count; row++) {
        const chunk = { from: row, count: 1 };
        let result: Evaluated | null = null;
        for (let tries = 0; result === null && tries < LOSSES_PER_ROW; tries++) {
          result = await attempt(0, job, chunk);
        }
        parts.set(row, { chunk, result });
      }
    }
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
