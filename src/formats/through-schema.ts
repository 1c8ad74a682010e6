/** Reading what a program wrote: through its schema, or not at all. */
import type * as z from 'zod';
import { InputError, readSchema } from '../brief/index.ts';

/**
 * The value as its schema gives it; keys that begin with "//" are no comments here.
 *
 * @param where name of the file, for messages.
 * @throws InputError with every fault found.
 */
export function throughSchema<T>(schema: z.ZodType<T>, value: unknown, where: string): T {
  const read = readSchema(schema, value, { comments: false });
  if (read.ok) return read.value;
  throw new InputError(
    read.faults.map((entry) => entry.fault),
    where,
  );
}
