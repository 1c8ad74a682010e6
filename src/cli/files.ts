/** Reading the files a command is given. */
import { readFile, stat } from 'node:fs/promises';
import { RunError } from '../brief/index.ts';

/** Largest file taken: far above any honest brief or design, far below what would exhaust memory. */
const LARGEST_BYTES = 200_000_000;

const TROUBLES: Readonly<Partial<Record<string, string>>> = {
  ENOENT: 'there is no such file',
  ENOTDIR: 'there is no such file',
  EISDIR: 'it is a folder, not a file',
};

/** @throws RunError when there is no such file or it cannot be read. */
export async function readText(path: string): Promise<string> {
  return (await fileBytes(path)).toString('utf8');
}

/** @throws RunError when there is no such file or it cannot be read. */
export async function fileBytes(path: string): Promise<Buffer> {
  try {
    const { size } = await stat(path);
    if (size > LARGEST_BYTES) {
      const trouble = `has ${size} bytes, more than the ${LARGEST_BYTES} that are read`;
      throw new RunError('too-large', path, trouble, 'Is it the right file?');
    }
    return await readFile(path);
  } catch (error) {
    if (error instanceof RunError) throw error;
    const code = error instanceof Error && 'code' in error ? String(error.code) : 'unknown';
    const trouble = TROUBLES[code] ?? `cannot be read (${code})`;
    throw new RunError('unreadable', path, trouble, 'Check the path and its permissions.', error);
  }
}
