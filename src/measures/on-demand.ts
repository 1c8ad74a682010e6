/** Measures that are worked out only for briefs that ask for them. */
import type { Brief } from '../brief/index.ts';

/** Whether a brief names a measure, as an objective or in a limit. */
export function isNamed({ goals }: Brief, id: string): boolean {
  return goals.objectives.includes(id) || goals.limits.some((limit) => limit.measure === id);
}
