/** Options that several commands share. */
import { InvalidArgumentError, Option } from 'commander';
import type { Command } from 'commander';
import { openTerminal } from './terminal.ts';
import type { Terminal } from './terminal.ts';

/** Adds --quiet and --json, so that they may stand before or after the command's name. */
export function withManners(command: Command): Command {
  return command
    .addOption(new Option('--quiet', 'no progress and no remarks'))
    .addOption(new Option('--json', 'results and errors as JSON, no progress'));
}

export function terminalOf(command: Command): Terminal {
  const { quiet, json } = command.optsWithGlobals<{ quiet?: boolean; json?: boolean }>();
  return openTerminal({ quiet: quiet === true, json: json === true });
}

/** A parser for whole numbers within bounds, for commander. */
export function whole(min: number, max: number): (text: string) => number {
  return (text) => {
    const value = Number(text);
    if (!Number.isInteger(value) || value < min || value > max) {
      throw new InvalidArgumentError(`It must be a whole number between ${min} and ${max}.`);
    }
    return value;
  };
}

/** The same for even numbers. */
export function even(min: number, max: number): (text: string) => number {
  return (text) => {
    const value = whole(min, max)(text);
    if (value % 2 === 0) return value;
    throw new InvalidArgumentError(`It must be an even number between ${min} and ${max}.`);
  };
}

/** A parser for positive numbers, for commander. */
export function positive(text: string): number {
  const value = Number(text);
  if (!Number.isFinite(value) || value <= 0) {
    throw new InvalidArgumentError('It must be a number above 0.');
  }
  return value;
}
