/** Measures that are worked out only for briefs that ask for them. */
import type { Brief } from '../brief/index.ts';

/** Whether a brief names a measure, as an objective or in a limit. */
export function isNamed({ goals }: Brief, id: string): boolean {
  return goals.objectives.includes(id) || goals.limits.some((limit) => limit.measure === id);
}

/**
 * Why a brief does not ask for a measure, or null when it does.
 *
 * @param section of the brief that asks for the measure without naming it.
 */
export function notAsked(brief: Brief, id: string, section: 'sound' | 'light'): string | null {
  if (brief[section] !== undefined || isNamed(brief, id)) return null;
  return `${id} is worked out on demand: name it in goals, or add a section "${section}": {}.`;
}

/** Why a brief's plates have no measure of what passes from face to face, or null. */
export function notThrough({ air }: Brief, id: string): string | null {
  if (air.route.kind === 'through') return null;
  return `${id} holds for channels from face to face: set air.route to { "kind": "through" }.`;
}
