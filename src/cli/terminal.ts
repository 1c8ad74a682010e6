/** Where a command writes: results to stdout, progress and remarks to stderr. */
import { styleText } from 'node:util';

interface TerminalOptions {
  readonly quiet: boolean;
  readonly json: boolean;
}

export interface Terminal {
  /** A result: the only thing that goes to stdout. */
  result(text: string): void;
  /** A remark about the work; silent with --quiet and --json. */
  remark(text: string): void;
  /** A line that replaces the one before it on a terminal; silent elsewhere. */
  progress(text: string): void;
  /** Whether progress lines show at all. */
  readonly live: boolean;
  readonly json: boolean;
  strong(text: string): string;
  faint(text: string): string;
}

/** @param options from the command line; NO_COLOR and pipes switch colour off by themselves. */
export function openTerminal(options: TerminalOptions): Terminal {
  const silent = options.quiet || options.json;
  const live = process.stderr.isTTY && !silent;
  const colour = process.stdout.isTTY && process.env['NO_COLOR'] === undefined && !silent;
  let open = false;
  const clear = (): void => {
    if (open) process.stderr.write('\r\u001b[2K');
    open = false;
  };
  return {
    live,
    json: options.json,
    result(text) {
      clear();
      process.stdout.write(`${text}\n`);
    },
    remark(text) {
      clear();
      if (!silent) process.stderr.write(`${text}\n`);
    },
    progress(text) {
      if (!live) return;
      clear();
      const columns = process.stderr.columns;
      process.stderr.write(text.length > columns ? text.slice(0, columns - 1) : text);
      open = true;
    },
    strong: (text) => (colour ? styleText('bold', text) : text),
    faint: (text) => (colour ? styleText('dim', text) : text),
  };
}
