/** The designs of a front that people look at first. */
import { bestOf, kneeOf } from '../engine/index.ts';
import type { Front } from '../engine/index.ts';

export interface FrontMarks {
  readonly knee: string | null;
  /** Best design per objective, by id. */
  readonly best: readonly { readonly objective: string; readonly id: string }[];
}

export function marksOf(front: Front): FrontMarks {
  const best = bestOf(front).map((design, i) => ({
    objective: front.objectives[i],
    id: design.id,
  }));
  return { knee: kneeOf(front)?.id ?? null, best };
}

/** 'knee, best dustCapture'; empty for a design without a mark. */
export function markWords(marks: FrontMarks, id: string): string {
  const words = marks.best
    .filter((entry) => entry.id === id)
    .map((entry) => `best ${entry.objective}`);
  return (marks.knee === id ? ['knee', ...words] : words).join(', ');
}
