/** Non-dominated sorting for any number of objectives, with dominance held in bits. */
import { isSameVector, sortByObjective } from './sorting.ts';
import type { SortSpace } from './sorting.ts';

/** Bit buffers for up to `size` rows; grown on first use of many objectives. */
export interface BitSpace {
  /** Rows that dominate each row, one bit per place in lexicographic order [size x words]. */
  dominators: Int32Array;
  /** Members of each front [size x words]; allocated with the dominators. */
  members: Int32Array;
  seen: Int32Array;
  places: Int32Array;
  order: Int32Array;
}

export function createBitSpace(): BitSpace {
  const none = new Int32Array(0);
  return { dominators: none, members: none, seen: none, places: none, order: none };
}

function reserve(bits: BitSpace, size: number, words: number): void {
  if (bits.dominators.length < size * words) {
    bits.dominators = new Int32Array(size * words);
    bits.members = new Int32Array(size * words);
  }
  if (bits.seen.length < words) bits.seen = new Int32Array(words);
  if (bits.order.length < size) {
    bits.order = new Int32Array(size);
    bits.places = new Int32Array(size);
  }
}

/**
 * Fronts of rows with any number of objectives in lexicographic order.
 *
 * Row j is no worse than row i when it comes no later in the order of every objective. For each
 * objective the set of rows up to and including a value is kept in bits while its order is walked,
 * and cut with what the other objectives left: m n^2 / 32 word operations. The order itself stands for
 * the first objective. Then each row goes to the first front that holds none of its dominators.
 *
 * @returns number of fronts; arguments as for `sortFrontsByTails`.
 * Source: bitset form of best order sort; binary search over fronts of Zhang et al. 2015.
 */
export function sortFrontsByBits(
  values: Float64Array,
  m: number,
  ids: Int32Array,
  count: number,
  sorting: SortSpace,
  bits: BitSpace,
  fronts: Int32Array,
): number {
  // Places of distinct vectors only: equal rows share a front and must not dominate each other.
  let distinct = 0;
  reserve(bits, count, (count + 31) >>> 5);
  const { places, order } = bits;
  for (let i = 0; i < count; i++) {
    if (i > 0 && isSameVector(values, m, ids[i - 1], ids[i])) continue;
    places[distinct++] = ids[i];
  }
  const words = (distinct + 31) >>> 5;
  const { dominators } = bits;
  for (let i = 0; i < distinct; i++) {
    // Only earlier places can dominate: bits 0 .. i-1.
    const row = i * words;
    const full = i >>> 5;
    dominators.fill(-1, row, row + full);
    dominators[row + full] = (1 << (i & 31)) - 1;
    dominators.fill(0, row + full + 1, row + words);
  }
  // `fronts` lends itself as the map from row to place until the fronts are known.
  for (let i = 0; i < distinct; i++) fronts[places[i]] = i;
  for (let k = 1; k < m; k++) cutByObjective(values, m, k, distinct, words, sorting, bits, fronts);
  const found = assignFronts(distinct, words, bits, order);
  let place = -1;
  for (let i = 0; i < count; i++) {
    if (place < 0 || !isSameVector(values, m, places[place], ids[i])) place++;
    fronts[ids[i]] = order[place];
  }
  return found;
}

function cutByObjective(
  values: Float64Array,
  m: number,
  k: number,
  distinct: number,
  words: number,
  sorting: SortSpace,
  bits: BitSpace,
  placeOf: Int32Array,
): void {
  const { dominators, seen, places, order } = bits;
  for (let i = 0; i < distinct; i++) order[i] = places[i];
  sortByObjective(sorting, values, m, k, order, 0, distinct);
  seen.fill(0, 0, words);
  let low = 0;
  while (low < distinct) {
    const value = values[order[low] * m + k];
    let high = low;
    while (high < distinct && values[order[high] * m + k] === value) {
      const place = placeOf[order[high]];
      seen[place >>> 5] |= 1 << (place & 31);
      high++;
    }
    for (let j = low; j < high; j++) {
      const place = placeOf[order[j]];
      const row = place * words;
      const used = place >>> 5;
      for (let w = 0; w <= used; w++) dominators[row + w] &= seen[w];
    }
    low = high;
  }
}

/** Writes the front of each place and returns how many there are. */
function assignFronts(
  distinct: number,
  words: number,
  bits: BitSpace,
  frontOf: Int32Array,
): number {
  const { dominators, members } = bits;
  let found = 0;
  for (let i = 0; i < distinct; i++) {
    const row = i * words;
    const used = i >>> 5;
    let low = 0;
    let high = found;
    while (low < high) {
      const middle = (low + high) >> 1;
      const front = middle * words;
      let w = 0;
      while (w <= used && (members[front + w] & dominators[row + w]) === 0) w++;
      if (w <= used) low = middle + 1;
      else high = middle;
    }
    if (low === found) {
      members.fill(0, found * words, (found + 1) * words);
      found++;
    }
    members[low * words + used] |= 1 << (i & 31);
    frontOf[i] = low;
  }
  return found;
}
