/** Where computed flows are kept: in a run folder, or beside a design file. */
import { readFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { VERSION } from '../engine/index.ts';
import type { VerifySolved } from '../engine/index.ts';
import { mergeCases, readVerifyFile, writeVerifyFile } from '../formats/index.ts';
import type { VerifyCase } from '../formats/index.ts';
import { DISK, codeOf, writeWhole } from '../store/index.ts';
import type { RunFolder } from '../store/index.ts';
import type { VerifyShelf } from './verify-drive.ts';

/** Names of the files of a result: what would trouble a file system is left out. */
function fileStem({ design, role, medianVelocity_m_per_s }: VerifyCase): string {
  const name = design.replaceAll(/[^A-Za-z0-9_-]+/g, '-').replace(/^-+/, '') || 'design';
  return `${name.slice(0, 60)}-flow-${role}-${medianVelocity_m_per_s.toPrecision(3)}`;
}

/** The shelf of a run: `verify.json` and its pictures. */
export function runShelf(run: RunFolder): VerifyShelf {
  return {
    earlier: run.readVerify(),
    keep: keeper(
      (name, text) => void run.put('pictures', name, text),
      (result) => run.addVerify(VERSION, [result]),
    ),
  };
}

/** The shelf of a design file `NAME.json`: `NAME.verify.json` beside it. */
export function designShelf(path: string): VerifyShelf {
  const file = join(dirname(path), `${basename(path).replace(/\.json$/, '')}.verify.json`);
  const read = (): VerifyCase[] => {
    try {
      return readVerifyFile(readFileSync(file, 'utf8'), file);
    } catch (error) {
      if (codeOf(error) === 'ENOENT') return [];
      throw error;
    }
  };
  return {
    earlier: read(),
    keep: keeper(
      (name, text) => writeWhole(DISK, join(dirname(path), name), text),
      (result) => writeWhole(DISK, file, writeVerifyFile(VERSION, mergeCases(read(), [result]))),
    ),
  };
}

function keeper(
  putFile: (name: string, text: string) => void,
  add: (result: VerifyCase) => void,
): (solved: VerifySolved) => VerifyCase {
  return ({ result, field, slice, landings }) => {
    const stem = fileStem(result);
    const kept = { ...result, field: `${stem}.vti`, slice: `${stem}.svg`, landings: `${stem}.vtp` };
    putFile(kept.field, field);
    putFile(kept.slice, slice);
    putFile(kept.landings, landings);
    add(kept);
    return kept;
  };
}
