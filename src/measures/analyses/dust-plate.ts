/** Dust through all shapes of a plate: two at once by the compiled kernel, where the engine runs it. */
import type { PlateSamples } from '../../design/index.ts';
import { loadKernel } from '../../numeric/index.ts';
import type { WasmKernel } from '../../numeric/index.ts';
import { bendRates } from './dust-classes.ts';
import type { DustConstants } from './dust-classes.ts';
import { clearLedger, createLedger, flyingShare, marchDust, turbulence } from './dust-march.ts';
import type { DustLedger } from './dust-march.ts';
import { STATION, STEP_COLUMNS, layMouths, layStations, stepCount } from './dust-steps.ts';
import type { ShapeStream } from './dust-steps.ts';
import { DUST_WASM } from './dust-wasm.ts';

const { STEP } = STEP_COLUMNS;

/** Exports of `kernels/dust.ts`. */
interface DustKernel {
  lay(
    stations: number,
    last: number,
    stride: number,
    streams: number,
    outer: number,
    table: number,
  ): void;
  march(
    table: number,
    count: number,
    streams: number,
    dust: number,
    classes: number,
    rates: number,
    flying: number,
    out: number,
    pockets: number,
  ): void;
}

/** Marches a shape and hands over its ledger, which serves again two shapes on. */
export type PlateMarch = (shape: number) => DustLedger;

/** What the marches of a plate's shapes share. */
export interface MarchSetup {
  readonly samples: PlateSamples;
  readonly dust: DustConstants;
  /** Shallower pockets fade out. */
  readonly minimumFeature_mm: number;
  /** Stations per step, see `marchDust`. */
  readonly stride: number;
  /** Stream of a shape, good until the next one is asked for. */
  stream(shape: number): ShapeStream;
}

let kernel: WasmKernel<DustKernel> | null | undefined;

/** March over the shapes of a plate, to be asked for one after the other from the first on. */
export function createPlateMarch(setup: MarchSetup): PlateMarch {
  kernel ??= loadKernel<DustKernel>(DUST_WASM);
  return kernel === null ? createPlainMarch(setup) : createKernelMarch(setup, kernel);
}

/** The form for engines without the kernel, and the one that the kernel is held to. */
export function createPlainMarch(setup: MarchSetup): PlateMarch {
  const { samples, dust, minimumFeature_mm, stride } = setup;
  const ledger = createLedger(dust.count);
  return (shape) => {
    marchDust(samples, shape, setup.stream(shape), dust, minimumFeature_mm, stride, ledger);
    return ledger;
  };
}

/** Numbers before the kernel's own data [8 bytes each]. */
const START = 128;
/** Constants of a class, and results: see `kernels/dust.ts`. */
const CLASS_FIELDS = 6;
const RESULT_FIELDS = 6;
const STREAM_FIELDS = 10;

/** All of the kernel's memory. */
let numbers = new Float64Array(0);

function createKernelMarch(setup: MarchSetup, loaded: WasmKernel<DustKernel>): PlateMarch {
  const { samples, dust, minimumFeature_mm, stride } = setup;
  const { shapeCount } = samples;
  const classes = dust.count;
  const count = stepCount(samples.stations, stride);
  let most = 0;
  for (const pockets of samples.pockets) most = Math.max(most, pockets.length);
  const rates = START;
  const constants = rates + 2 * Math.ceil(bendRates.length / 2);
  const streams = constants + CLASS_FIELDS * classes;
  const out = streams + STREAM_FIELDS;
  const pocketsOut = out + RESULT_FIELDS * classes;
  const stations = pocketsOut + 2 * classes * most;
  const table = stations + STATION * samples.stations;
  const buffer = loaded.memory(8 * (table + STEP * count));
  if (numbers.buffer !== buffer) {
    numbers = new Float64Array(buffer);
    numbers.set(bendRates, rates);
  }
  const cells = numbers;
  for (let i = 0; i < classes; i++) {
    const at = constants + CLASS_FIELDS * i;
    cells[at] = dust.relaxation_s[i];
    cells[at + 1] = 1e3 * dust.relaxation_s[i];
    cells[at + 2] = 1 / dust.relaxation_s[i];
    cells[at + 3] = dust.logRelaxation[i];
    cells[at + 4] = dust.lift[i];
    cells[at + 5] = dust.rebound[i];
  }
  const ledgers = [createLedger(classes), createLedger(classes)] as const;
  const last = samples.stations - 1;
  const enter = (shape: number, lane: 0 | 1): void => {
    const stream = setup.stream(shape);
    const at = streams + lane;
    clearLedger(ledgers[lane], samples.pockets[shape].length, classes);
    layStations(samples, shape, cells, stations + lane);
    cells[at] = turbulence(stream);
    cells[at + 2] = 0.125 * stream.friction;
    cells[at + 4] = stream.flow_m3_per_s * 1e6;
    cells[at + 6] = samples.length_mm[shape] / last;
  };
  const layPockets = (shape: number, lane: 0 | 1): void => {
    const ledger = ledgers[lane];
    ledger.turning_rad = cells[streams + 8 + lane];
    const before = ledger.turningBefore_rad;
    layMouths(samples, shape, minimumFeature_mm, stride, cells, table + lane, before);
  };
  const read = (shape: number, lane: 0 | 1): void => {
    const ledger = ledgers[lane];
    for (let i = 0; i < classes; i++) {
      const at = out + RESULT_FIELDS * i + lane;
      ledger.carried[i] = cells[at];
      ledger.skimming[i] = cells[at + 2];
      ledger.onWalls[i] = cells[at + 4];
    }
    const places = classes * samples.pockets[shape].length;
    for (let i = 0; i < places; i++) ledger.inPockets[i] = cells[pocketsOut + 2 * i + lane];
  };
  return (shape) => {
    if (shape % 2 === 1) return ledgers[1];
    const next = Math.min(shape + 1, shapeCount - 1);
    enter(shape, 0);
    enter(next, 1);
    const pockets = Math.max(samples.pockets[shape].length, samples.pockets[next].length);
    const outer = pockets > 0 ? 1 : 0;
    loaded.exports.lay(8 * stations, last, stride, 8 * streams, outer, 8 * table);
    layPockets(shape, 0);
    layPockets(next, 1);
    cells.fill(0, pocketsOut, pocketsOut + 2 * classes * pockets);
    loaded.exports.march(
      8 * table,
      count,
      8 * streams,
      8 * constants,
      classes,
      8 * rates,
      flyingShare(stride),
      8 * out,
      pockets > 0 ? 8 * pocketsOut : 0,
    );
    read(shape, 0);
    read(next, 1);
    return ledgers[0];
  };
}
