/** The passes compiled (`kernels/clearance.ts`): same rules, same order of sums, same results as the plain ones. */
import { loadKernel } from '../../numeric/index.ts';
import { CLEARANCE_WASM } from './clearance-wasm.ts';
import { createKernelMemory, makeKernelRoom, setUp } from './kernel-memory.ts';
import type { ClearanceExports, KernelMemory } from './kernel-memory.ts';
import type { Passes } from './passes.ts';
import { packHull } from './pocket-hulls.ts';
import type { Tally, WallKind } from './tally.ts';
import type { Tubes } from './tubes.ts';

/** In the kernel's order. */
const KINDS: readonly WallKind[] = ['between', 'self', 'bend', 'face', 'edge', 'hole', 'pocket'];

let passes: Passes | null | undefined;

/** The compiled passes; null where the engine cannot run them. One plate at a time. */
export function compiledPasses(): Passes | null {
  if (passes === undefined) passes = load();
  return passes;
}

function load(): Passes | null {
  // Hulls of pockets are worked out here, when the kernel first asks about a station.
  let current: Tubes | null = null;
  const kernel = loadKernel<ClearanceExports>(CLEARANCE_WASM, {
    packHull: (shape, station) => (current === null ? 0 : packHull(current, shape, station)),
  });
  if (kernel === null) return null;
  const memory = createKernelMemory(kernel);
  const { exports } = kernel;
  return {
    makeRoom(t) {
      makeKernelRoom(t, memory);
    },
    pack(t) {
      current = t;
      copySamples(t, memory);
      setUp(t, memory);
      return exports.pack(t.samples.sides === null);
    },
    visitBends(_, tally) {
      send(tally, memory);
      exports.visitAllBends();
      receive(tally, memory);
    },
    visitWalls(t, tally, lip_mm) {
      send(tally, memory);
      exports.visitPairs();
      exports.visitShapes(t.samples.sides === null, lip_mm);
      receive(tally, memory);
    },
  };
}

function copySamples(t: Tubes, memory: KernelMemory): void {
  const { samples } = t;
  memory.tangent.set(samples.tangent);
  memory.curvature.set(samples.curvature_per_mm);
  memory.length_mm.set(samples.length_mm);
  memory.reach_mm.set(samples.reach_mm);
  for (let m = 0; m < t.channelShapes; m++) memory.hasPockets[m] = t.pockets[m].length > 0 ? 1 : 0;
  // Ports in the faces the kernel shears itself, and keeps their upright axes.
  const kept = samples.sides === null ? 0 : 1;
  memory.sheared.fill(kept, 0, t.channelShapes * t.stations);
  if (kept === 0) return;
  memory.uprightFirst.set(samples.first);
  memory.uprightSecond.set(samples.second);
}

function send({ thinnest_mm, overlaps_mm: o }: Tally, { tally, tallyNotes }: KernelMemory): void {
  tally[0] = thinnest_mm;
  tally[4] = o.between;
  tally[5] = o.self;
  tally[6] = o.bend;
  tally[7] = o.face;
  tally[8] = o.edge;
  tally[9] = o.hole;
  tally[10] = o.pocket;
  // Stays where the kernel finds nothing thinner.
  tallyNotes[0] = -1;
}

function receive(out: Tally, { tally, tallyNotes }: KernelMemory): void {
  const { overlaps_mm: o } = out;
  o.between = tally[4];
  o.self = tally[5];
  o.bend = tally[6];
  o.face = tally[7];
  o.edge = tally[8];
  o.hole = tally[9];
  o.pocket = tally[10];
  if (tallyNotes[0] < 0) return;
  out.thinnest_mm = tally[0];
  out.kind = KINDS[tallyNotes[0]];
  out.x_mm = tally[1];
  out.y_mm = tally[2];
  out.z_mm = tally[3];
  out.channel = tallyNotes[1];
  out.other = tallyNotes[2];
}
