/** Computed flows that a run folder holds of its designs. */
import { InputError } from '../brief/index.ts';
import { casesFor, designOf } from '../engine/index.ts';
import type { ComputedFlow, Front } from '../engine/index.ts';
import type { VerifyCase } from '../formats/index.ts';
import type { RunFolder } from '../store/index.ts';
import type { Terminal } from './terminal.ts';

/** By design; results of another plate that once bore an id are left out. @throws InputError. */
export function verifiedOf(run: RunFolder, front: Front): ReadonlyMap<string, VerifyCase[]> {
  const all = run.readVerify();
  const found = new Map<string, VerifyCase[]>();
  if (all.length === 0) return found;
  for (const design of front.designs) {
    if (!all.some((entry) => entry.design === design.id)) continue;
    const cases = casesFor(design.id, front.brief, designOf(front, design), all);
    if (cases.length > 0) found.set(design.id, cases);
  }
  return found;
}

/** The same where a damaged file must not keep a table from showing: a remark says so. */
export function verifiedIfReadable(
  run: RunFolder,
  front: Front,
  terminal: Terminal,
): ReadonlyMap<string, VerifyCase[]> {
  try {
    return verifiedOf(run, front);
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    terminal.remark(`Computed flows are not shown. ${error.message}`);
    return new Map();
  }
}

/** Computed flows with their slices, as a report shows them. */
export function withSlices(run: RunFolder, cases: readonly VerifyCase[]): ComputedFlow[] {
  return cases.map((entry) => ({
    entry,
    slice: entry.slice === null ? null : run.readPicture(entry.slice),
  }));
}
