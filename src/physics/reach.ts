/**
 * How far a finger or hand reaches through an opening, and the probes of enclosure ratings.
 *
 * Not a conformity statement: the values are from memory and one public summary, the standards
 * themselves were not read. Buy the standard and ask a qualified person before relying on them.
 */

/** Who can reach the plate. */
export type ReachGroup = 'fromAge14' | 'fromAge3';
/** Shape of a regular opening; its size is slot width, square side or hole diameter. */
export type OpeningShape = 'slot' | 'square' | 'round';

interface Row {
  readonly upTo_mm: number;
  readonly slot: number;
  readonly square: number;
  readonly round: number;
}

/** Where sources disagree (round up to 8 and up to 40 mm) the larger distance stands. */
const FROM_AGE_14: readonly Row[] = [
  { upTo_mm: 4, slot: 2, square: 2, round: 2 },
  { upTo_mm: 6, slot: 10, square: 5, round: 5 },
  { upTo_mm: 8, slot: 20, square: 15, round: 15 },
  { upTo_mm: 10, slot: 80, square: 25, round: 20 },
  { upTo_mm: 12, slot: 100, square: 80, round: 80 },
  { upTo_mm: 20, slot: 120, square: 120, round: 120 },
  { upTo_mm: 30, slot: 850, square: 120, round: 120 },
  { upTo_mm: 40, slot: 850, square: 200, round: 200 },
  { upTo_mm: 120, slot: 850, square: 850, round: 850 },
];

const FROM_AGE_3: readonly Row[] = [
  { upTo_mm: 4, slot: 2, square: 2, round: 2 },
  { upTo_mm: 6, slot: 20, square: 10, round: 10 },
  { upTo_mm: 8, slot: 40, square: 30, round: 20 },
  { upTo_mm: 10, slot: 80, square: 60, round: 60 },
  { upTo_mm: 12, slot: 100, square: 80, round: 80 },
  { upTo_mm: 20, slot: 900, square: 120, round: 120 },
  { upTo_mm: 30, slot: 900, square: 550, round: 120 },
  { upTo_mm: 100, slot: 900, square: 900, round: 900 },
];

/** Arm's reach beyond the tables [mm]. */
const FREE_REACH_mm = 1100;

/** One column of a table as plain numbers: rows in objects took five times as long to look through. */
interface Column {
  readonly upTo_mm: Float64Array;
  readonly distance_mm: Float64Array;
}

function columnsOf(rows: readonly Row[]): Readonly<Record<OpeningShape, Column>> {
  const upTo_mm = Float64Array.from(rows, (row) => row.upTo_mm);
  const column = (shape: OpeningShape): Column => ({
    upTo_mm,
    distance_mm: Float64Array.from(rows, (row) => row[shape]),
  });
  return { slot: column('slot'), square: column('square'), round: column('round') };
}

const COLUMNS: Readonly<Record<ReachGroup, Readonly<Record<OpeningShape, Column>>>> = {
  fromAge14: columnsOf(FROM_AGE_14),
  fromAge3: columnsOf(FROM_AGE_3),
};

/**
 * Least distance between an opening and a hazard behind it.
 *
 * @param shape shape of the opening; an irregular one may take any that contains it.
 * @param opening_mm slot width, square side or hole diameter.
 * @param group who can reach it.
 * @returns distance [mm], in steps; 1100 beyond the table.
 * @example safetyDistance('round', 8, 'fromAge14') // 15
 * @example safetyDistance('slot', 8.3, 'fromAge3') // 80
 * Source: ISO 13857:2019, tables 4 (from age 14) and 5 (from age 3), from memory; the shorter
 * distance for slots up to 65 mm long (thumb stop) is not used.
 */
export function safetyDistance(shape: OpeningShape, opening_mm: number, group: ReachGroup): number {
  const { upTo_mm, distance_mm } = COLUMNS[group][shape];
  for (let i = 0; i < upTo_mm.length; i++) if (opening_mm <= upTo_mm[i]) return distance_mm[i];
  return FREE_REACH_mm;
}

/** Caution to print beside every number made from `safetyDistance` or the probes. */
export const REACH_CAUTION =
  'Not a conformity statement. Distances are from memory of ISO 13857; buy the standard, follow ' +
  'local codes and have a qualified person check guarding against moving or live parts.';

/** Sizes of the regular openings that contain an irregular one [mm]. */
export interface Containers {
  /** Width of the narrowest slot, side of the smallest square, diameter of the smallest round. */
  readonly slot: number;
  readonly square: number;
  readonly round: number;
}

/**
 * Least distance behind an irregular opening: the least that the smallest slot, square and round
 * opening about it ask for, since none of them lets more through than it does.
 *
 * @param wider_mm added to all three, for what the print may come out wider.
 * @example irregularDistance({ slot: 6, square: 6, round: 8.4 }, 0, 'fromAge14') // 5
 * Source: ISO 13857:2019, 4.2.4 (irregular openings), from memory.
 */
export function irregularDistance(about: Containers, wider_mm: number, group: ReachGroup): number {
  return Math.min(
    safetyDistance('slot', about.slot + wider_mm, group),
    safetyDistance('square', about.square + wider_mm, group),
    safetyDistance('round', about.round + wider_mm, group),
  );
}
