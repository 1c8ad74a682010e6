/** Exit codes, and how an error becomes one. */
import { CommanderError } from 'commander';
import { InputError, RunError } from '../brief/index.ts';
import { VERSION } from '../engine/index.ts';
import { printable } from './terminal.ts';

export const EXIT = {
  done: 0,
  /** A fault in anfract itself. */
  bug: 1,
  /** The input can be mended by its author. */
  input: 2,
  /** Trouble outside: disk, worker, another process. */
  outside: 3,
  /** Stopped by the user after everything was saved. */
  interrupted: 130,
} as const;

/** Writes what went wrong to stderr and gives the exit code for it. */
export function reportError(error: unknown, json: boolean): number {
  const code = codeFor(error);
  if (json) {
    process.stderr.write(`${JSON.stringify(asJson(error))}\n`);
  } else if (code === EXIT.bug) {
    const detail = error instanceof Error ? (error.stack ?? error.message) : String(error);
    process.stderr.write(
      `anfract ${VERSION} failed in a way it should not. Please report this text and the input:\n${detail}\n`,
    );
  } else {
    process.stderr.write(`${printable(error instanceof Error ? error.message : String(error))}\n`);
  }
  return code;
}

function codeFor(error: unknown): number {
  if (error instanceof InputError || error instanceof CommanderError) return EXIT.input;
  return error instanceof RunError ? EXIT.outside : EXIT.bug;
}

function asJson(error: unknown): unknown {
  if (error instanceof CommanderError) {
    const isBare = error.code === 'commander.help';
    const message = isBare ? 'a command is missing' : error.message.replace(/^error: /, '');
    return { error: 'input', code: error.code, message };
  }
  if (error instanceof InputError)
    return { error: 'input', message: error.message, faults: error.faults };
  if (error instanceof RunError) {
    return { error: 'outside', code: error.code, path: error.path, message: error.message };
  }
  return { error: 'bug', message: error instanceof Error ? error.message : String(error) };
}
