/** The front file. */
import { InputError, fault, headFault } from '../brief/index.ts';
import type { Fault } from '../brief/index.ts';
import type { Front } from '../engine/index.ts';
import { FRONT_FORMAT, FRONT_VERSION, frontSchema } from './front-schema.ts';
import { innerBrief } from './inner-brief.ts';
import { writeJson } from './json.ts';
import { readJson } from './json-text.ts';
import { throughSchema } from './through-schema.ts';

const REWRITE = 'The file was changed by hand or damaged: have it written again from the run.';

/** Lists that must be as long as another one. */
function lengthFaults(front: Omit<Front, 'brief'>): Fault[] {
  const genes = front.genes.length;
  const measures = front.measures.length;
  const faults: Fault[] = [];
  const hold = (path: string, list: readonly unknown[], wanted: number, of: string): void => {
    if (list.length === wanted) return;
    const found = `a list of ${list.length} entries`;
    faults.push(fault(path, found, `have ${wanted}, as many as ${of}`, REWRITE));
  };
  const seen = new Set<string>();
  for (const [i, design] of front.designs.entries()) {
    const path = `designs[${i}]`;
    hold(`${path}.genes`, design.genes, genes, 'genes');
    hold(`${path}.readings`, design.readings, measures, 'measures');
    hold(`${path}.refinedChange`, design.refinedChange, measures, 'measures');
    if (seen.has(design.id)) {
      faults.push(fault(`${path}.id`, `'${design.id}' again`, 'differ from all others', REWRITE));
    }
    seen.add(design.id);
  }
  for (const [i, start] of front.starts.entries()) {
    if (start.failure === null) hold(`starts[${i}].readings`, start.readings, measures, 'measures');
  }
  const ids = new Set(front.measures.map((measure) => measure.id));
  for (const [i, id] of front.objectives.entries()) {
    if (ids.has(id)) continue;
    faults.push(fault(`objectives[${i}]`, `'${id}'`, 'be one of the measures listed', REWRITE));
  }
  return faults;
}

/**
 * Reads and checks the text of a front file.
 *
 * @param where name of the file, for messages.
 * @throws InputError with every fault found.
 */
export function readFrontFile(text: string, where = 'front file'): Front {
  const value = readJson(text, where);
  const head = headFault(value, FRONT_FORMAT, FRONT_VERSION);
  if (head !== null) throw new InputError([head], where);
  const read = throughSchema(frontSchema, value, where);
  const { brief: written, ...rest } = read;
  const brief = innerBrief(written);
  const faults = lengthFaults(rest);
  if (!('format' in brief)) throw new InputError([...brief, ...faults], where);
  if (faults.length > 0) throw new InputError(faults, where);
  const { format, version, anfract, ...body } = rest;
  return { format, version, anfract, brief, ...body };
}

/**
 * Writes a front; the same front always gives the same bytes.
 *
 * @throws RangeError naming the place of a number that is not finite.
 */
export function writeFrontFile(front: Front): string {
  return writeJson(front, { negativeZero: 'zero' });
}
