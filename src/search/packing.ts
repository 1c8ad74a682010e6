/** Checks of packed values on their way back in. */

/** A plain object with unknown fields. */
export type Packed = Readonly<Record<string, unknown>>;

function isPacked(value: unknown): value is Packed {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** @throws Error when the value is not an object of this format and version. */
export function readPacked(value: unknown, format: string, version: number): Packed {
  if (!isPacked(value)) {
    throw new Error(
      `packed ${format} is ${value === null ? 'null' : typeof value}; it must be an object.`,
    );
  }
  if (value['format'] !== format) {
    throw new Error(`packed format is ${String(value['format'])}; it must be ${format}.`);
  }
  if (value['version'] !== version) {
    throw new Error(
      `packed ${format} has version ${String(value['version'])}; this program reads version ${version}.`,
    );
  }
  return value;
}

export function readObject(packed: Packed, name: string): Packed {
  const value = packed[name];
  if (!isPacked(value)) {
    throw new Error(`packed ${name} must be an object.`);
  }
  return value;
}

export function readWhole(packed: Packed, name: string): number {
  const value = packed[name];
  if (typeof value !== 'number' || !Number.isSafeInteger(value) || value < 0) {
    throw new Error(`packed ${name} is ${String(value)}; it must be a whole number from 0 on.`);
  }
  return value;
}

export function readNumber(packed: Packed, name: string): number {
  const value = packed[name];
  if (typeof value !== 'number' || !Number.isFinite(value)) {
    throw new Error(`packed ${name} is ${String(value)}; it must be a finite number.`);
  }
  return value;
}

export function readText(packed: Packed, name: string): string {
  const value = packed[name];
  if (typeof value !== 'string') throw new Error(`packed ${name} must be text.`);
  return value;
}

/** @param length numbers expected; a wrong count is an error. */
export function readNumbers(packed: Packed, name: string, length?: number): number[] {
  const value = packed[name];
  if (!Array.isArray(value)) throw new Error(`packed ${name} must be a list of numbers.`);
  if (length !== undefined && value.length !== length) {
    throw new Error(`packed ${name} has ${value.length} numbers; it must have ${length}.`);
  }
  return value.map((item: unknown, i) => {
    if (typeof item !== 'number' || !Number.isFinite(item)) {
      throw new Error(`packed ${name}[${i}] is ${String(item)}; it must be a finite number.`);
    }
    return item;
  });
}
