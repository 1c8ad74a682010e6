/** Named streams of random numbers: what for, never who, when or in which order. */
import seedrandom from 'seedrandom';

/** The state of a stream: four numbers, safe in JSON. */
export type StreamState = readonly [c: number, s0: number, s1: number, s2: number];

/** A stream of random numbers that belongs to one purpose. */
export interface RandomStream {
  /** The next number in 0 <= x < 1, 32 random bits. */
  next(): number;
  /** Plain state; `restoreStream` goes on from it with the same numbers. */
  state(): StreamState;
}

/** The first numbers of `alea` still show likeness of keys; after these many they do not. */
const WARM_UP = 8;

function wrap(generator: seedrandom.StatefulPRNG<seedrandom.State.Alea>): RandomStream {
  return {
    next: generator,
    state() {
      const { c, s0, s1, s2 } = generator.state();
      return [c, s0, s1, s2];
    },
  };
}

/**
 * A stream named by its keys, joined with '/'. The same keys give the same numbers everywhere.
 *
 * @param keys what the numbers are for, seed first: `createStream(seed, 'generation/12', 'row/7')`.
 * @returns a stream of numbers in 0 <= x < 1.
 * @example createStream('seed', 'row/7').next() === createStream('seed', 'row/7').next() // true
 * Source: alea of the package seedrandom; multiply-with-carry, period about 2^116.
 */
export function createStream(...keys: string[]): RandomStream {
  const generator = seedrandom.alea(keys.join('/'), { state: true });
  for (let i = 0; i < WARM_UP; i++) generator();
  return wrap(generator);
}

/**
 * Goes on with a stream from its state.
 *
 * @param state what `RandomStream.state()` returned.
 * @example restoreStream(createStream('s').state()).next() === createStream('s').next() // true
 */
export function restoreStream(state: StreamState): RandomStream {
  const [c, s0, s1, s2] = state;
  return wrap(seedrandom.alea('', { state: { c, s0, s1, s2 } }));
}
