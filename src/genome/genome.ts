/** The genome of a brief: the one place that knows what genes mean. */
import type { Brief } from '../brief/index.ts';
import type { Design } from '../design/index.ts';
import { designOf } from './decode.ts';
import type { Decoded } from './decode.ts';
import { expressDesign } from './express.ts';
import type { Expressed } from './express.ts';
import { listGenes } from './genes.ts';
import type { Gene } from './genes.ts';
import type { NamedGenes } from './row.ts';
import { plainValue } from './row.ts';
import { createSideGenome } from './side-genome.ts';
import type { RouteGenome } from './side-genome.ts';
import { listStarts } from './starts.ts';
import type { Start } from './starts.ts';
import { createReader } from './traits.ts';

export interface Genome {
  readonly genes: readonly Gene[];
  /** Kinds (0 real, 1 integer, 2 choice) and inclusive bounds, as the search reads them. */
  readonly space: {
    readonly kinds: Uint8Array;
    readonly lower: Float64Array;
    readonly upper: Float64Array;
  };
  /** Labelled starting designs that the brief allows. */
  readonly starts: readonly Start[];
  /** Total and deterministic: every row within the bounds gives a design, or a reason why not. */
  decode(rows: Float64Array, at: number): Decoded;
  /** The row of a design that this genome could have made, as near as it can; or why not. */
  express(design: Design): Expressed;
  /** The row of genes stored by name, such as those of a front; or what does not fit this brief. */
  expressGenes(named: NamedGenes): Expressed;
}

const KINDS = { real: 0, integer: 1, choice: 2 } as const;

export function createGenome(brief: Brief): Genome {
  const { genes, ...route } =
    brief.air.route.kind === 'side' ? createSideGenome(brief) : createThroughGenome(brief);
  let starts: readonly Start[] | null = null;
  return {
    genes,
    space: {
      kinds: Uint8Array.from(genes, (gene) => KINDS[gene.kind]),
      lower: Float64Array.from(genes, (gene) => gene.min),
      upper: Float64Array.from(genes, (gene) => gene.max),
    },
    // Workers never ask for them.
    get starts() {
      starts ??= route.starts();
      return starts;
    },
    decode: (rows, at) => route.decode(rows, at),
    express: (design) => route.express(design),
    expressGenes: (named) => rowOfGenes(genes, named),
  };
}

function createThroughGenome(brief: Brief): RouteGenome {
  const genes = listGenes(brief);
  const read = createReader(brief, genes);
  return {
    genes,
    starts: () => listStarts(brief, genes, read),
    decode: (rows, at) => designOf(brief, read(rows, at)),
    express: (design) => expressDesign(brief, genes, read, design),
  };
}

function rowOfGenes(genes: readonly Gene[], named: NamedGenes): Expressed {
  const row = new Float64Array(genes.length);
  for (let i = 0; i < genes.length; i++) {
    const gene = genes[i];
    const given = named[gene.name];
    const value =
      given === undefined
        ? plainValue(gene)
        : typeof given === 'number'
          ? given
          : (gene.options?.indexOf(given) ?? -1);
    const whole = gene.kind === 'real' || value === Math.trunc(value);
    if (!(value >= gene.min && value <= gene.max) || !whole) {
      const allowed = gene.options
        ? `one of ${gene.options.join(', ')}`
        : `${whole ? '' : 'a whole number '}between ${gene.min} and ${gene.max}`;
      return { reason: `Gene ${gene.name} is ${given}; this brief allows ${allowed}.` };
    }
    row[i] = value;
  }
  return row;
}
