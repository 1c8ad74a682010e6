/** Options that several commands share. */
import { InvalidArgumentError, Option } from 'commander';
import type { Command } from 'commander';
import { InputError, fault } from '../brief/index.ts';
import type { Fault } from '../brief/index.ts';
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

/** @throws InputError for a blank argument or option: a path or name that was forgotten. */
export function refuseBlanks(command: Command): void {
  const faults: Fault[] = [];
  const look = (name: string, value: unknown, remedy: string): void => {
    const values: unknown[] = Array.isArray(value) ? value : [value];
    if (!values.some((text) => typeof text === 'string' && text.trim() === '')) return;
    faults.push(fault(name, 'blank', 'be a text with letters', remedy));
  };
  command.registeredArguments.forEach((argument, i) => {
    look(argument.name(), command.processedArgs[i], 'Give it, or leave the quotes out.');
  });
  for (const option of command.options) {
    const value: unknown = command.getOptionValue(option.attributeName());
    look(option.flags, value, 'Give a value, or leave the option out.');
  }
  if (faults.length > 0) throw new InputError(faults, command.name());
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
    const value = Number(text);
    if (value >= min && value <= max && value % 2 === 0) return value;
    throw new InvalidArgumentError(`It must be an even number between ${min} and ${max}.`);
  };
}

/** A parser for numbers within bounds, for commander. */
export function within(min: number, max: number): (text: string) => number {
  return (text) => {
    const value = text.trim() === '' ? Number.NaN : Number(text);
    if (value >= min && value <= max) return value;
    throw new InvalidArgumentError(`It must be a number between ${min} and ${max}.`);
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
