/** Files with a front in them, in and out, for those who call the engine only. */
import { InputError, fault } from '../brief/index.ts';
import {
  VERIFY_HEADINGS,
  VERIFY_METHOD,
  frontDigest,
  openRunZip,
  readCheckpointFile,
  readFrontFile,
  readHistoryFile,
  readNotesFile,
  readRunRecord,
  readVerifyFile,
  verdictLines,
  verifyRow,
  writeBriefFile,
  writeFrontCsv,
  writeFrontFile,
  writeNotesFile,
  writeRunRecord,
  writeRunZip,
} from '../formats/index.ts';
import type { DesignNote, Notes, RunTexts, VerifyCase } from '../formats/index.ts';
import { frontOf } from './evolve.ts';
import type { Front, HistoryEntry } from './model.ts';
import { designOf } from './rebuild.ts';
import { frontPicture } from './report.ts';
import { casesFor } from './verify-cases.ts';
import { PARTS } from './version.ts';

/** Largest file that is read [bytes]: far above any honest front. */
export const LARGEST_FRONT_FILE = 200_000_000;

export interface OpenedFront {
  readonly kind: 'front';
  readonly front: Front;
  /** SHA-256 of the front file, see `frontDigest`. */
  readonly digest: string;
  readonly notes: Notes | null;
  /** Texts of its run folder, where they came along: run.json and history.jsonl. */
  readonly record: string | null;
  readonly history: string | null;
  /** Flows computed for its designs, in words. */
  readonly flows: readonly FlowWords[];
  /** What could not be read beside the front, in words. */
  readonly remarks: readonly string[];
}

/** What computed flows say of one design: a table, and which number to trust. */
export interface FlowWords {
  readonly design: string;
  readonly headings: readonly string[];
  readonly rows: readonly (readonly string[])[];
  readonly verdicts: readonly string[];
  readonly method: string;
}

export type Opened = OpenedFront | { readonly kind: 'notes'; readonly notes: Notes };

/**
 * Opens a file that may come from anybody: a front, a zip of a run folder, a checkpoint, or notes.
 *
 * @param where name of the file, for messages.
 * @throws InputError saying what is wrong with it and where.
 */
export function openFile(bytes: Uint8Array, where: string): Opened {
  if (bytes.length > LARGEST_FRONT_FILE) {
    const allowed = `have at most ${LARGEST_FRONT_FILE}`;
    const found = `${bytes.length} bytes`;
    throw new InputError([fault('file', found, allowed, 'Is it the right file?')], where);
  }
  // "PK": zip files begin with it, no JSON does.
  if (bytes[0] === 0x50 && bytes[1] === 0x4b) return openRunTexts(openRunZip(bytes, where), where);
  const text = new TextDecoder().decode(bytes);
  const format = /"format"\s*:\s*"([a-z-]{1,40})"/u.exec(text.slice(0, 400))?.[1];
  if (format === 'anfract-notes') return { kind: 'notes', notes: readNotesFile(text, where) };
  if (format === 'anfract-checkpoint') return openCheckpoint(text, where);
  return openRunTexts({ ...NO_TEXTS, 'front.json': text }, where);
}

const NO_TEXTS: RunTexts = {
  'run.json': null,
  'brief.json': null,
  'front.json': null,
  'history.jsonl': null,
  'notes.json': null,
  'verify.json': null,
};

/**
 * Opens the texts of a run folder. What lies broken beside a sound front costs a remark, not the front.
 *
 * @throws InputError when there is no front or it cannot be read.
 */
export function openRunTexts(texts: Partial<RunTexts>, where: string): OpenedFront {
  const { 'front.json': text = null, 'notes.json': noted = null } = texts;
  const { 'verify.json': verified = null } = texts;
  if (text === null) {
    const remedy = 'The run has not ended yet: let it, or resume it.';
    throw new InputError([fault('front.json', 'missing', 'be there', remedy)], where);
  }
  const front = readFrontFile(text, where);
  const digest = frontDigest(front);
  const remarks: string[] = [];
  const spared = <T>(read: () => T): T | null => {
    try {
      return read();
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      remarks.push(error.message);
      return null;
    }
  };
  const notes = noted === null ? null : spared(() => readNotesFile(noted, `${where}, notes.json`));
  if (notes !== null && notes.front !== digest) {
    remarks.push(`${where}: its notes.json belongs to another front and is left out.`);
  }
  const { 'run.json': record = null, 'history.jsonl': history = null } = texts;
  return {
    kind: 'front',
    front,
    digest,
    notes: notes?.front === digest ? notes : null,
    record: record === null ? null : spared(() => (readRunRecord(record, where), record)),
    history: history === null ? null : spared(() => (readHistoryFile(history, where), history)),
    flows:
      verified === null
        ? []
        : (spared(() => flowsOf(front, readVerifyFile(verified, `${where}, verify.json`))) ?? []),
    remarks,
  };
}

/** Flows of the plates that bear their ids still. */
function flowsOf(front: Front, all: readonly VerifyCase[]): FlowWords[] {
  return front.designs.flatMap((design) => {
    if (!all.some((entry) => entry.design === design.id)) return [];
    const cases = casesFor(design.id, front.brief, designOf(front, design), all);
    if (cases.length === 0) return [];
    const rows = cases.map(verifyRow);
    const verdicts = verdictLines(cases);
    return [
      { design: design.id, headings: VERIFY_HEADINGS, rows, verdicts, method: VERIFY_METHOD },
    ];
  });
}

function openCheckpoint(text: string, where: string): OpenedFront {
  const front = frontOfState(text, where);
  return { ...openRunTexts({ 'front.json': writeFrontFile(front) }, where), front };
}

/** @throws InputError also where the state inside, which only the program itself checks, is broken. */
function frontOfState(text: string, where: string): Front {
  const checkpoint = readCheckpointFile(text, where);
  try {
    return frontOf(checkpoint);
  } catch (error) {
    if (error instanceof InputError) throw error;
    const why = error instanceof Error ? error.message : String(error);
    const remedy = 'It was made by another version, or changed: open the front.json of its run.';
    throw new InputError([fault('archive', why, 'be the state of a run', remedy)], where);
  }
}

/** Generations of a history file; a last line that is only half written is left out. */
export function historyEntries(text: string, where: string): readonly HistoryEntry[] {
  return readHistoryFile(text, where).entries;
}

/** Forms a front can be taken away in, besides report and zip. */
export type FrontForm = 'json' | 'csv' | 'picture';

/** A front as text, the same that the terminal writes. @throws RangeError for a picture of nothing. */
export function frontText(front: Front, form: FrontForm): string {
  switch (form) {
    case 'json':
      return writeFrontFile(front);
    case 'csv':
      return writeFrontCsv(front);
    case 'picture': {
      const picture = frontPicture(front);
      if (picture === null) throw new RangeError('A picture needs two objectives and a design.');
      return picture.svg;
    }
    default: {
      const never: never = form;
      return never;
    }
  }
}

/** The notes file of a front. @param designs notes by design id. */
export function notesText(front: Front, designs: readonly DesignNote[]): string {
  return writeNotesFile({ front: frontDigest(front), designs });
}

export interface ZippedRun {
  readonly front: Front;
  readonly designs: readonly DesignNote[];
  /** run.json and history.jsonl as they came; made anew where null. */
  readonly record: string | null;
  readonly history: string | null;
  /** Last checkpoint, with which the terminal can go on; null without one. */
  readonly checkpoint: string | null;
  /** For a record made anew: what it ran on, and an ISO 8601 time. */
  readonly runtime: string;
  readonly when: string;
}

/**
 * The run folder of a front as a zip. Unpacked, it is a run folder of the terminal.
 *
 * @param folder plain name of the folder within.
 */
export function runZip(folder: string, run: ZippedRun): Uint8Array {
  const { front } = run;
  const picture = frontPicture(front);
  const notes = run.designs.some(({ star, note }) => star || note !== '');
  return writeRunZip(folder, {
    'run.json': run.record ?? newRecord(run),
    'brief.json': writeBriefFile(front.brief),
    'front.json': writeFrontFile(front),
    'front.csv': writeFrontCsv(front),
    'history.jsonl': run.history ?? '',
    ...(run.checkpoint === null ? {} : { 'checkpoint.json': run.checkpoint }),
    ...(notes ? { 'notes.json': notesText(front, run.designs) } : {}),
    ...(picture === null ? {} : { 'pictures/front.svg': picture.svg }),
  });
}

function newRecord({ front, runtime, when }: ZippedRun): string {
  return writeRunRecord({
    anfract: front.anfract,
    parts: PARTS,
    seed: front.brief.search.seed,
    runtime,
    platform: 'browser',
    started: when,
    updated: when,
  });
}
