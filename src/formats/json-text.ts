/** Reads JSON text, and says where and why it cannot be read. */
import { InputError, fault } from '../brief/index.ts';
import type { Fault } from '../brief/index.ts';

/** A place in a text and what stands there. */
interface Stop {
  readonly at: number;
  readonly allowed: string;
}

class Halt extends Error {
  readonly stop: Stop;
  constructor(stop: Stop) {
    super(stop.allowed);
    this.stop = stop;
  }
}

const SPACE = /[ \t\n\r]*/y;
// A character below U+0020 must be written as an escape (RFC 8259, section 7).
// oxlint-disable-next-line no-control-regex
const LETTERS = /[^"\\\u0000-\u001f]*/y;
const ESCAPE = /\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4})/y;
const NUMBER = /-?(?:0|[1-9][0-9]*)(?:\.[0-9]+)?(?:[eE][+-]?[0-9]+)?/y;
const WORD = /true|false|null/y;

/** Walks JSON by the grammar of RFC 8259; throws `Halt` where the text leaves it. */
class Walk {
  readonly text: string;
  at = 0;
  /** Keys that stand twice in one object, with their place. */
  readonly twice: { readonly key: string; readonly at: number }[] = [];

  constructor(text: string) {
    this.text = text;
  }

  take(pattern: RegExp): string | null {
    pattern.lastIndex = this.at;
    const match = pattern.exec(this.text);
    if (match === null) return null;
    this.at += match[0].length;
    return match[0];
  }

  /**
   * A text with its quotes, or null, and then nothing is taken. In steps, since one pattern for the
   * whole overflows the stack of the engine at some megabytes.
   */
  string(): string | null {
    const start = this.at;
    if (this.text.charAt(start) !== '"') return null;
    this.at++;
    do this.take(LETTERS);
    while (this.take(ESCAPE) !== null);
    if (this.text.charAt(this.at) !== '"') {
      this.at = start;
      return null;
    }
    this.at++;
    return this.text.slice(start, this.at);
  }

  next(): string {
    this.take(SPACE);
    return this.text.charAt(this.at);
  }

  halt(allowed: string): never {
    throw new Halt({ at: this.at, allowed });
  }

  value(depth: number): void {
    if (depth > 1000) this.halt('be nested less deeply');
    const first = this.next();
    if (first === '{') this.object(depth);
    else if (first === '[') this.array(depth);
    else if (first === '"') {
      if (this.string() === null) this.halt('be a text closed by a quote on the same line');
    } else if (this.take(NUMBER) === null && this.take(WORD) === null) {
      this.halt(
        'be a value: a number, a text in double quotes, a list, an object, true, false or null',
      );
    }
  }

  object(depth: number): void {
    const keys = new Set<string>();
    this.at++;
    if (this.next() === '}') {
      this.at++;
      return;
    }
    for (;;) {
      this.next();
      const start = this.at;
      const key = this.string();
      if (key === null) this.halt('be a key in double quotes');
      if (keys.has(key)) this.twice.push({ key, at: start });
      keys.add(key);
      if (this.next() !== ':') this.halt("be ':' after the key");
      this.at++;
      this.value(depth + 1);
      const end = this.next();
      if (end !== ',' && end !== '}') this.halt("be ',' or '}'");
      this.at++;
      if (end === '}') return;
    }
  }

  array(depth: number): void {
    this.at++;
    if (this.next() === ']') {
      this.at++;
      return;
    }
    for (;;) {
      this.value(depth + 1);
      const end = this.next();
      if (end !== ',' && end !== ']') this.halt("be ',' or ']'");
      this.at++;
      if (end === ']') return;
    }
  }
}

function lineAndColumn(text: string, at: number): string {
  const before = text.slice(0, at);
  const line = before.split('\n').length;
  return `line ${line}, column ${at - before.lastIndexOf('\n')}`;
}

function syntaxFault(text: string, stop: Stop): Fault {
  const rest = text.slice(stop.at);
  if (text.trim() === '') {
    return fault('', 'empty', 'hold JSON', 'Check that the right file is given.');
  }
  const path = lineAndColumn(text, stop.at);
  if (rest.trim() === '' || rest.startsWith('"')) {
    // An open text at the very end is torn too; inside the file it is a forgotten quote.
    const torn = rest.trim() === '' || !rest.includes('\n');
    if (torn) {
      const remedy =
        'The file is only half written: take an earlier copy, or have it written again.';
      return fault(path, 'the end of the file', stop.allowed, remedy);
    }
  }
  const word = /^[^\s,:[\]{}]{1,20}/u.exec(rest)?.[0] ?? rest.charAt(0);
  const remedy =
    word === '}' || word === ']'
      ? 'Remove the comma before it.'
      : word.startsWith('//') || word.startsWith('/*')
        ? 'A comment is a key that begins with "//": write { "// note": "text" }.'
        : 'Correct the file there.';
  return fault(path, JSON.stringify(word), stop.allowed, remedy);
}

/**
 * Finds what is wrong with JSON text by RFC 8259: the first place where it leaves the grammar, and
 * every key that stands twice in one object (of which a reader would silently drop one).
 */
export function jsonFaults(text: string): readonly Fault[] {
  const walk = new Walk(text);
  try {
    walk.value(0);
    if (walk.next() !== '') walk.halt('be the end of the file');
  } catch (error) {
    if (!(error instanceof Halt)) throw error;
    return [syntaxFault(text, error.stop)];
  }
  return walk.twice.map(({ key, at }) => {
    const remedy = 'Only one of the two can count: remove or rename the other.';
    return fault(lineAndColumn(text, at), `${key} again`, 'be a new key of this object', remedy);
  });
}

/**
 * Reads JSON text.
 *
 * @param text a file's text; a byte order mark at its start is ignored.
 * @param where what is read, for messages.
 * @param options.strict also refuses keys that stand twice in one object: for files that people
 *   write. Slower, so files that programs write are read without.
 * @throws InputError with line and column, and whether the file ends half way.
 */
export function readJson(text: string, where: string, options: { strict?: boolean } = {}): unknown {
  const plain = text.startsWith('\uFEFF') ? text.slice(1) : text;
  let value: unknown;
  try {
    value = JSON.parse(plain);
  } catch (error) {
    if (!(error instanceof SyntaxError)) throw error;
    const faults = jsonFaults(plain);
    if (faults.length > 0) throw new InputError(faults, where);
    throw error;
  }
  const faults = options.strict === true ? jsonFaults(plain) : [];
  if (faults.length > 0) throw new InputError(faults, where);
  return value;
}
