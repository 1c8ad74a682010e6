/** Attainment surfaces: what a given number of several sets reach, for two objectives. */

/**
 * Corners of the region that at least `times` of the sets attain. A set attains a point of the plane
 * when one of its vectors is no worse in both objectives. The region's edge is the staircase that
 * runs through the corners: from each one up and to the right.
 *
 * One sweep over the first objective; per distinct value, the `times`-th least of the best second
 * objectives met so far by each set. Cost: sorting all vectors, and for each of them the number of
 * sets.
 *
 * @param sets objective vectors of each set, minimised, row-major [n x 2]; dominated and equal ones
 *   may be among them.
 * @param times how many sets must attain a point, from 1 to the number of sets.
 * @returns corners, row-major [k x 2]: the first objective rises, the second falls; empty where
 *   fewer sets than `times` hold a vector.
 * @throws RangeError when `times` is out of range or a coordinate is not a number.
 * @example attainedCorners([Float64Array.of(1, 3), Float64Array.of(2, 2)], 2) // Float64Array.of(2, 3)
 * Source: Fonseca & Fleming 1996, PPSN IV, 584-593 (attainment surfaces of repeated runs).
 */
export function attainedCorners(sets: readonly Float64Array[], times: number): Float64Array {
  if (!Number.isInteger(times) || times < 1 || times > sets.length) {
    throw new RangeError(`times is ${times}; it must be a whole number from 1 to ${sets.length}.`);
  }
  const owners: number[] = [];
  const rows: number[] = [];
  sets.forEach((set, s) => {
    for (let i = 0; 2 * i < set.length; i++) {
      if (Number.isNaN(set[2 * i]) || Number.isNaN(set[2 * i + 1])) {
        throw new RangeError(`Vector ${i} of set ${s} is not a number.`);
      }
      owners.push(s);
      rows.push(i);
    }
  });
  const first = (k: number): number => sets[owners[k]][2 * rows[k]];
  const order = owners.map((_, k) => k).toSorted((a, b) => first(a) - first(b) || a - b);
  const best = new Float64Array(sets.length).fill(Number.POSITIVE_INFINITY);
  const corners: number[] = [];
  let level = Number.POSITIVE_INFINITY;
  for (let low = 0; low < order.length;) {
    const x = first(order[low]);
    let high = low;
    for (; high < order.length && first(order[high]) === x; high++) {
      const k = order[high];
      best[owners[k]] = Math.min(best[owners[k]], sets[owners[k]][2 * rows[k] + 1]);
    }
    const reached = best.toSorted()[times - 1];
    if (reached < level) {
      level = reached;
      corners.push(x, reached);
    }
    low = high;
  }
  return Float64Array.from(corners);
}

/**
 * How many of `sets` must attain a point for a share of them: the least whole number that is no
 * less than the share, and at least one.
 *
 * @example timesOf(0.5, 3) // 2
 */
export function timesOf(share: number, sets: number): number {
  return Math.min(sets, Math.max(1, Math.ceil(share * sets - 1e-9)));
}
