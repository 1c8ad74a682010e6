/** Named streams of random numbers: what for, never who, when or in which order. */
import seedrandom from 'seedrandom';

/** A stream of random numbers that belongs to one purpose. */
export interface RandomStream {
  /** The next number in 0 <= x < 1, 32 random bits. */
  next(): number;
}

/** The first numbers of `alea` still show likeness of keys; after these many they do not. */
const WARM_UP = 8;

/**
 * A stream named by its keys, joined with '/'. The same keys give the same numbers everywhere, so
 * that a run which goes on later needs no state of its streams, only their names.
 *
 * @param keys what the numbers are for, seed first: `createStream(seed, 'generation/12', 'row/7')`.
 * @returns a stream of numbers in 0 <= x < 1.
 * @example createStream('seed', 'row/7').next() === createStream('seed', 'row/7').next() // true
 * Source: alea of the package seedrandom; multiply-with-carry, period about 2^116.
 */
export function createStream(...keys: string[]): RandomStream {
  const next = seedrandom.alea(keys.join('/'));
  for (let i = 0; i < WARM_UP; i++) next();
  return { next };
}
