/** The brief that other files carry inside. */
import { fault, readBrief } from '../brief/index.ts';
import type { Brief, Fault } from '../brief/index.ts';

/** The brief inside another file; its faults get the path `brief.`. */
export function innerBrief(value: unknown): Brief | readonly Fault[] {
  const read = readBrief(value);
  if (read.ok) return read.brief;
  return read.faults.map((entry) =>
    fault(
      entry.path === '' ? 'brief' : `brief.${entry.path}`,
      entry.found,
      entry.allowed,
      entry.remedy,
    ),
  );
}
