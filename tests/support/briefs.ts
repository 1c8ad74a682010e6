/** Briefs for tests: the least valid one, with parts put over it. */
import { readBrief } from '../../src/brief/index.ts';
import type { Brief, BriefInput, Fault } from '../../src/brief/index.ts';

/** The least valid brief as written: a round plate of 80 mm, 10 mm thick, at 20 m3/h. */
export function briefInput(): BriefInput {
  return {
    format: 'anfract-brief',
    version: 1,
    plate: { outline: { kind: 'round', diameter_mm: 80 }, thickness_mm: 10 },
    air: { supply: { kind: 'flow', flow_m3_per_h: 20 } },
  };
}

/** The least valid brief with the value at a dotted path replaced; `undefined` removes the key. */
export function briefWith(changes: Readonly<Record<string, unknown>>): unknown {
  const root: Record<string, unknown> = JSON.parse(JSON.stringify(briefInput()));
  for (const [path, value] of Object.entries(changes)) {
    const steps = path.split('.');
    const last = steps.pop() ?? '';
    let here = root;
    for (const step of steps) {
      const next = here[step];
      const child: Record<string, unknown> =
        typeof next === 'object' && next !== null && !Array.isArray(next)
          ? Object.fromEntries(Object.entries(next))
          : {};
      here[step] = child;
      here = child;
    }
    if (value === undefined) delete here[last];
    else here[last] = value;
  }
  return root;
}

/** A checked brief. */
export function aBrief(changes: Readonly<Record<string, unknown>> = {}): Brief {
  const read = readBrief(briefWith(changes));
  if (!read.ok) throw new Error(read.faults.map((fault) => fault.message).join('\n'));
  return read.brief;
}

/** Faults of the least brief with changes; none when it is valid. */
export function faultsWith(changes: Readonly<Record<string, unknown>>): readonly Fault[] {
  const read = readBrief(briefWith(changes));
  return read.ok ? [] : read.faults;
}
