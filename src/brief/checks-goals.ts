/** Cross-checks of the goals: repeated objectives, limits that say nothing or contradict. */
import type { Check } from './check.ts';
import { fault } from './faults.ts';
import type { Fault } from './faults.ts';
import { builtInLimits } from './limits.ts';
import { nearestName } from './nearest.ts';

/** Faults for every entry of a list of names that stands in it already. */
function repeated(path: string, names: readonly string[]): Fault[] {
  return names.flatMap((name, i) => {
    const first = names.indexOf(name);
    if (first === i) return [];
    const allowed = `differ from ${path}[${first}]`;
    return [fault(`${path}[${i}]`, `'${name}' again`, allowed, 'Name it once.')];
  });
}

const objectives: Check = {
  reads: ['goals.objectives'],
  run: ({ goals }) => repeated('goals.objectives', goals.objectives),
};

const choices: Check = {
  reads: ['routes.lattices', 'routes.sections', 'routes.motifs'],
  run: ({ routes }) => [
    ...repeated('routes.lattices', routes.lattices),
    ...repeated('routes.sections', routes.sections),
    ...repeated('routes.motifs', routes.motifs),
  ],
};

interface Bound {
  readonly value: number;
  readonly from: string;
}

const limits: Check = {
  reads: ['goals.limits', 'process.minimumWall_mm'],
  run: ({ goals, process }) => {
    const faults: Fault[] = [];
    const ceilings = new Map<string, Bound>();
    const floors = new Map<string, Bound>();
    const builtIn = builtInLimits(process);
    for (const { measure, bound, value, from } of builtIn) {
      (bound === 'atMost' ? ceilings : floors).set(measure, { value, from });
    }
    for (const [i, { measure, atMost, atLeast }] of goals.limits.entries()) {
      const path = `goals.limits[${i}]`;
      if (atMost === undefined && atLeast === undefined) {
        const remedy = `Say how far '${measure}' may go, or remove the limit.`;
        faults.push(fault(path, 'a limit without a bound', 'have atMost or atLeast', remedy));
      }
      for (const [bound, value] of [
        ['atMost', atMost],
        ['atLeast', atLeast],
      ] as const) {
        if (value === undefined) continue;
        const ceiling = bound === 'atMost';
        const fixed = builtIn.find((entry) => entry.measure === measure && entry.bound === bound);
        if (fixed !== undefined && (ceiling ? value > fixed.value : value < fixed.value)) {
          const allowed = `be at ${ceiling ? 'most' : 'least'} ${fixed.value}, which ${fixed.from} asks for anyway`;
          const remedy = 'A limit can tighten a built-in one, not loosen it.';
          faults.push(fault(`${path}.${bound}`, String(value), allowed, remedy));
          continue;
        }
        const known = ceiling ? ceilings : floors;
        const held = known.get(measure);
        if (held === undefined || (ceiling ? value < held.value : value > held.value)) {
          known.set(measure, { value, from: `${path}.${bound}` });
        }
      }
    }
    for (const [measure, floor] of floors) {
      const ceiling = ceilings.get(measure);
      if (ceiling === undefined || floor.value <= ceiling.value) continue;
      // The bound that the brief itself states is the one its author can change.
      const mine = floor.from.startsWith('goals.') ? floor : ceiling;
      const other = mine === floor ? ceiling : floor;
      const word = mine === floor ? 'most' : 'least';
      const allowed = `be at ${word} ${other.value}, the bound of ${other.from}`;
      const remedy = `No design can keep both bounds of '${measure}': change one of them.`;
      faults.push(fault(mine.from, String(mine.value), allowed, remedy));
    }
    return faults;
  },
};

export const GOAL_CHECKS: readonly Check[] = [objectives, choices, limits];

/**
 * A check that every measure a brief names exists.
 *
 * @param ids every measure id of the program.
 */
export function measureNames(ids: readonly string[]): Check {
  const known = new Set(ids);
  const unknown = (path: string, id: string): Fault[] => {
    if (known.has(id)) return [];
    const near = nearestName(id, ids);
    const remedy = near === null ? 'See the list of measures.' : `Did you mean ${near}?`;
    return [fault(path, `'${id}'`, 'be the id of a measure', remedy)];
  };
  return {
    reads: ['goals.objectives', 'goals.limits'],
    run: ({ goals }) => [
      ...goals.objectives.flatMap((id, i) => unknown(`goals.objectives[${i}]`, id)),
      ...goals.limits.flatMap((limit, i) => unknown(`goals.limits[${i}].measure`, limit.measure)),
    ],
  };
}
