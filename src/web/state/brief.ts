/** The brief being written: as its author wrote it, and what the check says of it. */
import { computed, effect, signal } from '@preact/signals';
import type { Brief, BriefExplained } from '../../engine/index.ts';
import type { Checked } from '../../../workers/desk-service.ts';
import { findDraft, keepDraft } from '../keep/draft.ts';
import { desk } from './desk.ts';
import { tell, wordsOf } from './notices.ts';

/** A brief as plain JSON: comments are keys that begin with two slashes. */
export type Written = Readonly<Record<string, unknown>>;

const FORMAT = 'anfract-brief';

/** The invented briefs one may begin with: files beside the page. */
export const EXAMPLES: readonly { readonly label: string; readonly file: string }[] = [
  { label: 'flour-dust trap for an 80 mm fan', file: 'flour-trap' },
  { label: 'light-tight vent', file: 'light-tight' },
  { label: 'plain finger guard', file: 'finger-guard' },
];

/** The least a brief holds: a plate of the size of a common fan, and air through it. */
const EMPTY: Written = {
  format: FORMAT,
  version: 1,
  name: 'new brief',
  plate: {
    outline: { kind: 'rectangle', width_mm: 84, height_mm: 84, cornerRadius_mm: 5 },
    thickness_mm: { min_mm: 8, max_mm: 20 },
  },
  air: { supply: { kind: 'flow', flow_m3_per_h: 20 } },
};

export const written = signal<Written>({});
/** The brief that was replaced last by an example or a file, to be had back. */
export const replaced = signal<Written | null>(null);

/** Puts a whole brief in place of the one being written, which can be had back. */
function replaceWith(next: Written): void {
  replaced.value = Object.keys(written.value).length === 0 ? null : written.value;
  written.value = next;
}

/** Brings the replaced brief back; the one at hand is then the replaced one. */
export function bringBack(): void {
  if (replaced.value !== null) replaceWith(replaced.value);
}

/** Begins with the draft kept from before, else with the first example. */
export async function beginBrief(): Promise<void> {
  const begun = findDraft() ?? (await fetchExample(EXAMPLES[0].file));
  // A file opened in the meantime goes first.
  if (begun !== null && Object.keys(written.value).length === 0) written.value = begun;
}

/** Begins anew; what was written before can be brought back. */
export function takeEmpty(): void {
  replaceWith(EMPTY);
}

/** Begins with an example; what was written before can be brought back. */
export async function takeExample(file: string): Promise<void> {
  const example = await fetchExample(file);
  if (example !== null) replaceWith(example);
}

async function fetchExample(file: string): Promise<Written | null> {
  try {
    const answer = await fetch(`./examples/${file}.json`);
    if (!answer.ok) throw new Error(`the server answers ${answer.status}`);
    return await answer.json();
  } catch (error) {
    tell('fault', `The example could not be fetched: ${wordsOf(error)}.`);
    return null;
  }
}

/** Takes a brief from a file that may come from anybody: it is checked like any other. */
export function takeText(name: string, text: string): void {
  try {
    const value: unknown = JSON.parse(text);
    if (typeof value !== 'object' || value === null || Array.isArray(value)) {
      throw new TypeError('it is no JSON object');
    }
    if (!('format' in value) || value.format !== FORMAT) {
      throw new TypeError(`its "format" is not "${FORMAT}"`);
    }
    replaceWith(value);
  } catch (error) {
    tell('fault', `${name} is no brief: ${wordsOf(error)}.`);
  }
}

export const checked = signal<Checked | null>(null);
const checkedOf = signal<Written | null>(null);
/** Whether the check is of the brief as it stands, and not of what stood there a moment ago. */
export const isFresh = computed(() => checkedOf.value === written.value);

/** The brief as checked, or null while it has faults. */
export function soundBrief(): Brief | null {
  const result = checked.value;
  return result?.ok === true && isFresh.value ? result.brief : null;
}

export function explained(): BriefExplained | null {
  const result = checked.value;
  return result?.ok === true ? result.explained : null;
}

/** Milliseconds without a change before the brief is checked again. */
const PAUSE_MS = 150;
let timer = 0;
let asked = 0;

/** Checks the brief again whenever it changes; only the answer to the newest question counts. */
export function watchBrief(): () => void {
  return effect(() => {
    const draft = written.value;
    if (Object.keys(draft).length === 0) return;
    clearTimeout(timer);
    timer = window.setTimeout(() => {
      const mine = ++asked;
      keepDraft(draft);
      desk()
        .check(draft)
        .then((result) => {
          if (mine !== asked) return;
          checked.value = result;
          checkedOf.value = draft;
        })
        .catch((error: unknown) => tell('fault', wordsOf(error)));
    }, PAUSE_MS);
  });
}

/** A fault of the brief at hand. */
interface BriefFault {
  readonly path: string;
  readonly message: string;
}

/** All faults, worded for a form. */
export const faults = computed<readonly BriefFault[]>(() => {
  const result = checked.value;
  if (result === null || result.ok) return [];
  return result.faults.map(({ path, message }) => ({
    path,
    // A file has quotes, a field has not.
    message: message.replace(
      'Write the number without quotes.',
      'Write a plain number, such as 2.5.',
    ),
  }));
});

/** Words of the faults right at a place. */
export function faultsAt(path: string): readonly string[] {
  return faults.value.filter((fault) => fault.path === path).map((fault) => fault.message);
}

/** Faults at a place and at everything in it. */
export function faultsUnder(path: string): readonly BriefFault[] {
  return faults.value.filter(
    (fault) =>
      fault.path === path ||
      (fault.path.startsWith(path) && /^[.[]/u.test(fault.path.slice(path.length))),
  );
}

/** The value at a place of the brief as written; undefined where it is left out. */
export function valueAt(path: readonly (string | number)[]): unknown {
  let here: unknown = written.value;
  for (const key of path) {
    if (typeof here !== 'object' || here === null) return undefined;
    here = (here as Record<string | number, unknown>)[key];
  }
  return here;
}

/** Puts a value at a place; undefined removes the key. */
export function putAt(path: readonly (string | number)[], value: unknown): void {
  written.value = changed(written.value, path, value) as Written;
}

function changed(node: unknown, path: readonly (string | number)[], value: unknown): unknown {
  if (path.length === 0) return value;
  const [key, ...rest] = path;
  if (Array.isArray(node) && typeof key === 'number') {
    return node.map((entry: unknown, i) => (i === key ? changed(entry, rest, value) : entry));
  }
  const record = typeof node === 'object' && node !== null ? (node as Written) : {};
  const next = { ...record, [key]: changed(record[key], rest, value) };
  if (next[key] === undefined) delete next[key];
  return next;
}
