/** run.json: who made a run, with what, and when. The only file with times beside the log. */
import { InputError, fault, isRecord } from '../brief/index.ts';
import { writeJson } from './json.ts';
import { readJson } from './json-text.ts';

const RUN_FORMAT = 'anfract-run';
const RUN_VERSION = 1;

export interface RunRecord {
  /** Version of anfract. */
  readonly anfract: string;
  /** Versions of what the result depends on, by name, such as the mesh kernel. */
  readonly parts: Readonly<Record<string, string>>;
  readonly seed: string;
  /** Runtime and platform, such as `node v20.1.0`, `linux x64`. */
  readonly runtime: string;
  readonly platform: string;
  /** ISO 8601 times. */
  readonly started: string;
  readonly updated: string;
}

export function writeRunRecord(record: RunRecord): string {
  return writeJson({ format: RUN_FORMAT, version: RUN_VERSION, ...record });
}

/**
 * Reads run.json.
 *
 * @throws InputError when it is no such file, is half written, or needs a newer program.
 */
export function readRunRecord(text: string, where: string): RunRecord {
  const value = readJson(text, where);
  const refuse = (path: string, found: unknown, allowed: string, remedy: string): InputError =>
    new InputError([fault(path, JSON.stringify(found) ?? 'missing', allowed, remedy)], where);
  if (!isRecord(value) || value['format'] !== RUN_FORMAT) {
    const found = isRecord(value) ? value['format'] : value;
    throw refuse('format', found, `be '${RUN_FORMAT}'`, 'This is no run folder of anfract.');
  }
  const version = value['version'];
  if (version !== RUN_VERSION) {
    const remedy =
      typeof version === 'number' && version > RUN_VERSION
        ? `The run was made by a newer anfract: use one that reads ${RUN_FORMAT} version ${version}.`
        : 'The file is damaged.';
    throw refuse('version', version, `be ${RUN_VERSION}`, remedy);
  }
  const word = (key: string): string => {
    const found = value[key];
    if (typeof found === 'string') return found;
    throw refuse(key, found, 'be a text', 'The file is damaged.');
  };
  const parts = isRecord(value['parts']) ? value['parts'] : {};
  return {
    anfract: word('anfract'),
    parts: Object.fromEntries(Object.entries(parts).map(([name, of]) => [name, String(of)])),
    seed: word('seed'),
    runtime: word('runtime'),
    platform: word('platform'),
    started: word('started'),
    updated: word('updated'),
  };
}
