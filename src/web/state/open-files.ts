/** Files into the page: fronts, zips, run folders, notes; each may come from anybody. */
import { signal } from '@preact/signals';
import { transfer } from 'comlink';
import type { Front, RunTexts } from '../../engine/index.ts';
import type { Shelved } from '../../../workers/front-service.ts';
import { desk } from './desk.ts';
import { fronts, putFront } from './fronts.ts';
import type { LoadedFront } from './fronts.ts';
import { tryLink } from './link.ts';
import { recallNotes, takeNotes } from './notes.ts';
import { wordsOf } from './notices.ts';

/** What could not be opened, or not wholly. */
interface OpenFault {
  readonly id: number;
  readonly name: string;
  readonly words: string;
}

export const openFaults = signal<readonly OpenFault[]>([]);
/** Names of files that are being read. */
export const opening = signal<readonly string[]>([]);
let next = 1;

/** Largest file that is read at all [bytes]; the worker holds to the same. */
const LARGEST = 200_000_000;
/** Most lines of a message: a file with thousands of faults is wrong in the first ones too. */
const MOST_LINES = 6;

/** A single file, or the files of a run folder by name. */
export type Openable =
  | { readonly kind: 'file'; readonly file: File }
  | { readonly kind: 'run'; readonly name: string; readonly files: ReadonlyMap<string, File> };

const RUN_TEXTS = ['run.json', 'front.json', 'history.jsonl', 'notes.json', 'verify.json'] as const;

export function dismissFault(id: number): void {
  openFaults.value = openFaults.value.filter((fault) => fault.id !== id);
}

function complain(name: string, words: string): void {
  const own = words.startsWith(`${name}: `) ? words.slice(name.length + 2) : words;
  const lines = own.split('\n');
  const shown = lines.slice(0, MOST_LINES).join('\n');
  const more = lines.length - MOST_LINES;
  const text = more > 0 ? `${shown}\n... and ${more} more.` : shown;
  openFaults.value = [...openFaults.value, { id: next++, name, words: text }];
}

/** Opens files one after the other; notes last, when their fronts are there. */
export async function openAll(items: readonly Openable[]): Promise<void> {
  const isNotes = (item: Openable): boolean =>
    item.kind === 'file' && /notes[^/]*\.json$/iu.test(item.file.name);
  const ordered = [...items.filter((item) => !isNotes(item)), ...items.filter(isNotes)];
  const nameOf = (item: Openable): string => (item.kind === 'file' ? item.file.name : item.name);
  opening.value = [...opening.value, ...ordered.map(nameOf)];
  for (const item of ordered) {
    const name = nameOf(item);
    try {
      await (item.kind === 'file' ? openFile(item.file) : openRun(item.name, item.files));
    } catch (error) {
      complain(name, wordsOf(error));
    }
    opening.value = opening.value.filter((other) => other !== name);
  }
}

async function openFile(file: File): Promise<void> {
  if (file.size > LARGEST) {
    throw new Error(`It has ${file.size} bytes; at most ${LARGEST} are read.`);
  }
  const bytes = new Uint8Array(await file.arrayBuffer());
  const opened = await desk().openFile(transfer(bytes, [bytes.buffer]), file.name);
  if (opened.kind === 'notes') takeNotes(opened.notes);
  else putOpened(file.name, await unshelved(opened));
}

async function openRun(name: string, files: ReadonlyMap<string, File>): Promise<void> {
  const texts: Partial<Record<keyof RunTexts, string>> = {};
  for (const part of RUN_TEXTS) {
    const file = files.get(part);
    if (file === undefined) continue;
    if (file.size > LARGEST) throw new Error(`${part} has ${file.size} bytes, more than are read.`);
    texts[part] = await file.text();
  }
  putOpened(name, await unshelved(await desk().openRun(texts, name)));
}

/** An opened front with all its designs, fetched a few at a time so that the page stays fluid. */
export async function unshelved(opened: Shelved): Promise<Shelved> {
  const designs = [...opened.front.designs];
  while (designs.length < opened.total) {
    designs.push(...(await desk().designs(opened.shelf, designs.length)));
  }
  return { ...opened, front: { ...opened.front, designs } };
}

/** Puts an opened front on the page; the same file again renews it. */
export function putOpened(name: string, opened: Shelved): LoadedFront {
  const { front, digest, record, history, flows, shelf } = opened;
  const id = `f-${digest.slice(0, 16)}`;
  const known = fronts.value.find((loaded) => loaded.id === id);
  const own = known?.name ?? ownName(name, front);
  const loaded = { id, name: own, front, digest, record, history, flows, shelf };
  putFront(loaded);
  void recallNotes(loaded);
  if (opened.notes !== null) takeNotes(opened.notes);
  for (const remark of opened.remarks) complain(name, remark);
  tryLink();
  return loaded;
}

/**
 * A name for lists that no open front has: the file's without its ending, or the brief's for a plain
 * front.json; cut where somebody made it very long.
 */
function ownName(name: string, front: Front): string {
  const file = name.replace(/(?:\.front)?\.(?:json|zip)$/iu, '');
  const plain = /^(?:front|checkpoint)(?: ?\(\d+\))?$/iu.test(file) ? front.brief.name : file;
  const short = plain.length > 50 ? `${plain.slice(0, 47)}...` : plain;
  const taken = new Set(fronts.value.map((loaded) => loaded.name));
  let own = short;
  for (let k = 2; taken.has(own); k++) own = `${short} (${k})`;
  return own;
}
