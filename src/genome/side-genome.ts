/** The genome of a brief with openings in the rim. */
import type { Brief } from '../brief/index.ts';
import type { Design } from '../design/index.ts';
import type { Decoded } from './decode.ts';
import type { Expressed } from './express.ts';
import type { Gene } from './genes.ts';
import { sideDesignOf } from './side-decode.ts';
import { listSideGenes } from './side-genes.ts';
import { listSideStarts } from './side-starts.ts';
import { createSideReader } from './side-traits.ts';
import type { Start } from './starts.ts';

/** What a genome consists of, whatever the route. */
export interface RouteGenome {
  readonly genes: readonly Gene[];
  starts(): readonly Start[];
  decode(rows: Float64Array, at: number): Decoded;
  express(design: Design): Expressed;
}

export function createSideGenome(brief: Brief): RouteGenome {
  const genes = listSideGenes(brief);
  const read = createSideReader(brief, genes);
  return {
    genes,
    starts: () => listSideStarts(brief, genes, read),
    decode: (rows, at) => sideDesignOf(brief, read(rows, at)),
    express: () => ({
      reason:
        'A drawn plate with side exits cannot be turned into genes; give a design that carries the ' +
        'genes it was decoded from.',
    }),
  };
}
