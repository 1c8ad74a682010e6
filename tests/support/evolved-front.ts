/** Fronts of the small brief, evolved here: for tests that want a true front but not a run on the page. */
import { evolve } from '../../src/engine/index.ts';
import type { Front } from '../../src/engine/index.ts';
import { drive, localCrew, quietPorts } from './local-crew.ts';
import { smallBrief } from './small-brief.ts';

export async function evolvedFront(changes: Parameters<typeof smallBrief>[0]): Promise<Front> {
  const brief = smallBrief(changes);
  const { front } = await drive(evolve(brief, {}, quietPorts(localCrew(brief))));
  return front;
}
