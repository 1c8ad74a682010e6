export type { Decoded } from './decode.ts';
export type { Expressed } from './express.ts';
export { FREE_SLOTS, MOST_BENDS } from './genes.ts';
export type { Gene } from './genes.ts';
export { createGenome } from './genome.ts';
export type { Genome } from './genome.ts';
export type { NamedGenes } from './row.ts';
export type { Start } from './starts.ts';
