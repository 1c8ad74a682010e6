/** Where computed flows are kept: in a run folder, or beside a design file. */
import { readFileSync, rmSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { VERSION, stateKey } from '../engine/index.ts';
import type { VerifySolved, VerifyTask } from '../engine/index.ts';
import {
  mergeCases,
  readVerifyFile,
  readVerifyState,
  writeVerifyFile,
  writeVerifyState,
} from '../formats/index.ts';
import type { VerifyCase } from '../formats/index.ts';
import { DISK, codeOf, writeWhole } from '../store/index.ts';
import type { RunFolder } from '../store/index.ts';
import type { VerifyShelf } from './verify-drive.ts';

/** Names of the files of a flow: what would trouble a file system is left out. */
function fileStem(design: string, role: string, velocity_m_per_s: number): string {
  const name = design.replaceAll(/[^A-Za-z0-9_-]+/g, '-').replace(/^-+/, '') || 'design';
  return `${name.slice(0, 60)}-flow-${role}-${velocity_m_per_s.toPrecision(3)}`;
}

/** States of flows under way: files in a folder, each until its flow is computed. */
function statesIn(folder: string): Pick<VerifyShelf, 'findState' | 'keepState' | 'dropState'> {
  const fileOf = ({ name, role, velocity_m_per_s }: VerifyTask): string =>
    join(folder, `${fileStem(name, role, velocity_m_per_s)}.state`);
  return {
    findState(task) {
      const file = fileOf(task);
      try {
        return readVerifyState(readFileSync(file), stateKey(task), file);
      } catch (error) {
        if (codeOf(error) === 'ENOENT') return null;
        throw error;
      }
    },
    keepState: (task, state) =>
      writeWhole(DISK, fileOf(task), writeVerifyState(stateKey(task), state)),
    dropState: (task) => rmSync(fileOf(task), { force: true }),
  };
}

/** The shelf of a run: `verify.json` and its pictures. */
export function runShelf(run: RunFolder): VerifyShelf {
  return {
    earlier: run.readVerify(),
    keep: keeper(
      (name, text) => void run.put('pictures', name, text),
      (result) => run.addVerify(VERSION, [result]),
    ),
    ...statesIn(join(run.path, 'pictures')),
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
    ...statesIn(dirname(path)),
  };
}

function keeper(
  putFile: (name: string, text: string) => void,
  add: (result: VerifyCase) => void,
): (solved: VerifySolved) => VerifyCase {
  return ({ result, field, slice, landings }) => {
    const { design, role, medianVelocity_m_per_s } = result;
    const stem = fileStem(design, role, medianVelocity_m_per_s);
    const kept = { ...result, field: `${stem}.vti`, slice: `${stem}.svg`, landings: `${stem}.vtp` };
    putFile(kept.field, field);
    putFile(kept.slice, slice);
    putFile(kept.landings, landings);
    add(kept);
    return kept;
  };
}
