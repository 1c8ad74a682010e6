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

const CONTROL =
  // oxlint-disable-next-line no-control-regex
  /\u001b\[(?:1|2|22)m|\r(?!\n)|[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f]/g;

/**
 * A text without control characters, which names from files might carry to steer the terminal.
 * Line breaks, tabs and this program's own bold and faint stay.
 */
export function printable(text: string): string {
  return text.replaceAll(CONTROL, (found) => (found.length > 1 ? found : '\ufffd'));
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
      process.stdout.write(`${printable(text)}\n`);
    },
    remark(text) {
      clear();
      if (!silent) process.stderr.write(`${printable(text)}\n`);
    },
    progress(text) {
      if (!live) return;
      clear();
      const columns = process.stderr.columns;
      const line = printable(text);
      process.stderr.write(line.length > columns ? line.slice(0, columns - 1) : line);
      open = true;
    },
    strong: (text) => (colour ? styleText('bold', text) : text),
    faint: (text) => (colour ? styleText('dim', text) : text),
  };
}
