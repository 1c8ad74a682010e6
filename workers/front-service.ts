/** Questions of the page about whole fronts: opened, compared, handed over; off its own thread. */
import { transfer } from 'comlink';
import {
  InputError,
  attainmentOf,
  commonMeasures,
  compareFronts,
  frontDigest,
  frontReport,
  frontText,
  historyEntries,
  loadSolids,
  notesText,
  openFile,
  openRunTexts,
  runZip,
  writeCheckpointFile,
} from '../src/engine/index.ts';
import type {
  AttainmentSurface,
  Checkpoint,
  ComparedFront,
  Comparison,
  DesignNote,
  Front,
  FrontDesign,
  FrontForm,
  HistoryEntry,
  MeasureInfo,
  Opened,
  OpenedFront,
  RunTexts,
  ZippedRun,
} from '../src/engine/index.ts';

/** A comparison, or why there is none. */
export interface Compared {
  readonly common: readonly MeasureInfo[];
  readonly found: Comparison | null;
  readonly why: string | null;
}

/** A front that the desk has already, by the name it gave it; or the front itself. */
type FrontRef = string | Front;

/** An opened front without most of its designs: thousands in one message would hold the page up. */
export interface Shelved extends OpenedFront {
  readonly shelf: string;
  /** Designs in all; those beyond the first come by `designs`. */
  readonly total: number;
}

/** A front to compare, by its name on the shelf. */
export interface ShelvedFront {
  readonly name: string;
  readonly shelf: string;
}

type AnyCompared = ComparedFront | ShelvedFront;

export interface FrontService {
  /** Opens a file from anybody, and keeps its front on the shelf. @throws InputError. */
  openFile(bytes: Uint8Array, where: string): Shelved | Exclude<Opened, OpenedFront>;
  /** Opens the texts of a run folder. @throws InputError. */
  openRun(texts: Partial<RunTexts>, where: string): Shelved;
  /** Some designs of a front on the shelf. */
  designs(shelf: string, from: number): readonly FrontDesign[];
  /** Takes a front off the shelf. */
  forget(shelf: string): void;
  history(text: string, where: string): readonly HistoryEntry[];
  digest(front: FrontRef): string;
  compare(fronts: readonly AnyCompared[], by: readonly string[]): Compared;
  attainment(fronts: readonly AnyCompared[], x: string, y: string): AttainmentSurface[];
  frontText(front: FrontRef, form: FrontForm): string;
  /** The report as the terminal writes it. @param wasmUrl address of the mesh kernel. */
  report(front: FrontRef, ids: readonly string[], wasmUrl: string): Promise<string>;
  notesText(front: FrontRef, designs: readonly DesignNote[]): string;
  /** The run folder as a zip. */
  zip(
    folder: string,
    front: FrontRef,
    run: Omit<ZippedRun, 'checkpoint' | 'front'>,
    checkpoint: Checkpoint | null,
  ): Uint8Array;
}

/** Designs in one message: some milliseconds to unpack. */
const SLICE = 120;

export function createFrontService(): FrontService {
  const shelves = new Map<string, Front>();
  const put = (opened: OpenedFront): Shelved => {
    const { front, digest } = opened;
    shelves.set(digest, front);
    const first = { ...front, designs: front.designs.slice(0, SLICE) };
    return { ...opened, front: first, shelf: digest, total: front.designs.length };
  };
  const find = (ref: FrontRef): Front => {
    if (typeof ref !== 'string') return ref;
    const front = shelves.get(ref);
    if (front === undefined) throw new Error('This front was closed.');
    return front;
  };
  const wholeOf = (fronts: readonly AnyCompared[]): ComparedFront[] =>
    fronts.map((one) => ('shelf' in one ? { ...find(one.shelf), name: one.name } : one));
  return {
    openFile(bytes, where) {
      const opened = openFile(bytes, where);
      return opened.kind === 'front' ? put(opened) : opened;
    },
    openRun: (texts, where) => put(openRunTexts(texts, where)),
    designs: (shelf, from) => find(shelf).designs.slice(from, from + SLICE),
    forget: (shelf) => void shelves.delete(shelf),
    history: historyEntries,
    digest: (front) => frontDigest(find(front)),
    compare(refs, by) {
      const fronts = wholeOf(refs);
      const common = commonMeasures(fronts);
      try {
        return { common, found: compareFronts(fronts, by), why: null };
      } catch (error) {
        if (!(error instanceof InputError)) throw error;
        const why = error.faults.map(({ message }) => message).join(' ');
        return { common, found: null, why };
      }
    },
    attainment: (fronts, x, y) => attainmentOf(wholeOf(fronts), x, y),
    frontText: (front, form) => frontText(find(front), form),
    async report(front, ids, wasmUrl) {
      await loadSolids(wasmUrl);
      return frontReport(find(front), ids);
    },
    notesText: (front, designs) => notesText(find(front), designs),
    zip(folder, front, run, checkpoint) {
      const text = checkpoint === null ? null : writeCheckpointFile(checkpoint);
      const bytes = runZip(folder, { ...run, front: find(front), checkpoint: text });
      return transfer(bytes, [bytes.buffer]);
    },
  };
}
