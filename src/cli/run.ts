/** Drives the engine's run loop with worker threads, the run folder and the terminal. */
import { evolve } from '../engine/index.ts';
import type { Front, Ports, RunEvent, StopReason } from '../engine/index.ts';
import { createNodeCrew } from '../../workers/crew.node.ts';
import { earlyThreads } from './early-threads.ts';
import type { Evolution } from './evolve.ts';
import { EXIT } from './exits.ts';
import { progressLine } from './progress.ts';
import type { ProgressClock } from './progress.ts';
import type { Terminal } from './terminal.ts';
import { WORKER_ENTRY } from './worker-entry.ts';

export async function driveRun(
  { run, brief, checkpoint, starts }: Evolution,
  workers: number,
  terminal: Terminal,
): Promise<{ front: Front; why: StopReason }> {
  const stop = new AbortController();
  const interrupt = (): void => {
    if (stop.signal.aborted) process.exit(EXIT.interrupted);
    terminal.remark('Stopping after this generation; press again to end at once.');
    stop.abort();
  };
  process.on('SIGINT', interrupt);
  process.on('SIGTERM', interrupt);
  const crew = createNodeCrew(brief, {
    size: workers,
    entry: WORKER_ENTRY,
    started: earlyThreads.splice(0),
    onLoss(reason) {
      run.log(`worker lost: ${reason}`);
      terminal.remark(`A worker was lost and replaced (${reason}).`);
    },
  });
  const ports: Ports = {
    crew,
    keep: (kept) => {
      run.keepCheckpoint(kept);
      return Promise.resolve();
    },
    now: () => performance.now(),
    signal: stop.signal,
  };
  const clock: ProgressClock = {
    from: checkpoint?.history.length ?? 0,
    evaluationsFrom: checkpoint?.history.at(-1)?.evaluations ?? 0,
    began_ms: performance.now(),
  };
  let why: StopReason = 'budget';
  const follow = (event: RunEvent): void => {
    if (event.kind === 'stopping') ({ why } = event);
    if (event.kind === 'generation') run.appendHistory(event.entry);
    say(event, clock, terminal);
  };
  try {
    const options = checkpoint === null ? { starts } : { checkpoint };
    const events = evolve(brief, options, ports);
    for (;;) {
      const step = await events.next();
      if (step.done === true) return { front: step.value, why };
      follow(step.value);
    }
  } finally {
    process.off('SIGINT', interrupt);
    process.off('SIGTERM', interrupt);
    await crew.close();
  }
}

const REASONS: Readonly<Record<StopReason, string>> = {
  budget: 'all generations done',
  time: 'time limit reached',
  stalled: 'no progress over many generations',
  interrupted: 'interrupted',
};

function say(event: RunEvent, clock: ProgressClock, terminal: Terminal): void {
  switch (event.kind) {
    case 'started':
      terminal.remark(
        event.generation === 0
          ? `${event.genes} genes; starting from ${event.labels.length} labelled designs and random ones.`
          : `Going on from generation ${event.generation}.`,
      );
      break;
    case 'generation':
      terminal.progress(progressLine(event.entry, event.generations, clock, performance.now()));
      break;
    case 'stopping':
      terminal.progress(
        `Scoring ${event.designs} designs of the front once more, twice as finely ...`,
      );
      terminal.remark(`Stopped: ${REASONS[event.why]}.`);
      break;
    case 'checkpoint':
      break;
    default: {
      const never: never = event;
      return never;
    }
  }
}
