/** The small brief as a file. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { smallBrief } from './small-brief.ts';

/** Writes brief.json into a folder; gives its path. */
export function writeSmallBrief(
  folder: string,
  changes: Parameters<typeof smallBrief>[0] = {},
): string {
  const path = join(folder, 'brief.json');
  writeFileSync(path, JSON.stringify(smallBrief(changes)));
  return path;
}
