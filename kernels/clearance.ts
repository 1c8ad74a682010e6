/**
 * The clearance of a plate (src/measures/clearance) in AssemblyScript: packing, bends, pairs, a channel
 * against itself, faces. Rules and sources are told there; every sum that decides is taken in the same
 * order, so that reports are the same to the last bit. Built by `node kernels/build.mjs` into
 * `src/measures/clearance/clearance-wasm.ts`.
 */
import { visitBends } from './clearance/bends';
import { packBounds, packPost } from './clearance/bounds';
import { visitFace } from './clearance/faces';
import { MEMO_BYTES } from './clearance/memo';
import { visitSelf } from './clearance/own';
import { shearPort } from './clearance/ports';
import { channelShapes, example, shapes, standing } from './clearance/state';
import { BEND, FACE, SELF, addOverlap } from './clearance/tally';

export { setUp } from './clearance/state';
export { visitPairs } from './clearance/plate';

/** Where free memory begins. */
export function begin(): usize {
  return (__heap_base + 63) & ~63;
}

/** Bytes that the memory of known gaps takes; empty at first. */
export function memoBytes(): usize {
  return MEMO_BYTES;
}

/** Shears the ports at both faces when told, bounds all channels; finite only when all numbers are. */
export function pack(shears: bool): f64 {
  let sum: f64 = 0;
  for (let m = 0; m < channelShapes; m++) {
    if (shears) {
      shearPort(m, 0);
      shearPort(m, 1);
    }
    sum += packBounds(m);
  }
  for (let m = channelShapes; m < shapes; m++) packPost(m);
  return sum;
}

export function visitAllBends(): void {
  for (let m = 0; m < channelShapes; m++) {
    const times = load<i32>(standing + (<usize>m << 2));
    if (times === 0) continue;
    const channel = load<i32>(example + (<usize>m << 2));
    addOverlap(BEND, times * visitBends(m, channel));
  }
}

/** Each shape against itself and, when told, against the faces. */
export function visitShapes(faces: bool, lip: f64): void {
  for (let m = 0; m < channelShapes; m++) {
    const times = load<i32>(standing + (<usize>m << 2));
    if (times === 0) continue;
    const channel = load<i32>(example + (<usize>m << 2));
    addOverlap(SELF, times * visitSelf(m, channel));
    if (!faces) continue;
    const depth = visitFace(m, lip, channel, 0) + visitFace(m, lip, channel, 1);
    addOverlap(FACE, times * depth);
  }
}
