/** The archive: the best designs met so far, none dominating another, bounded in number. */
import { readNumber, readNumbers, readObject, readPacked, readWhole } from './packing.ts';
import type { Packed } from './packing.ts';
import {
  chooseSpare,
  compareVectors,
  isScaled,
  noteAdded,
  noteRemoved,
  refreshLosses,
} from './pruning.ts';
import type { Entries } from './pruning.ts';

export interface ArchiveOptions {
  /** Most entries kept; at least one per objective. */
  readonly capacity: number;
  /** Number of objectives m, minimised. */
  readonly objectives: number;
  /** Number of genes d. */
  readonly genes: number;
}

/** The row that broke its limits least, for progress while nothing feasible is known. */
export interface Infeasible {
  readonly genes: Float64Array;
  readonly values: Float64Array;
  readonly payload: number;
  /** Total violation, > 0. */
  readonly violation: number;
}

/**
 * Set of mutually non-dominated feasible entries.
 *
 * - Until it first overflows it is exactly the non-dominated set of all that was offered, whatever
 *   the order. Of equal objective vectors the one with the least genes (compared in order) stays.
 * - The best value of every objective ever offered is always held.
 * - When full, it spares the entry that another covers best (additive epsilon over the front's
 *   extents), and only if the hypervolume up to `reference()` grows by that; so it neither drifts nor
 *   goes round in circles. Only a new best value of some objective may lower that hypervolume, by what
 *   the spared entry added. Which of many entries survive then depends on the order of offers.
 */
export interface Archive {
  readonly capacity: number;
  size(): number;
  /**
   * Offers a row.
   *
   * @param genes [d], copied. @param values objectives [m], copied.
   * @param payload whole number of the caller's, kept with the entry.
   * @param violation total violation; above 0 the row is infeasible and never becomes an entry.
   * @returns whether it became an entry. Values that are not finite never do.
   */
  insert(genes: Float64Array, values: Float64Array, payload: number, violation?: number): boolean;
  /** Whether some entry is no worse everywhere; true for an equal vector too. */
  dominates(values: Float64Array): boolean;
  /** Objectives of all entries [size x m], in lexicographic order; a copy. */
  values(): Float64Array;
  /** Genes of all entries [size x d], in the order of `values`; a copy. */
  genes(): Float64Array;
  /** Payloads of all entries, in the order of `values`. */
  payloads(): number[];
  /**
   * Reference point of the hypervolume that guards a full archive [m]; null before it first overflows.
   * It is set a tenth of the extents beyond the entries then held and moves outwards only.
   */
  reference(): Float64Array | null;
  /** Least broken row while there is no entry; ties go to the lesser objectives, then genes. */
  bestInfeasible(): Infeasible | null;
  /** Plain data for JSON; `unpackArchive` reads it. */
  pack(): unknown;
}

const FORMAT = 'anfract-archive';
const VERSION = 1;

interface Store extends Entries {
  readonly d: number;
  readonly capacity: number;
  readonly genes: Float64Array;
  readonly payloads: Float64Array;
  infeasible: Infeasible | null;
}

/** @throws Error when the capacity is below the number of objectives. */
export function createArchive(options: ArchiveOptions): Archive {
  return wrap(createStore(options));
}

function createStore({ capacity, objectives: m, genes: d }: ArchiveOptions): Store {
  if (!Number.isInteger(capacity) || capacity < Math.max(1, m)) {
    throw new Error(
      `capacity is ${capacity}; it must be a whole number, at least one per objective (${m}).`,
    );
  }
  const rows = capacity + 1;
  return {
    m,
    d,
    capacity,
    values: new Float64Array(rows * m),
    genes: new Float64Array(rows * d),
    payloads: new Float64Array(rows),
    size: 0,
    extent: new Float64Array(m),
    reference: new Float64Array(m),
    loss: new Float64Array(rows),
    cover: new Int32Array(rows),
    infeasible: null,
  };
}

function wrap(store: Store): Archive {
  return {
    capacity: store.capacity,
    size: () => store.size,
    insert: (genes, values, payload, violation = 0) =>
      insertRow(store, genes, values, payload, violation),
    dominates: (values) => findBetter(store, values) >= 0,
    values: () => inOrder(store, store.values, store.m),
    genes: () => inOrder(store, store.genes, store.d),
    payloads: () => Array.from(inOrder(store, store.payloads, 1)),
    reference: () => (isScaled(store) ? store.reference.slice() : null),
    bestInfeasible: () => store.infeasible,
    pack: () => packStore(store),
  };
}

function insertRow(
  store: Store,
  genes: Float64Array,
  values: Float64Array,
  payload: number,
  violation: number,
): boolean {
  const { m, d, capacity } = store;
  if (genes.length !== d || values.length !== m) {
    throw new Error(
      `an entry has ${genes.length} genes and ${values.length} objectives; it must have ${d} and ${m}.`,
    );
  }
  if (!values.every(Number.isFinite) || !(violation >= 0 && violation < Number.POSITIVE_INFINITY)) {
    return false;
  }
  if (violation > 0) {
    keepInfeasible(store, { genes: genes.slice(), values: values.slice(), payload, violation });
    return false;
  }
  const better = findBetter(store, values);
  if (better >= 0) {
    if (!isEqual(store.values, better * m, values)) return false;
    if (compareRows(genes, store.genes.subarray(better * d, (better + 1) * d)) >= 0) return false;
    store.genes.set(genes, better * d);
    store.payloads[better] = payload;
    return true;
  }
  for (let i = store.size - 1; i >= 0; i--)
    if (isNoWorse(values, store.values, i * m)) remove(store, i);
  const at = store.size++;
  for (let k = 0; k < m; k++) store.values[at * m + k] = values[k] + 0;
  for (let g = 0; g < d; g++) store.genes[at * d + g] = genes[g] + 0;
  store.payloads[at] = payload;
  store.infeasible = null;
  noteAdded(store);
  if (store.size <= capacity) return true;
  const spare = chooseSpare(store);
  remove(store, spare);
  return spare !== at;
}

/** The last entry takes the place of the removed one. */
function remove(store: Store, gone: number): void {
  const { m, d } = store;
  const last = --store.size;
  store.values.copyWithin(gone * m, last * m, (last + 1) * m);
  store.genes.copyWithin(gone * d, last * d, (last + 1) * d);
  store.payloads[gone] = store.payloads[last];
  noteRemoved(store, gone);
}

function findBetter(store: Store, values: Float64Array): number {
  const { m } = store;
  for (let i = 0; i < store.size; i++) {
    let noWorse = true;
    for (let k = 0; k < m && noWorse; k++) noWorse = store.values[i * m + k] <= values[k];
    if (noWorse) return i;
  }
  return -1;
}

function isNoWorse(values: Float64Array, others: Float64Array, offset: number): boolean {
  for (let k = 0; k < values.length; k++) if (values[k] > others[offset + k]) return false;
  return true;
}

function isEqual(set: Float64Array, offset: number, values: Float64Array): boolean {
  for (let k = 0; k < values.length; k++) if (set[offset + k] !== values[k]) return false;
  return true;
}

function compareRows(a: Float64Array, b: Float64Array): number {
  for (let k = 0; k < a.length; k++) if (a[k] !== b[k]) return a[k] - b[k];
  return 0;
}

function keepInfeasible(store: Store, row: Infeasible): void {
  if (store.size > 0) return;
  const best = store.infeasible;
  const order =
    best === null
      ? -1
      : row.violation - best.violation ||
        compareRows(row.values, best.values) ||
        compareRows(row.genes, best.genes);
  if (order < 0) store.infeasible = row;
}

function inOrder(store: Store, rows: Float64Array, width: number): Float64Array {
  const order = Array.from({ length: store.size }, (_, i) => i);
  order.sort((a, b) => compareVectors(store, a, b));
  const out = new Float64Array(store.size * width);
  order.forEach((row, i) => out.set(rows.subarray(row * width, (row + 1) * width), i * width));
  return out;
}

/** Rows stay in the order they are held in, since sums over them run in that order. */
function packStore(store: Store): unknown {
  const { size, m, d, infeasible } = store;
  return {
    format: FORMAT,
    version: VERSION,
    capacity: store.capacity,
    objectives: m,
    genesPerRow: d,
    values: Array.from(store.values.subarray(0, size * m)),
    genes: Array.from(store.genes.subarray(0, size * d)),
    payloads: Array.from(store.payloads.subarray(0, size)),
    extent: Array.from(store.extent),
    reference: Array.from(store.reference),
    infeasible:
      infeasible === null
        ? null
        : {
            genes: Array.from(infeasible.genes),
            values: Array.from(infeasible.values),
            payload: infeasible.payload,
            violation: infeasible.violation,
          },
  };
}

/**
 * The archive that `Archive.pack` packed; it goes on exactly as the original would have.
 *
 * @throws Error naming the field that is missing, of the wrong length or not a number.
 */
export function unpackArchive(value: unknown): Archive {
  const packed = readPacked(value, FORMAT, VERSION);
  const m = readWhole(packed, 'objectives');
  const d = readWhole(packed, 'genesPerRow');
  const store = createStore({ capacity: readWhole(packed, 'capacity'), objectives: m, genes: d });
  const payloads = readNumbers(packed, 'payloads');
  if (payloads.length > store.capacity) {
    throw new Error(
      `packed payloads has ${payloads.length} entries; the capacity is ${store.capacity}.`,
    );
  }
  store.size = payloads.length;
  store.payloads.set(payloads);
  store.values.set(readNumbers(packed, 'values', store.size * m));
  store.genes.set(readNumbers(packed, 'genes', store.size * d));
  store.extent.set(readNumbers(packed, 'extent', m));
  store.reference.set(readNumbers(packed, 'reference', m));
  if (packed['infeasible'] !== null)
    store.infeasible = readInfeasible(readObject(packed, 'infeasible'), m, d);
  refreshLosses(store);
  return wrap(store);
}

function readInfeasible(packed: Packed, m: number, d: number): Infeasible {
  return {
    genes: Float64Array.from(readNumbers(packed, 'genes', d)),
    values: Float64Array.from(readNumbers(packed, 'values', m)),
    payload: readWhole(packed, 'payload'),
    violation: readNumber(packed, 'violation'),
  };
}
