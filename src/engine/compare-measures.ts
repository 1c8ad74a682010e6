/** Which measures fronts have in common. */
import { InputError, fault } from '../brief/index.ts';
import type { ComparedFront } from './compare.ts';
import type { MeasureInfo } from './model.ts';

interface ComparedMeasures {
  readonly chosen: readonly MeasureInfo[];
  readonly common: readonly MeasureInfo[];
}

/** Measures that every front has with the same unit and sense, and a reading of in some design. */
export function commonMeasures(fronts: readonly ComparedFront[]): MeasureInfo[] {
  const [first, ...others] = fronts;
  if (first === undefined) return [];
  return first.measures.filter(
    (info) =>
      isRead(first, info.id) &&
      others.every((front) => {
        const same = front.measures.find(({ id }) => id === info.id);
        return same?.unit === info.unit && same.better === info.better && isRead(front, info.id);
      }),
  );
}

/** Whether some design has it; an empty front lacks nothing. */
function isRead({ designs, measures }: ComparedFront, id: string): boolean {
  const column = measures.findIndex((info) => info.id === id);
  return (
    designs.length === 0 || designs.some(({ readings }) => typeof readings[column] === 'number')
  );
}

/**
 * The measures to compare by: those named, or the objectives that all fronts share.
 *
 * @throws InputError when fewer than two fronts are given, or there is nothing to compare by.
 */
export function comparedMeasures(
  fronts: readonly ComparedFront[],
  by: readonly string[],
): ComparedMeasures {
  if (fronts.length < 2) {
    const found = `${fronts.length} given`;
    throw new InputError(
      [fault('fronts', found, 'be two or more', 'Add another front.')],
      'compare',
    );
  }
  const common = commonMeasures(fronts);
  const lacking = by.filter((id) => common.every((info) => info.id !== id));
  if (lacking.length > 0) {
    const allowed = `be one of ${common.map(({ id }) => id).join(', ') || 'none: nothing is shared'}`;
    const remedy = 'Only measures that every front has, in one unit, can be compared.';
    throw new InputError(
      lacking.map((id) => fault('by', id, allowed, remedy)),
      'compare',
    );
  }
  const wanted =
    by.length > 0
      ? [...new Set(by)]
      : fronts[0].objectives.filter((id) => fronts.every((front) => front.objectives.includes(id)));
  const chosen = wanted.flatMap((id) => common.find((info) => info.id === id) ?? []);
  if (chosen.length > 0) return { chosen, common };
  const found = fronts.map((front) => `${front.name}: ${front.objectives.join(', ')}`).join('; ');
  const remedy =
    common.length === 0
      ? 'They have no measure in common at all.'
      : `Name measures that all of them have, such as ${common
          .slice(0, 3)
          .map(({ id }) => id)
          .join(', ')}.`;
  throw new InputError([fault('objectives', found, 'be shared by all fronts', remedy)], 'compare');
}
