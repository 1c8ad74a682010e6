export { createRun, openRun } from './runs.ts';
export type { CreateRunOptions, OpenRunOptions } from './runs.ts';
export { RunFolder } from './run-folder.ts';
export type { Shelf } from './run-folder.ts';
export type { FoundCheckpoint } from './checkpoints.ts';
export type { RunRecord } from '../formats/index.ts';
export { DISK, codeOf, makeFolder } from './disk.ts';
export type { Disk } from './disk.ts';
export { writeWhole } from './write-whole.ts';
