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

export interface FrontService {
  /** Opens a file from anybody. @throws InputError. */
  openFile(bytes: Uint8Array, where: string): Opened;
  /** Opens the texts of a run folder. @throws InputError. */
  openRun(texts: Partial<RunTexts>, where: string): OpenedFront;
  history(text: string, where: string): readonly HistoryEntry[];
  digest(front: Front): string;
  compare(fronts: readonly ComparedFront[], by: readonly string[]): Compared;
  attainment(fronts: readonly ComparedFront[], x: string, y: string): AttainmentSurface[];
  frontText(front: Front, form: FrontForm): string;
  /** The report as the terminal writes it. @param wasmUrl address of the mesh kernel. */
  report(front: Front, ids: readonly string[], wasmUrl: string): Promise<string>;
  notesText(front: Front, designs: readonly DesignNote[]): string;
  /** The run folder as a zip. */
  zip(
    folder: string,
    run: Omit<ZippedRun, 'checkpoint'>,
    checkpoint: Checkpoint | null,
  ): Uint8Array;
}

export function createFrontService(): FrontService {
  return {
    openFile,
    openRun: openRunTexts,
    history: historyEntries,
    digest: frontDigest,
    compare(fronts, by) {
      const common = commonMeasures(fronts);
      try {
        return { common, found: compareFronts(fronts, by), why: null };
      } catch (error) {
        if (!(error instanceof InputError)) throw error;
        const why = error.faults.map(({ message }) => message).join(' ');
        return { common, found: null, why };
      }
    },
    attainment: attainmentOf,
    frontText,
    async report(front, ids, wasmUrl) {
      await loadSolids(wasmUrl);
      return frontReport(front, ids);
    },
    notesText,
    zip(folder, run, checkpoint) {
      const text = checkpoint === null ? null : writeCheckpointFile(checkpoint);
      const bytes = runZip(folder, { ...run, checkpoint: text });
      return transfer(bytes, [bytes.buffer]);
    },
  };
}
