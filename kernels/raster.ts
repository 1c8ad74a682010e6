/**
 * The layer raster of `src/print/raster.ts` in AssemblyScript: tubes carved out of the layers, and what
 * each layer holds. The same operations in the same order, so that reports are the same to the last
 * bit (a test compares them). Built by `node kernels/build.mjs` into `src/print/raster-wasm.ts`.
 *
 * Unsigned shifts are written on purpose: AssemblyScript's `>>>` of an i32 is logical, as in
 * JavaScript.
 */
import * as state from './raster/state';

export { begin, lay } from './raster/state';
export { carveTube } from './raster/carve';
export { judgeLines } from './raster/lines';
export { spreadRuns } from './raster/row-cuts';
export {
  addRuns, findUnsupported, firstRow, lastRow, pieces, readLayer, runs, touches,
} from './raster/layers';

/** Where the arrays lie that the caller reads and writes, after `lay`. */
export function wall(): usize { return state.WALL; }
export function runFrom(): usize { return state.FROM; }
export function runTo(): usize { return state.TO; }
export function runPiece(): usize { return state.PIECE; }
export function runSize(): usize { return state.SIZE; }
export function rowStart(): usize { return state.ROW_START; }
export function rowSum(): usize { return state.ROW_SUM; }
export function columnSum(): usize { return state.COLUMN_SUM; }
export function discOne(): usize { return state.ONE; }
export function discTwo(): usize { return state.TWO; }
export function unsupported(): usize { return state.UNSUPPORTED; }
export function cuts(): usize { return state.CUTS; }
export function comb(): usize { return state.COMB; }
export function looseFrom(): usize { return state.LOOSE_FROM; }
export function looseTo(): usize { return state.LOOSE_TO; }
export function loosePiece(): usize { return state.LOOSE_PIECE; }
export function looseStart(): usize { return state.LOOSE_START; }
export function failed(): usize { return state.FAILED; }
export function freeEnded(): usize { return state.FREE_ENDED; }
export function deepest(): usize { return state.DEEPEST; }
export function longest(): usize { return state.LONGEST; }
export function failing(): usize { return state.FAILING; }
export function solid(): usize { return state.SOLID; }
