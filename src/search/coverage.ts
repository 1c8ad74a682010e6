/** Diversity for many objectives: how well the rest of a front covers each of its rows. */

/** Buffers for fronts of up to `size` rows; grown on first use of many objectives. */
export interface CoverSpace {
  /** Objectives in units of the front's extents [size x m]. */
  scaled: Float64Array;
  loss: Float64Array;
  cover: Int32Array;
  /** Places still in the front. */
  left: Int32Array;
}

export function createCoverSpace(): CoverSpace {
  return {
    scaled: new Float64Array(0),
    loss: new Float64Array(0),
    cover: new Int32Array(0),
    left: new Int32Array(0),
  };
}

/**
 * Thins a front to `target` rows and gives every row its loss in place of a crowding distance.
 *
 *   loss(j) = min over i of max over objectives of (f(i) - f(j)) / extent of the front
 *
 * that is, how far the best other row would have to improve to be no worse anywhere. The row with the
 * least loss goes first, and losses are brought up to date before the next one goes. From four objectives
 * on this replaces crowding, which there rewards rows that are a hair better in one objective and far
 * worse in the others: on DTLZ2 with five objectives crowding ends further from the front than it began.
 *
 * @param ids rows of one front; @param crowding loss of each row; -1 for those that went [rows].
 * Source: additive epsilon indicator, Zitzler et al. 2003, IEEE TEC 7:117; removal one at a time as in
 * Zitzler & Kuenzli 2004 (PPSN VIII), with the least loss in place of their sum of exponentials.
 */
export function thinFront(
  values: Float64Array,
  m: number,
  ids: Int32Array,
  count: number,
  target: number,
  space: CoverSpace,
  crowding: Float64Array,
): void {
  scaleFront(values, m, ids, count, space);
  const { loss, cover, left } = space;
  for (let i = 0; i < count; i++) left[i] = i;
  for (let i = 0; i < count; i++) findCover(space, m, count, i);
  let size = count;
  while (size > target) {
    let at = 0;
    for (let i = 1; i < size; i++) if (loss[left[i]] <= loss[left[at]]) at = i;
    const gone = left[at];
    crowding[ids[gone]] = -1;
    size--;
    for (let i = at; i < size; i++) left[i] = left[i + 1];
    for (let i = 0; i < size; i++) if (cover[left[i]] === gone) findCover(space, m, size, left[i]);
  }
  for (let i = 0; i < size; i++) crowding[ids[left[i]]] = loss[left[i]];
}

function scaleFront(
  values: Float64Array,
  m: number,
  ids: Int32Array,
  count: number,
  space: CoverSpace,
): void {
  if (space.scaled.length < count * m) space.scaled = new Float64Array(count * m);
  if (space.loss.length < count) {
    space.loss = new Float64Array(count);
    space.cover = new Int32Array(count);
    space.left = new Int32Array(count);
  }
  for (let k = 0; k < m; k++) {
    let low = values[ids[0] * m + k];
    let high = low;
    for (let i = 1; i < count; i++) {
      const v = values[ids[i] * m + k];
      if (v < low) low = v;
      if (v > high) high = v;
    }
    const scale = high > low ? 1 / (high - low) : 0;
    for (let i = 0; i < count; i++)
      space.scaled[i * m + k] = (values[ids[i] * m + k] - low) * scale;
  }
}

/** Finds the row that covers row j best among the first `size` of `left`. */
function findCover(space: CoverSpace, m: number, size: number, j: number): void {
  const { scaled, left } = space;
  let best = Number.POSITIVE_INFINITY;
  let cover = -1;
  for (let l = 0; l < size; l++) {
    const i = left[l];
    if (i === j) continue;
    let worst = 0;
    for (let k = 0; k < m && worst < best; k++) {
      const difference = scaled[i * m + k] - scaled[j * m + k];
      if (difference > worst) worst = difference;
    }
    if (worst < best) {
      best = worst;
      cover = i;
    }
  }
  space.loss[j] = best;
  space.cover[j] = cover;
}
