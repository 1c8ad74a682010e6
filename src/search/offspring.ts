/** Makes the rows asked next: tournaments, crossover, mutation, no twins. */
import { createStream } from '../numeric/index.ts';
import type { RandomStream } from '../numeric/index.ts';
import { crossRows } from './crossover.ts';
import { shuffle } from './latin.ts';
import { mutateGene, mutateRows } from './mutation.ts';
import type { SearchState } from './state.ts';
import { clearTwins, enterRow, hashRow } from './twins.ts';

/** Attempts to make a twin differ; spaces with few combinations may run out of new rows. */
const TWIN_ATTEMPTS = 8;

/**
 * Writes N children into the second half of the pool. Random numbers come from one stream named by
 * seed, deme and generation, so the children depend on nothing but the state.
 */
export function breed(state: SearchState): void {
  const { space, settings, pool, work } = state;
  const n = settings.population;
  const d = space.kinds.length;
  const stream = createStream(settings.seed, settings.deme, `generation/${state.generation}`);
  const { probability } = settings.crossover;
  holdTournaments(state, stream);
  const { genes } = pool;
  for (let i = 0; i < n; i += 2) {
    const a = work.mates[i] * d;
    const b = work.mates[i + 1] * d;
    const p = (n + i) * d;
    // The last child of an odd population has no sibling: both go to the same row.
    const q = i + 1 < n ? p + d : p;
    if (stream.next() < probability) {
      crossRows(space, work.crossing, stream, genes, a, b, p, q);
    } else {
      genes.copyWithin(p, a, a + d);
      genes.copyWithin(q, b, b + d);
    }
  }
  mutateRows(space, work.mutating, work.mutationProbability, stream, genes, n * d, n);
  partTwins(state, stream);
}

/**
 * Fills `mates` with winners of binary tournaments. Each permutation of the population lets every row
 * compete exactly once; two permutations give N winners.
 */
function holdTournaments(state: SearchState, stream: RandomStream): void {
  const { settings, pool, work } = state;
  const n = settings.population;
  const { rank, crowding } = pool;
  const { mates } = work;
  const ring = work.ranking.ids;
  for (let i = 0; i < n; i++) ring[i] = i;
  let won = 0;
  while (won < n) {
    shuffle(ring, n, stream);
    for (let i = 0; i + 1 < n && won < n + 1; i += 2) {
      const a = ring[i];
      const b = ring[i + 1];
      let winner = a;
      if (rank[b] < rank[a]) winner = b;
      else if (rank[b] === rank[a]) {
        if (crowding[b] > crowding[a]) winner = b;
        else if (crowding[b] === crowding[a] && stream.next() < 0.5) winner = b;
      }
      mates[won++] = winner;
    }
  }
  if (won === n) mates[n] = mates[0];
}

/** A child with the genes of a parent or an earlier child gets one more mutation, until it differs. */
function partTwins(state: SearchState, stream: RandomStream): void {
  const { space, settings, pool, work } = state;
  const n = settings.population;
  const d = space.kinds.length;
  clearTwins(work.twins);
  for (let i = 0; i < n; i++) enterRow(work.twins, pool.genes, i, d);
  for (let i = n; i < 2 * n; i++) {
    hashRow(work.twins, i, d);
    for (let attempt = 0; attempt < TWIN_ATTEMPTS; attempt++) {
      if (enterRow(work.twins, pool.genes, i, d) || work.free.length === 0) break;
      const g = work.free[Math.floor(stream.next() * work.free.length)];
      mutateGene(space, work.mutating, stream, pool.genes, i * d, g);
      hashRow(work.twins, i, d);
    }
  }
}
