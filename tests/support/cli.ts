/** Runs the built command line in a folder of its own. */
import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { onTestFinished } from 'vitest';

/** Another build than the usual one is tried with ANFRACT_DIST=folder. */
const DIST = resolve(import.meta.dirname, '../..', process.env.ANFRACT_DIST ?? 'dist');
export const MAIN = join(DIST, 'src/cli/main.js');
/** Folder of the built page. */
export const PAGE_FOLDER = join(DIST, 'page');

export interface Ended {
  readonly code: number | null;
  readonly signal: NodeJS.Signals | null;
  readonly stdout: string;
  readonly stderr: string;
}

/** An empty folder that goes with the test. */
export function aFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'anfract-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

export interface Running {
  readonly ended: Promise<Ended>;
  kill(signal: NodeJS.Signals): void;
}

export function start(cwd: string, args: readonly string[]): Running {
  const child = spawn(process.execPath, [MAIN, ...args], {
    cwd,
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let stdout = '';
  let stderr = '';
  child.stdout.setEncoding('utf8').on('data', (text: string) => (stdout += text));
  child.stderr.setEncoding('utf8').on('data', (text: string) => (stderr += text));
  const ended = new Promise<Ended>((done) => {
    child.once('close', (code, signal) => done({ code, signal, stdout, stderr }));
  });
  return { ended, kill: (signal) => void child.kill(signal) };
}

export function anfract(cwd: string, ...args: string[]): Promise<Ended> {
  return start(cwd, args).ended;
}
