/** Optimisers, sorting, variation, archive and hypervolume; sees numbers, never a plate. */
export { createArchive, unpackArchive } from './archive.ts';
export type { Archive, ArchiveOptions, Infeasible } from './archive.ts';
export { crossReals, crossRows, spread, spreadLimit } from './crossover.ts';
export { addedVolume, hypervolume } from './hypervolume.ts';
export { mutateGene, mutateReal, mutateRows } from './mutation.ts';
export { createRankSpace, rankPool } from './ranking.ts';
export type { RankedPool, RankSpace } from './ranking.ts';
export { createExponent, power, root } from './roots.ts';
export type { Exponent } from './roots.ts';
export { ask, startSearch, tell } from './search.ts';
export type { Asked } from './search.ts';
export { SEARCH_DEFAULTS } from './settings.ts';
export type { Crossover, Mutation, SearchOptions, SearchSettings } from './settings.ts';
export { GENE_KINDS } from './space.ts';
export type { GeneSpace } from './space.ts';
export { hasStalled, STALL_GAIN } from './stall.ts';
export { packState, unpackState } from './state-packing.ts';
export type { Pool, Scores, SearchState } from './state.ts';
