/** Digests and pressure drops of a plate's channels, two at once, by the compiled kernel. */
import { loadKernel } from '../numeric/index.ts';
import type { WasmKernel } from '../numeric/index.ts';
import { CONE } from './area-runs.ts';
import { HALF_SINE, LOG_TIGHTNESS, SPREAD } from './bends.ts';
import { ROUGH_TERM, familyFRe, panelCount, panelEnd, progressOf } from './channel-digest.ts';
import type { ChannelDigests, PlateChannels } from './channel-digest.ts';
import { ITO_HIGH, WHITE } from './channel-loss.ts';
import { END_NUMBERS, digestEnds } from './digest-ends.ts';
import { DIGEST } from './digest-layout.ts';
import type { JointPressure } from './parallel.ts';
import { STREAM_WASM } from './stream-wasm.ts';
import type { Table } from './table.ts';
import { INVERSE_ROOT } from './turbulent-table.ts';

const { LOBE_FIELDS, MAX_LOBES, PANEL_FIELDS, SHAPE_FIELDS } = DIGEST;

/** Exports of `kernels/stream.ts`. */
interface StreamKernel {
  tables(...at: number[]): void;
  digest(plate: number, one: number, two: number): void;
  split(plate: number, split: number, total: number, tolerance: number): number;
}

/** Channels of one plate in the kernel's memory: there is one such plate at a time. */
export interface KernelStream {
  readonly digests: ChannelDigests;
  /**
   * Branches that share the flow, at most two to each shape.
   *
   * @param shapeOf shape of each branch. @param loss further loss over the square of the flow [Pa s2/m6].
   */
  pressures(shapeOf: ArrayLike<number>, loss: ArrayLike<number> | null): JointPressure;
}

/** In the order in which the kernel takes them. */
const TABLES: readonly Table[] = [
  ROUGH_TERM,
  HALF_SINE,
  LOG_TIGHTNESS,
  SPREAD,
  CONE,
  WHITE,
  ITO_HIGH,
  INVERSE_ROOT,
];
/** Numbers before a table's coefficients. */
const TABLE_HEAD = 4;
/** Numbers before the kernel's own data [8 bytes each]. */
const START = 128;

/** Where everything lies in the kernel's memory, in numbers of 8 bytes. */
interface Layout {
  readonly shapes: number;
  readonly stations: number;
  readonly panels: number;
  readonly numbers: Float64Array;
  /** The same memory as 32-bit integers. */
  readonly integers: Int32Array;
  readonly digests: ChannelDigests;
  readonly at: Readonly<Record<Place, number>>;
}

type Place =
  | 'plate'
  | 'ends'
  | 'progress'
  | 'scratch'
  | 'port'
  | 'fRe'
  | 'tangent'
  | 'area'
  | 'perimeter'
  | 'bore'
  | 'length'
  | 'shape'
  | 'panel'
  | 'lobe'
  | 'split'
  | 'shapeOf'
  | 'loss'
  | 'count'
  | 'flow'
  | 'pressure'
  | 'slope'
  | 'earlierFlow'
  | 'earlierPressure'
  | 'linear'
  | 'square'
  | 'perPressure';

/** Addresses in the kernel's `Plate`, in its order. */
const PLATE_PLACES: readonly Place[] = [
  'ends',
  'progress',
  'tangent',
  'area',
  'perimeter',
  'bore',
  'length',
  'fRe',
  'shape',
  'panel',
  'lobe',
  'port',
  'scratch',
];

/** Addresses in the kernel's `Split`, in its order. */
const SPLIT_PLACES: readonly Place[] = [
  'shapeOf',
  'loss',
  'count',
  'flow',
  'pressure',
  'slope',
  'earlierFlow',
  'earlierPressure',
  'linear',
  'square',
  'perPressure',
];

let kernel: WasmKernel<StreamKernel> | null | undefined;
let layout: Layout | undefined;

/**
 * Digests a plate in the kernel's memory, in place of the one before; the same numbers as
 * `digestChannels` to the last bit.
 *
 * @returns null where the kernel cannot serve: no SIMD, teeth, or slots and others in one plate.
 */
export function openStream(plate: PlateChannels): KernelStream | null {
  kernel ??= loadKernel<StreamKernel>(STREAM_WASM);
  if (kernel === null || plate.arrays.teeth !== undefined || plate.shapes === 0) return null;
  const slots = plate.families[0].kind === 'slot';
  if (plate.families.some(({ kind }) => (kind === 'slot') !== slots)) return null;
  const place = layOut(kernel, plate.shapes, plate.arrays.stations);
  const { exports } = kernel;
  fill(place, plate, slots);
  const { at, numbers, digests } = place;
  for (let m = 0; m < plate.shapes; m += 2) {
    exports.digest(8 * at.plate, m, Math.min(m + 1, plate.shapes - 1));
  }
  for (let m = 0; m < plate.shapes; m += 1) {
    const port = at.port + END_NUMBERS.COUNT * m;
    digestEnds(digests, m, plate.arrays, numbers, port, plate.pockets[m], plate.conditions[m]);
  }
  return {
    digests,
    pressures: (shapeOf, loss) => pressuresOf(exports, place, shapeOf, loss),
  };
}

function pressuresOf(
  exports: StreamKernel,
  { at, numbers, integers }: Layout,
  shapeOf: ArrayLike<number>,
  loss: ArrayLike<number> | null,
): JointPressure {
  const branches = shapeOf.length;
  integers[2 * at.split] = branches;
  integers.set(shapeOf, 2 * at.shapeOf);
  if (loss === null) numbers.fill(0, at.loss, at.loss + branches);
  else numbers.set(loss, at.loss);
  return {
    solve(split, total, tolerance) {
      numbers.set(split.count, at.count);
      numbers.set(split.flow_m3_per_s, at.flow);
      numbers.set(split.earlierFlow_m3_per_s, at.earlierFlow);
      numbers.set(split.earlierPressure_Pa, at.earlierPressure);
      const common = exports.split(8 * at.plate, 8 * at.split, total, tolerance);
      for (let i = 0; i < branches; i += 1) {
        split.flow_m3_per_s[i] = numbers[at.flow + i];
        split.pressure_Pa[i] = numbers[at.pressure + i];
        split.slope_Pa[i] = numbers[at.slope + i];
        split.earlierFlow_m3_per_s[i] = numbers[at.earlierFlow + i];
        split.earlierPressure_Pa[i] = numbers[at.earlierPressure + i];
      }
      return common;
    },
  };
}

/** Room for at least so many shapes; kept as long as it serves. */
function layOut(loaded: WasmKernel<StreamKernel>, shapes: number, stations: number): Layout {
  if (layout !== undefined && layout.stations === stations && layout.shapes >= shapes) {
    return layout;
  }
  const panels = panelCount(stations);
  let end = START;
  const reserve = (count: number): number => {
    const at = end;
    end += 2 * Math.ceil(count / 2);
    return at;
  };
  const tableAt = TABLES.map(({ coefficients }) => reserve(TABLE_HEAD + coefficients.length));
  const at: Record<Place, number> = {
    plate: reserve(16),
    ends: reserve(panels),
    progress: reserve(2 * stations),
    scratch: reserve(6 * stations),
    port: reserve(END_NUMBERS.COUNT * shapes),
    fRe: reserve(panels * shapes),
    shape: reserve(SHAPE_FIELDS * shapes),
    panel: reserve(PANEL_FIELDS * panels * shapes),
    lobe: reserve(LOBE_FIELDS * MAX_LOBES * shapes),
    tangent: reserve(3 * stations * shapes),
    area: reserve(stations * shapes),
    perimeter: reserve(stations * shapes),
    bore: reserve(stations * shapes),
    length: reserve(shapes),
    split: reserve(6),
    shapeOf: reserve(shapes),
    loss: reserve(2 * shapes),
    count: reserve(2 * shapes),
    flow: reserve(2 * shapes),
    pressure: reserve(2 * shapes),
    slope: reserve(2 * shapes),
    earlierFlow: reserve(2 * shapes),
    earlierPressure: reserve(2 * shapes),
    linear: reserve(2 * shapes),
    square: reserve(2 * shapes),
    perPressure: reserve(2 * shapes),
  };
  const buffer = loaded.memory(8 * end);
  const numbers = new Float64Array(buffer);
  const integers = new Int32Array(buffer);
  TABLES.forEach(({ low, cellsPerUnit, cells, coefficients }, i) => {
    numbers.set([low, cellsPerUnit, cells, 0], tableAt[i]);
    numbers.set(coefficients, tableAt[i] + TABLE_HEAD);
  });
  loaded.exports.tables(...tableAt.map((place) => 8 * place));
  const progress = progressOf(stations);
  numbers.set(progress, at.progress);
  SPLIT_PLACES.forEach((place, i) => {
    integers[2 * at.split + 1 + i] = 8 * at[place];
  });
  for (let p = 0; p < panels; p += 1) integers[2 * at.ends + p] = panelEnd(p, panels, stations);
  const view = (place: Place, count: number): Float64Array =>
    numbers.subarray(at[place], at[place] + count);
  layout = {
    shapes,
    stations,
    panels,
    numbers,
    integers,
    at,
    digests: {
      stations,
      panels,
      shape: view('shape', SHAPE_FIELDS * shapes),
      panel: view('panel', PANEL_FIELDS * panels * shapes),
      lobe: view('lobe', LOBE_FIELDS * MAX_LOBES * shapes),
    },
  };
  return layout;
}

/** Copies what the kernel reads of a plate. */
function fill(
  { at, numbers, integers, panels }: Layout,
  plate: PlateChannels,
  slots: boolean,
): void {
  const { arrays, shapes } = plate;
  const { stations } = arrays;
  const [{ air, shrinkage, layer, buildAxis }] = plate.conditions;
  const rows = shapes * stations;
  numbers.set(arrays.tangent.subarray(0, 3 * rows), at.tangent);
  numbers.set(arrays.area.subarray(0, rows), at.area);
  if (slots) numbers.set(arrays.perimeter.subarray(0, rows), at.perimeter);
  numbers.set(arrays.bore.subarray(0, rows), at.bore);
  numbers.set(arrays.length.subarray(0, shapes), at.length);
  for (let m = 0; m < shapes; m += 1) {
    const family = plate.families[m];
    const row = at.fRe + m * panels;
    if (family.kind !== 'roofed') {
      for (let p = 0; p < panels; p += 1) numbers[row + p] = family.fRe;
      continue;
    }
    let first = 0;
    for (let p = 0; p < panels; p += 1) {
      const last = integers[2 * at.ends + p];
      const roof = arrays.roof[m * stations + ((first + last) >> 1)];
      numbers[row + p] = familyFRe(family, roof);
      first = last;
    }
  }
  // The fields of `Plate` in the kernel's source: four integers, five numbers, addresses.
  integers.set([stations, panels, slots ? 1 : 0, buildAxis], 2 * at.plate);
  numbers[at.plate + 2] = arrays.unit_m;
  numbers[at.plate + 3] = shrinkage;
  numbers[at.plate + 4] = layer * arrays.unit_m;
  numbers[at.plate + 5] = air.kinematicViscosity_m2_per_s;
  numbers[at.plate + 6] = 0.5 * air.density_kg_per_m3;
  for (let i = 0; i < PLATE_PLACES.length; i += 1) {
    integers[2 * (at.plate + 7) + i] = 8 * at[PLATE_PLACES[i]];
  }
}
