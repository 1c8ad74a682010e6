/** Fronts side by side: which designs survive among all, who beats whom, how much each reaches. */
import { attainedCorners, hypervolume, markDominated, timesOf } from '../search/index.ts';
import { comparedMeasures } from './compare-measures.ts';
import { remarksOf } from './compare-remarks.ts';
import type { Front, FrontDesign, MeasureInfo } from './model.ts';

/** What of a front it takes to compare it. */
export interface ComparedFront extends Pick<Front, 'brief' | 'objectives' | 'measures'> {
  /** For people: a file or folder, or what somebody calls it. */
  readonly name: string;
  readonly designs: readonly Pick<FrontDesign, 'id' | 'readings'>[];
}

/** One front among those compared. */
export interface FrontStanding {
  readonly name: string;
  readonly designs: number;
  /** Designs that have a number for every compared measure. */
  readonly compared: number;
  /** Ids of those that no design of any front dominates. */
  readonly joint: readonly string[];
  /** Share of the common box that the front dominates; null when not worked out. */
  readonly hypervolume: number | null;
}

export interface Comparison {
  /** Measures that count, each better the way its `better` says. */
  readonly by: readonly MeasureInfo[];
  /** All measures that every front has, with one unit and one sense. */
  readonly common: readonly MeasureInfo[];
  readonly fronts: readonly FrontStanding[];
  /** dominated[i][j]: designs of front j that some design of front i dominates. */
  readonly dominated: readonly (readonly number[])[];
  /** The box of the hypervolume, in the order of `by`. */
  readonly yardstick: {
    /** Best reading of all compared designs. */
    readonly best: readonly number[];
    /** A tenth of the span beyond the worst one. */
    readonly reference: readonly number[];
  };
  /** What a reader must know, one sentence each. */
  readonly remarks: readonly string[];
}

/** How far beyond the worst design the reference lies, as a share of the span; own choice. */
const BEYOND = 0.1;
/**
 * Most designs of which a hypervolume is worked out, per number of objectives from four on: the
 * exact sum grows steeply. At these counts it takes up to a second (random spherical fronts).
 */
const MOST_BY_OBJECTIVES: Readonly<Record<number, number>> = {
  4: 5000,
  5: 5000,
  6: 2000,
  7: 1000,
  8: 500,
};
const MOST_OF_MANY = 200;

/**
 * Compares fronts on measures they share.
 *
 * @param by ids of the measures that count; by default the objectives that all fronts share.
 * @throws InputError when there is nothing in common, or a measure named is not.
 */
export function compareFronts(
  fronts: readonly ComparedFront[],
  by: readonly string[] = [],
): Comparison {
  const { chosen, common } = comparedMeasures(fronts, by);
  const m = chosen.length;
  const rows = fronts.map((front) => comparedRows(front, chosen));
  const marks = rows.map((own) =>
    rows.map((other) => (own === other ? null : markDominated(own.values, other.values, m))),
  );
  const box = boxOf(
    rows.map((row) => row.values),
    m,
  );
  const standings = fronts.map((front, j) => ({
    name: front.name,
    designs: front.designs.length,
    compared: rows[j].ids.length,
    joint: survivors(rows[j], [
      ...marks.flatMap((row) => row[j] ?? []),
      // A front may have been found under other objectives: then it can beat itself.
      markDominated(rows[j].values, rows[j].values, m),
    ]),
    hypervolume: shareOf(rows[j], box, m),
  }));
  const signs = chosen.map(signOf);
  return {
    by: chosen,
    common,
    fronts: standings,
    dominated: marks.map((row) =>
      row.map((found) => (found === null ? 0 : found.reduce((sum, mark) => sum + mark, 0))),
    ),
    yardstick: {
      best: box.low.map((value, k) => signs[k] * value),
      reference: box.high.map((value, k) => signs[k] * value),
    },
    remarks: remarksOf(fronts, chosen, standings),
  };
}

/** An attainment surface over two measures. */
export interface AttainmentSurface {
  /** Share of the fronts asked for, and how many of them that is. */
  readonly share: number;
  readonly times: number;
  /** Corners in people's sign, row-major [n x 2]. */
  readonly corners: Float64Array;
}

/** Shares shown by default: lower quartile, median, upper quartile. */
const SHARES = [0.25, 0.5, 0.75];

/**
 * Attainment surfaces of fronts over two measures that all of them have: what a quarter, half, and
 * three quarters of the fronts reach. They tell most about repeated runs of one brief.
 *
 * @param x, y ids of measures. Designs without one of them are left out.
 * @throws InputError when a front lacks a measure.
 */
export function attainmentOf(
  fronts: readonly ComparedFront[],
  x: string,
  y: string,
): AttainmentSurface[] {
  const { chosen } = comparedMeasures(fronts, [x, y]);
  const signs = chosen.map(signOf);
  const sets = fronts.map((front) => comparedRows(front, chosen).values);
  return SHARES.map((share) => {
    const times = timesOf(share, sets.length);
    const corners = attainedCorners(sets, times).map((value, k) => signs[k % 2] * value + 0);
    return { share, times, corners };
  });
}

interface Rows {
  readonly ids: readonly string[];
  /** Minimised [n x m]. */
  readonly values: Float64Array;
}

function signOf(info: MeasureInfo): 1 | -1 {
  return info.better === 'lower' ? 1 : -1;
}

function comparedRows(front: ComparedFront, chosen: readonly MeasureInfo[]): Rows {
  const columns = chosen.map((info) => front.measures.findIndex(({ id }) => id === info.id));
  const signs = chosen.map(signOf);
  const ids: string[] = [];
  const values: number[] = [];
  for (const design of front.designs) {
    const row = columns.map((column) => design.readings[column] ?? null);
    if (row.includes(null)) continue;
    ids.push(design.id);
    row.forEach((reading, k) => values.push(signs[k] * (reading ?? 0)));
  }
  return { ids, values: Float64Array.from(values) };
}

function survivors({ ids }: Rows, marks: readonly Uint8Array[]): string[] {
  return ids.filter((_, i) => marks.every((mark) => mark[i] === 0));
}

interface Box {
  readonly low: readonly number[];
  readonly high: readonly number[];
}

/** From the best of all designs to a tenth of the span beyond the worst, minimised. */
function boxOf(sets: readonly Float64Array[], m: number): Box {
  const low: number[] = [];
  const high: number[] = [];
  for (let k = 0; k < m; k++) {
    let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    for (const set of sets) {
      for (let i = k; i < set.length; i += m) {
        least = Math.min(least, set[i]);
        most = Math.max(most, set[i]);
      }
    }
    if (!(most >= least)) [least, most] = [0, 1];
    low.push(least);
    high.push(most + (most > least ? BEYOND * (most - least) : Math.max(1e-9, Math.abs(most))));
  }
  return { low, high };
}

/** Hypervolume of a front as a share of the box; null where the sum would take too long. */
function shareOf({ ids, values }: Rows, { low, high }: Box, m: number): number | null {
  const most = m <= 3 ? Number.POSITIVE_INFINITY : (MOST_BY_OBJECTIVES[m] ?? MOST_OF_MANY);
  if (ids.length > most) return null;
  const scaled = values.map((value, i) => (value - low[i % m]) / (high[i % m] - low[i % m]));
  return hypervolume(scaled, ids.length, m, new Float64Array(m).fill(1));
}
