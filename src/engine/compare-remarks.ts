/** What a reader of a comparison must know, in words. */
import type { Brief } from '../brief/index.ts';
import type { ComparedFront, FrontStanding } from './compare.ts';
import type { MeasureInfo } from './model.ts';

/** Sections of a brief that change what its numbers mean; the search's own settings do not. */
const NOT_THE_JOB = new Set(['format', 'version', 'name', 'goals', 'search', 'routes']);

/** One sentence each; none where all fronts answer the same question. */
export function remarksOf(
  fronts: readonly ComparedFront[],
  by: readonly MeasureInfo[],
  standings: readonly FrontStanding[],
): string[] {
  const ids = new Set(by.map(({ id }) => id));
  const remarks: string[] = [];
  for (const front of fronts) {
    const more = front.objectives.filter((id) => !ids.has(id)).map((id) => labelOf(front, id));
    if (more.length > 0) {
      const what = more.join(' and ');
      remarks.push(`${front.name} was evolved for ${what} too, which does not count here.`);
    }
    const never = by.filter(({ id }) => !front.objectives.includes(id)).map(({ label }) => label);
    if (never.length > 0) {
      remarks.push(`${front.name} was not evolved for ${never.join(' and ')}.`);
    }
  }
  for (const standing of standings) {
    const left = standing.designs - standing.compared;
    if (left > 0) {
      const what = left === 1 ? '1 design' : `${left} designs`;
      remarks.push(`${what} of ${standing.name} without a number for every one of these left out.`);
    }
    if (standing.hypervolume === null) {
      remarks.push(
        `${standing.name} has too many designs for an exact hypervolume in ${by.length} measures.`,
      );
    }
  }
  const [first, ...others] = fronts;
  for (const front of others) {
    const differing = differingSections(first.brief, front.brief);
    if (differing.length === 0) continue;
    remarks.push(
      `${front.name} was made for another job than ${first.name}: ${differing.join(', ')} ${differing.length === 1 ? 'differs' : 'differ'}. Numbers are compared as they stand.`,
    );
  }
  return remarks;
}

function labelOf(front: ComparedFront, id: string): string {
  return front.measures.find((info) => info.id === id)?.label ?? id;
}

/** Sections of two briefs that are not the same, by name. */
function differingSections(a: Brief, b: Brief): string[] {
  const [left, right] = [a, b].map((brief) => new Map<string, unknown>(Object.entries(brief)));
  return [...new Set([...left.keys(), ...right.keys()])].filter(
    (key) =>
      !NOT_THE_JOB.has(key) && JSON.stringify(left.get(key)) !== JSON.stringify(right.get(key)),
  );
}
