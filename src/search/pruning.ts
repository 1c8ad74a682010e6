/** Which entry a full archive can spare. */
import { addedVolume } from './hypervolume.ts';

/** Entries of an archive and what pruning knows about them; one more row than the capacity. */
export interface Entries {
  readonly m: number;
  /** Objectives, minimised [rows x m]. */
  readonly values: Float64Array;
  size: number;
  /** Extent of the front in each objective that scales losses [m]; all 0 before the first pruning. */
  readonly extent: Float64Array;
  /** Reference of the guarding hypervolume [m]; moves outwards only. */
  readonly reference: Float64Array;
  /** Loss of coverage if the entry went [rows]. */
  readonly loss: Float64Array;
  /** The entry that covers it best [rows]. */
  readonly cover: Int32Array;
}

/** The scale follows the front when its extent changes by more than this factor; own choice. */
const DRIFT = 1.25;

/** The guarding reference lies this share of the extent beyond the worst entry; own choice. */
const MARGIN = 0.1;

/**
 * How much entry i would have to improve, in units of the extents, to be no worse than entry j
 * anywhere: what is lost at most if j goes and i stays (additive epsilon).
 */
function lossBetween(entries: Entries, i: number, j: number): number {
  const { m, values, extent } = entries;
  let worst = 0;
  for (let k = 0; k < m; k++) {
    if (extent[k] === 0) continue;
    const loss = (values[i * m + k] - values[j * m + k]) / extent[k];
    if (loss > worst) worst = loss;
  }
  return worst;
}

function findCover(entries: Entries, j: number): void {
  let best = Number.POSITIVE_INFINITY;
  let cover = -1;
  for (let i = 0; i < entries.size; i++) {
    if (i === j) continue;
    const loss = lossBetween(entries, i, j);
    if (loss < best) {
      best = loss;
      cover = i;
    }
  }
  entries.loss[j] = best;
  entries.cover[j] = cover;
}

/** Whether the archive has overflowed, so that its scale and reference are set. */
export function isScaled(entries: Entries): boolean {
  return entries.extent.some((extent) => extent > 0);
}

/** Brings losses up to date after the last entry was added. */
export function noteAdded(entries: Entries): void {
  if (!isScaled(entries)) return;
  const last = entries.size - 1;
  for (let j = 0; j < last; j++) {
    const loss = lossBetween(entries, last, j);
    if (loss < entries.loss[j]) {
      entries.loss[j] = loss;
      entries.cover[j] = last;
    }
  }
  findCover(entries, last);
}

/** Brings losses up to date after entry `gone` was overwritten by what was the last entry. */
export function noteRemoved(entries: Entries, gone: number): void {
  if (!isScaled(entries)) return;
  const { size, loss, cover } = entries;
  if (gone < size) {
    loss[gone] = loss[size];
    cover[gone] = cover[size];
  }
  for (let j = 0; j < size; j++) {
    if (cover[j] === gone) findCover(entries, j);
    else if (cover[j] === size) cover[j] = gone;
  }
}

/** Recomputes every loss, after unpacking or a change of scale. */
export function refreshLosses(entries: Entries): void {
  if (!isScaled(entries)) return;
  for (let j = 0; j < entries.size; j++) findCover(entries, j);
}

/** Lets the scale and the reference follow the entries. */
function follow(entries: Entries): void {
  const { m, values, size, extent, reference } = entries;
  const first = !isScaled(entries);
  let stale = first;
  const found = new Float64Array(m);
  for (let k = 0; k < m; k++) {
    let low = values[k];
    let high = low;
    for (let i = 1; i < size; i++) {
      low = Math.min(low, values[i * m + k]);
      high = Math.max(high, values[i * m + k]);
    }
    found[k] = high - low;
    if (found[k] > extent[k] * DRIFT || found[k] * DRIFT < extent[k]) stale = true;
    if (first || high >= reference[k]) reference[k] = high + MARGIN * (high - low);
  }
  if (!stale) return;
  extent.set(found);
  refreshLosses(entries);
}

/** Orders entries by objective vector; negative when a comes first. */
export function compareVectors(entries: Entries, a: number, b: number, first = 0): number {
  const { m, values } = entries;
  const lead = values[a * m + first] - values[b * m + first];
  if (lead !== 0) return lead;
  for (let k = 0; k < m; k++) {
    const difference = values[a * m + k] - values[b * m + k];
    if (difference !== 0) return difference;
  }
  return 0;
}

/** Marks the best entry of each objective; ties go to the first in lexicographic order. */
function markExtremes(entries: Entries): Uint8Array {
  const marks = new Uint8Array(entries.size);
  for (let k = 0; k < entries.m; k++) {
    let best = 0;
    for (let i = 1; i < entries.size; i++) if (compareVectors(entries, i, best, k) < 0) best = i;
    marks[best] = 1;
  }
  return marks;
}

/**
 * The entry to take out of an archive that holds one too many, the last being the newcomer.
 *
 * Candidate is the entry whose absence another covers best; never the best of an objective. When it
 * is an older one, it goes only if the newcomer adds more hypervolume in its place (or is itself the
 * best of an objective): a full archive's hypervolume never falls otherwise, so that entries cannot
 * push each other out in a circle.
 *
 * @returns index of the entry to remove.
 */
export function chooseSpare(entries: Entries): number {
  follow(entries);
  const { m, values, size, loss, reference } = entries;
  const extremes = markExtremes(entries);
  const newcomer = size - 1;
  let spare = -1;
  for (let i = 0; i < size; i++) {
    if (extremes[i] !== 0) continue;
    if (spare >= 0) {
      const difference = loss[i] - loss[spare];
      if (difference > 0 || (difference === 0 && compareVectors(entries, i, spare) < 0)) continue;
    }
    spare = i;
  }
  if (spare === newcomer || extremes[newcomer] !== 0) return spare;
  // The others without either: the newcomer lies last, the old one is replaced by its neighbour.
  const others = values.slice(0, (size - 2) * m);
  if (spare < size - 2) {
    others.set(values.subarray((size - 2) * m, (size - 1) * m), spare * m);
  }
  const old = values.subarray(spare * m, (spare + 1) * m);
  const young = values.subarray(newcomer * m, size * m);
  const gain = addedVolume(young, others, size - 2, m, reference);
  return gain > addedVolume(old, others, size - 2, m, reference) ? spare : newcomer;
}
