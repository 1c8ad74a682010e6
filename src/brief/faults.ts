/** What is wrong with an input, and the two kinds of error a user can meet. */

/** One fault of an input, in the form: where, what was found, what is allowed, how to mend it. */
export interface Fault {
  /** Place in the input, as `plate.thickness_mm` or `air.supply.curve[2].pressure_Pa`. */
  readonly path: string;
  /** What was found, as text: a value, `missing` or `unknown`. */
  readonly found: string;
  /** What is allowed, as the end of a sentence that begins with "it must". */
  readonly allowed: string;
  /** How to mend it: one or more whole sentences. */
  readonly remedy: string;
  /** The sentence for people, made of the other four. */
  readonly message: string;
}

/** Steps from the root of an input to one of its values. */
export type Place = readonly (string | number)[];

/**
 * Writes a place as people write it.
 *
 * @param place keys and indices from the root.
 * @example placeText(['air', 'supply', 'curve', 2, 'pressure_Pa']) // 'air.supply.curve[2].pressure_Pa'
 */
export function placeText(place: Place): string {
  let text = '';
  for (const step of place) {
    if (typeof step === 'number') text += `[${step}]`;
    else text += text === '' ? step : `.${step}`;
  }
  return text;
}

/**
 * Makes a fault with its message.
 *
 * @param path place in the input; an empty one stands for the whole input.
 * @param found what was found.
 * @param allowed end of "it must ...".
 * @param remedy whole sentences.
 * @example fault('plate.rim_mm', '-1', 'lie between 0 and 100', 'Use 3.').message // 'plate.rim_mm is -1; it must lie between 0 and 100. Use 3.'
 */
export function fault(path: string, found: string, allowed: string, remedy: string): Fault {
  const subject = path === '' ? 'The input' : path;
  return {
    path,
    found,
    allowed,
    remedy,
    message: `${subject} is ${found}; it must ${allowed}. ${remedy}`.trimEnd(),
  };
}

/**
 * Shows a value in a message. Numbers are shown in full, so that the number read is the number
 * that was checked; long texts are cut.
 *
 * @example shown(0.2) // '0.2'
 * @example shown([1, 2]) // 'a list of 2 entries'
 */
export function shown(value: unknown): string {
  if (value === undefined) return 'missing';
  if (value === null) return 'null';
  if (typeof value === 'number') return Object.is(value, -0) ? '-0' : String(value);
  if (typeof value === 'boolean') return String(value);
  if (typeof value === 'string') {
    return JSON.stringify(value.length > 60 ? `${value.slice(0, 57)}...` : value);
  }
  if (Array.isArray(value)) {
    return `a list of ${value.length} ${value.length === 1 ? 'entry' : 'entries'}`;
  }
  return typeof value === 'object' ? 'an object' : `a ${typeof value}`;
}

/**
 * Shows a computed length or amount to six significant digits.
 *
 * @example shownSum(0.1 + 0.2) // '0.3'
 */
export function shownSum(value: number): string {
  return String(Number(value.toPrecision(6)));
}

/** The input is wrong and its author can mend it; a command ends with exit code 2. */
export class InputError extends Error {
  readonly faults: readonly Fault[];

  /**
   * @param faults everything found wrong, at least one.
   * @param where what was read, for the first line: 'brief', 'plate.json'.
   */
  constructor(faults: readonly Fault[], where = 'brief') {
    const count = faults.length === 1 ? '1 fault' : `${faults.length} faults`;
    super(`${where}: ${count}\n${faults.map((entry) => `  ${entry.message}`).join('\n')}`);
    this.name = 'InputError';
    this.faults = faults;
  }
}

/** Trouble outside the program (disk, worker, another process); a command ends with exit code 3. */
export class RunError extends Error {
  /** Short stable name of the trouble, such as `disk-full`. */
  readonly code: string;
  /** File, folder or worker concerned. */
  readonly path: string;
  readonly remedy: string;

  constructor(code: string, path: string, trouble: string, remedy: string, cause?: unknown) {
    super(`${path}: ${trouble}. ${remedy}`, cause === undefined ? {} : { cause });
    this.name = 'RunError';
    this.code = code;
    this.path = path;
    this.remedy = remedy;
  }
}
