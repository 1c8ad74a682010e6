/** A crew without workers, for tests of the run loop. */
import { createEvaluator } from '../../src/engine/index.ts';
import type { Brief, Crew, Front, Ports, RunEvent } from '../../src/engine/index.ts';

export function localCrew(brief: Brief): Crew {
  const evaluator = createEvaluator(brief);
  return {
    size: 1,
    evaluate: ({ rows, count, form }) => Promise.resolve(evaluator.evaluate(rows, count, form)),
  };
}

export function quietPorts(crew: Crew, ports: Partial<Ports> = {}): Ports {
  return {
    crew,
    keep: () => Promise.resolve(),
    now: () => 0,
    signal: new AbortController().signal,
    ...ports,
  };
}

/** Drives a run to its end; the events it gave and the front. */
export async function drive(
  run: AsyncGenerator<RunEvent, Front>,
): Promise<{ events: RunEvent[]; front: Front }> {
  const events: RunEvent[] = [];
  for (;;) {
    const step = await run.next();
    if (step.done === true) return { events, front: step.value };
    events.push(step.value);
  }
}
