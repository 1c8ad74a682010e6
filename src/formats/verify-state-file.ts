/** A flow under way as a file: private, read only by the program that wrote it. */
import { InputError, fault, headFault, isRecord } from '../brief/index.ts';
import type { VerifyState } from '../engine/index.ts';
import { readJson } from './json-text.ts';

const FORMAT = 'anfract-verify-state';
const VERSION = 1;
/** Longest head [bytes]; what is long stands behind it. */
const LONGEST_HEAD = 100_000;

/** Where an array of numbers stands behind the head: how many, and how wide each is [bytes]. */
interface Packed {
  readonly numbers: number;
  readonly width: 4 | 8;
}

/**
 * @param key what the state belongs to, with the versions of what made it: a state with another key is
 *   not read.
 */
export function writeVerifyState(key: string, state: VerifyState): Uint8Array {
  const arrays: (Float32Array | Float64Array)[] = [];
  const pack = (_: string, value: unknown): unknown => {
    if (!(value instanceof Float32Array || value instanceof Float64Array)) return value;
    arrays.push(value);
    return { numbers: value.length, width: value.BYTES_PER_ELEMENT };
  };
  const head = JSON.stringify({ format: FORMAT, version: VERSION, key, state }, pack);
  const line = new TextEncoder().encode(`${head}\n`);
  const size = arrays.reduce((sum, { byteLength }) => sum + byteLength, 0);
  const out = new Uint8Array(line.length + size);
  out.set(line);
  let at = line.length;
  for (const { buffer, byteOffset, byteLength } of arrays) {
    out.set(new Uint8Array(buffer, byteOffset, byteLength), at);
    at += byteLength;
  }
  return out;
}

/**
 * Reads a state; null when it belongs to something else.
 *
 * @throws InputError when it is cut off or no such file.
 */
export function readVerifyState(
  bytes: Uint8Array,
  key: string,
  where = 'state file',
): VerifyState | null {
  const remedy = 'Remove it, and the flow begins anew.';
  const refuse = (found: string): InputError =>
    new InputError([fault('', found, 'be the whole state of a flow', remedy)], where);
  const end = bytes.subarray(0, LONGEST_HEAD).indexOf(10);
  if (end < 0) throw refuse('without a head');
  const head = readJson(new TextDecoder().decode(bytes.subarray(0, end)), where);
  const wrong = headFault(head, FORMAT, VERSION);
  if (wrong !== null) throw new InputError([wrong], where);
  if (!isRecord(head) || head['key'] !== key) return null;
  let at = end + 1;
  const unpack = (value: unknown): unknown => {
    if (isPacked(value)) {
      const size = value.numbers * value.width;
      if (at + size > bytes.length) throw refuse(`cut off at ${bytes.length} bytes`);
      // A copy, since the numbers begin at any byte; `slice` of a Node buffer makes none.
      const { buffer } = new Uint8Array(bytes.subarray(at, at + size));
      at += size;
      return value.width === 4 ? new Float32Array(buffer) : new Float64Array(buffer);
    }
    if (Array.isArray(value)) return value.map(unpack);
    if (!isRecord(value)) return value;
    return Object.fromEntries(Object.entries(value).map(([name, of]) => [name, unpack(of)]));
  };
  const state = unpack(head['state']);
  if (at !== bytes.length || !isRecord(state)) throw refuse(`of ${bytes.length} bytes`);
  // The key holds the versions of what wrote it.
  // oxlint-disable-next-line typescript/no-unsafe-type-assertion
  return state as unknown as VerifyState;
}

function isPacked(value: unknown): value is Packed {
  if (!isRecord(value) || Object.keys(value).join() !== 'numbers,width') return false;
  const { numbers, width } = value;
  return Number.isInteger(numbers) && Number(numbers) >= 0 && (width === 4 || width === 8);
}
