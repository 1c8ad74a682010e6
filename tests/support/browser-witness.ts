/** A run and a digest of every number its crew gave: two engines agree in all of them or in none. */
import { evolve } from '../../src/engine/index.ts';
import type { Brief, Crew } from '../../src/engine/index.ts';
import { writeFrontFile } from '../../src/formats/index.ts';
import { drive, quietPorts } from './local-crew.ts';

export interface Witnessed {
  /** Front file after a line with the digest of all readings, of fast, exact and refined forms. */
  readonly text: string;
  /** Every row of genes that was scored, one batch each. */
  readonly batches: readonly Float64Array[];
}

export async function evolveWitnessed(brief: Brief, crew: Crew): Promise<Witnessed> {
  const batches: Float64Array[] = [];
  let digest = 0x811c9dc5;
  let numbers = 0;
  const take = (word: number): void => {
    digest = Math.imul(digest ^ word, 0x01000193);
    digest ^= digest >>> 15;
  };
  const watched: Crew = {
    size: crew.size,
    async evaluate(job) {
      batches.push(job.rows.slice());
      const result = await crew.evaluate(job);
      // All NaN are alike: their bits carry no meaning.
      const values = Float64Array.from(result.values, (v) => (Number.isNaN(v) ? Number.NaN : v));
      for (const word of new Uint32Array(values.buffer)) take(word);
      for (const character of JSON.stringify([result.failures, result.notes])) {
        take(character.codePointAt(0) ?? 0);
      }
      numbers += values.length;
      return result;
    },
  };
  const { front } = await drive(evolve(brief, {}, quietPorts(watched)));
  return {
    text: `${numbers} readings, digest ${digest >>> 0}\n${writeFrontFile(front)}`,
    batches,
  };
}
