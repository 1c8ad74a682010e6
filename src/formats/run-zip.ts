/** A run folder as one zip file, to send and to open again. */
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import type { UnzipFileInfo, Zippable } from 'fflate';
import { InputError, fault } from '../brief/index.ts';

/** Zip entries hold local time; one fixed local date keeps the bytes the same everywhere. */
const ENTRY_DATE = '2000-01-01T00:00:00';
/** Texts of a run folder that are read from a zip; all else in it is left alone. */
const READ = [
  'run.json',
  'brief.json',
  'front.json',
  'history.jsonl',
  'notes.json',
  'verify.json',
] as const;
/** Largest file taken out of a zip [bytes unpacked], and most files a zip may hold. */
const LARGEST = 200_000_000;
const MOST_FILES = 20_000;

/** Texts of a run folder by file name; a file that is not there is null. */
export type RunTexts = Readonly<Record<(typeof READ)[number], string | null>>;

/**
 * Puts files into a zip, under one folder. The same files give the same bytes.
 *
 * @param folder plain name of the folder.
 * @param files contents by path within it.
 */
export function writeRunZip(
  folder: string,
  files: Readonly<Record<string, string | Uint8Array>>,
): Uint8Array {
  const entries: Zippable = {};
  for (const [path, content] of Object.entries(files)) {
    entries[`${folder}/${path}`] = typeof content === 'string' ? strToU8(content) : content;
  }
  return zipSync(entries, { level: 6, mtime: ENTRY_DATE });
}

/**
 * Takes the texts of a run folder out of a zip that may come from anybody: nothing but files of
 * known names is unpacked, up to a size. The run may lie at the top or in a folder of the zip.
 *
 * @param where name of the file, for messages.
 * @throws InputError when it is no zip, holds no run or several, or too much.
 */
export function openRunZip(bytes: Uint8Array, where = 'zip file'): RunTexts {
  const refuse = (path: string, found: string, allowed: string, remedy: string): InputError =>
    new InputError([fault(path, found, allowed, remedy)], where);
  let count = 0;
  const large: UnzipFileInfo[] = [];
  const unpack = (wanted: (name: string) => boolean): Record<string, Uint8Array> => {
    count = 0;
    try {
      return unzipSync(bytes, {
        filter: (info) => {
          count++;
          if (count > MOST_FILES || !wanted(info.name)) return false;
          if (info.originalSize <= LARGEST) return true;
          large.push(info);
          return false;
        },
      });
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error);
      throw refuse('zip', `unreadable (${why})`, 'be a whole zip file', 'Have it sent again.');
    }
  };
  const names: string[] = [];
  unpack((name) => {
    names.push(name);
    return false;
  });
  if (count > MOST_FILES) {
    throw refuse('zip', `${count} files`, `hold at most ${MOST_FILES}`, 'Zip one run folder only.');
  }
  const tops = names.flatMap((name) => (/(?:^|\/)front\.json$/u.test(name) ? [topOf(name)] : []));
  if (tops.length !== 1) {
    const found = tops.length === 0 ? 'no front.json' : `${tops.length} files front.json`;
    const remedy =
      tops.length === 0
        ? 'Zip the folder of a run that has ended.'
        : 'Zip one run folder, or give the front.json files themselves.';
    throw refuse('zip', found, 'hold one run with its front.json', remedy);
  }
  const [top] = tops;
  const paths = new Set(READ.map((name) => top + name));
  const unpacked = unpack((name) => paths.has(name));
  if (large.length > 0) {
    const found = large.map((info) => `${info.name} of ${info.originalSize} bytes`).join(', ');
    throw refuse('zip', found, `hold files of at most ${LARGEST} bytes`, 'Is it the right file?');
  }
  const text = (name: (typeof READ)[number]): string | null => {
    const content = unpacked[top + name];
    return content === undefined ? null : strFromU8(content);
  };
  return {
    'run.json': text('run.json'),
    'brief.json': text('brief.json'),
    'front.json': text('front.json'),
    'history.jsonl': text('history.jsonl'),
    'notes.json': text('notes.json'),
    'verify.json': text('verify.json'),
  };
}

function topOf(name: string): string {
  return name.slice(0, name.lastIndexOf('/') + 1);
}
