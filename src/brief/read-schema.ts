/** Reads outside data through a schema and reports all its faults in plain words. */
import type * as z from 'zod';
import { withoutComments } from './comments.ts';
import { fault, placeText, shown } from './faults.ts';
import type { Fault, Place } from './faults.ts';
import { nearestName } from './nearest.ts';
import { allowedText, branchFor, isRecord, nodeAt, schemaNode } from './schema-node.ts';
import type { SchemaNode } from './schema-node.ts';

/** A fault and the place it spoils; a mistyped key also spoils the place it was meant for. */
export interface SchemaFault {
  readonly fault: Fault;
  readonly places: readonly Place[];
}

export type SchemaRead<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly faults: readonly SchemaFault[] };

/** More faults than this in one input are counted, not listed. */
const FAULT_LIMIT = 100;

function valueAt(value: unknown, place: Place): unknown {
  let here = value;
  for (const step of place) {
    if (typeof step === 'number') here = Array.isArray(here) ? here[step] : undefined;
    else here = isRecord(here) ? here[step] : undefined;
  }
  return here;
}

/** Places of a key anywhere in a schema, for a key written one level off. */
function placesOf(node: SchemaNode, key: string, at: string): string[] {
  const found: string[] = [];
  for (const branch of node.anyOf ?? node.oneOf ?? [node]) {
    for (const [name, child] of Object.entries(branch.properties ?? {})) {
      const path = at === '' ? name : `${at}.${name}`;
      if (name === key) found.push(path);
      found.push(...placesOf(child, key, path));
    }
  }
  return found;
}

function unknownKey(root: SchemaNode, value: unknown, place: Place, key: string): SchemaFault {
  const node = branchFor(nodeAt(root, value, place) ?? root, valueAt(value, place));
  const keys = Object.keys(node.properties ?? {});
  const near = nearestName(key, keys);
  const elsewhere = near === null && key !== 'kind' ? placesOf(root, key, '') : [];
  const remedy =
    near !== null
      ? `Did you mean ${near}?`
      : elsewhere.length > 0
        ? `Did you mean ${elsewhere[0]}?`
        : 'Remove it, or begin its name with "//" to keep it as a comment.';
  const path = placeText([...place, key]);
  return {
    fault: fault(path, 'unknown', `be one of ${keys.join(', ')}`, remedy),
    places:
      near === null
        ? [[...place, key]]
        : [
            [...place, key],
            [...place, near],
          ],
  };
}

function remedyFor(node: SchemaNode | null, found: unknown): string {
  if (typeof found === 'number' && !Number.isFinite(found)) return 'Give a finite number.';
  const wantsNumber = [node, ...(node?.anyOf ?? [])].some(
    (entry) => entry?.type === 'number' || entry?.type === 'integer',
  );
  if (wantsNumber && typeof found === 'string') return 'Write the number without quotes.';
  if (typeof found === 'string' && node?.enum !== undefined) {
    const near = nearestName(found, node.enum.map(String));
    if (near !== null) return `Did you mean '${near}'?`;
  }
  const meaning = node?.remedy ?? node?.description ?? '';
  return meaning === '' ? 'Correct or remove this value.' : meaning;
}

function plainFault(root: SchemaNode, value: unknown, place: Place): SchemaFault {
  const found = valueAt(value, place);
  let node = nodeAt(root, value, place);
  if (node !== null && found !== undefined) {
    const branch = branchFor(node, found);
    node = { ...branch, ...(branch.description ? {} : { description: node.description ?? '' }) };
  }
  const allowed = node === null ? 'be given as the format says' : allowedText(node);
  return {
    fault: fault(placeText(place), shown(found), allowed, remedyFor(node, found)),
    places: [place],
  };
}

/** A discriminator that fits no branch: say which there are. */
function kindFault(root: SchemaNode, value: unknown, place: Place): SchemaFault {
  const parent = place.slice(0, -1);
  const union = nodeAt(root, value, parent);
  const kinds = (union?.oneOf ?? union?.anyOf ?? []).map(
    (branch) => branch.properties?.['kind']?.const,
  );
  const found = valueAt(value, place);
  const node: SchemaNode = { enum: kinds, description: union?.description ?? '' };
  return {
    fault: fault(placeText(place), shown(found), allowedText(node), remedyFor(node, found)),
    places: [parent],
  };
}

function explain(
  root: SchemaNode,
  value: unknown,
  issue: z.core.$ZodIssue,
  base: Place,
): SchemaFault[] {
  const place = [
    ...base,
    ...issue.path.map((step) => (typeof step === 'number' ? step : String(step))),
  ];
  if (issue.code === 'unrecognized_keys') {
    return issue.keys.map((key) => unknownKey(root, value, place, key));
  }
  if (issue.code === 'invalid_union') {
    if ('discriminator' in issue && issue.errors.length === 0)
      return [kindFault(root, value, place)];
    // The branch whose type fits has faults inside; the others fail at their root.
    const inside = issue.errors.filter((branch) =>
      branch.every((entry) => entry.path.length > 0 || entry.code !== 'invalid_type'),
    );
    if (inside.length === 1)
      return inside[0].flatMap((entry) => explain(root, value, entry, place));
  }
  return [plainFault(root, value, place)];
}

/** Leaves out "x is missing" where a mistyped x is already reported. */
function withoutEchoes(faults: readonly SchemaFault[]): SchemaFault[] {
  const meant = new Set(
    faults.flatMap((entry) => entry.places.slice(1).map((place) => placeText(place))),
  );
  return faults.filter((entry) => entry.fault.found !== 'missing' || !meant.has(entry.fault.path));
}

/** An issue with at most so many unknown keys as faults are listed. */
function short(issue: z.core.$ZodIssue): z.core.$ZodIssue {
  if (issue.code !== 'unrecognized_keys' || issue.keys.length <= FAULT_LIMIT) return issue;
  return { ...issue, keys: issue.keys.slice(0, FAULT_LIMIT) };
}

function countOf(issues: readonly z.core.$ZodIssue[]): number {
  let count = 0;
  for (const issue of issues) count += issue.code === 'unrecognized_keys' ? issue.keys.length : 1;
  return count;
}

export interface ReadSchemaOptions {
  /** Ignores keys that begin with "//"; true by default. Files that programs write have none. */
  readonly comments?: boolean;
}

/**
 * Reads a value through a schema.
 *
 * @param schema what is allowed; `meta({ remedy })` on a part gives its remedy.
 * @param value anything, also not from JSON.
 * @returns the value with its defaults, or every fault found.
 */
export function readSchema<T>(
  schema: z.ZodType<T>,
  value: unknown,
  options: ReadSchemaOptions = {},
): SchemaRead<T> {
  let plain = value;
  try {
    if (options.comments !== false) plain = withoutComments(value);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    const deep = fault('', error.message, 'be plain nested data', 'Use the form of the template.');
    return { ok: false, faults: [{ fault: deep, places: [[]] }] };
  }
  const parsed = schema.safeParse(plain);
  if (parsed.success) return { ok: true, value: parsed.data };
  const root = schemaNode(schema);
  const issues = parsed.error.issues.slice(0, FAULT_LIMIT).map(short);
  const faults = withoutEchoes(issues.flatMap((issue) => explain(root, plain, issue, [])));
  const more = countOf(parsed.error.issues) - countOf(issues);
  if (more > 0 || faults.length > FAULT_LIMIT) {
    const left = more + Math.max(0, faults.length - FAULT_LIMIT);
    const rest = fault(
      '',
      `wrong in ${left} more places`,
      'be free of faults',
      'Mend these first.',
    );
    faults.length = Math.min(faults.length, FAULT_LIMIT);
    faults.push({ fault: rest, places: [[]] });
  }
  return { ok: false, faults };
}

/**
 * Checks `format` and `version` before anything else is read, since a file of another kind or of a
 * newer version would only give misleading faults.
 *
 * @param value what was read.
 * @param format name the reader expects, such as `anfract-front`.
 * @param version newest version the reader knows.
 * @returns the one fault that matters, or null to go on.
 */
export function headFault(value: unknown, format: string, version: number): Fault | null {
  if (!isRecord(value)) {
    const allowed = `be an object whose format is '${format}'`;
    return fault('', shown(value), allowed, 'Check that the right file is given.');
  }
  const found = value['format'];
  if (typeof found === 'string' && found !== format && found.startsWith('anfract-')) {
    return fault('format', shown(found), `be '${format}'`, 'This is another kind of file.');
  }
  const written = value['version'];
  if (typeof written === 'number' && Number.isInteger(written) && written > version) {
    const allowed = `be at most ${version}`;
    const remedy = `The file was written by a newer anfract: use one that reads ${format} version ${written}.`;
    return fault('version', shown(written), allowed, remedy);
  }
  return null;
}
