/** From gene values back to designs, and from designs of one's own to gene values. */
import { InputError, RunError, fault } from '../brief/index.ts';
import type { Brief } from '../brief/index.ts';
import type { Design } from '../design/index.ts';
import { createGenome } from '../genome/index.ts';
import type { Front, FrontDesign } from './model.ts';
import type { ExtraStart } from './run.ts';

/** A design of a front by its id. @throws InputError naming the ids there are. */
export function findDesign(front: Front, id: string): FrontDesign {
  const all = front.nearest === null ? front.designs : [front.nearest];
  const found = all.find((design) => design.id === id);
  if (found !== undefined) return found;
  const last = front.designs.at(-1)?.id;
  const allowed = last === undefined ? 'name a design' : `lie between d001 and ${last}`;
  const remedy =
    last === undefined
      ? 'The front is empty: no design met every limit; d000 is the nearest miss.'
      : '`anfract show RUN` lists them.';
  throw new InputError([fault('design', id, allowed, remedy)], 'front');
}

/** What of a front it takes to rebuild its designs. */
export type FrontGenes = Pick<Front, 'brief' | 'genes' | 'anfract'>;

/** The explicit plate behind a design of a front. @throws RunError if its genes no longer decode. */
export function designOf(front: FrontGenes, design: FrontDesign): Design {
  const genome = createGenome(front.brief);
  const names = genome.genes.map((gene) => gene.name).join();
  if (names !== front.genes.map((gene) => gene.name).join()) {
    throw new RunError(
      'other-genes',
      design.id,
      `the front was made by anfract ${front.anfract}, whose genes differ from this version's`,
      'Rebuild it with that version, or use its exported design file.',
    );
  }
  const decoded = genome.decode(Float64Array.from(design.genes), 0);
  if (decoded.ok) return decoded.design;
  throw new RunError(
    'no-decode',
    design.id,
    decoded.reason,
    'The front file may have been edited.',
  );
}

/** Gene values by name, as an exported design file carries them. */
export function namedGenes(front: Front, design: FrontDesign): Record<string, number> {
  return Object.fromEntries(front.genes.map((gene, i) => [gene.name, design.genes[i]]));
}

/** A design to start from, as a design file gives it. */
interface DrawnStart {
  readonly name: string;
  /** The brief the design was made for. */
  readonly brief: Brief;
  readonly design: Design;
  /** Genes it was decoded from, by name; null for one made by hand. */
  readonly genes: Readonly<Record<string, number>> | null;
}

/**
 * A row of genes that expresses a given design in the search space of a brief. Its own genes are
 * taken only while they still decode to it: after an edit the drawing counts.
 *
 * @throws InputError saying why it cannot be expressed.
 */
export function startFrom(brief: Brief, drawn: DrawnStart): ExtraStart {
  const genome = createGenome(brief);
  const { name: label, design, genes } = drawn;
  const expressed =
    genes !== null && decodesTo(drawn.brief, genes, design)
      ? genome.expressGenes(genes)
      : genome.express(design);
  if (expressed instanceof Float64Array) return { label, row: expressed };
  throw new InputError(
    [fault(label, 'outside the search space', 'be expressible in genes', expressed.reason)],
    label,
  );
}

function decodesTo(brief: Brief, genes: Readonly<Record<string, number>>, design: Design): boolean {
  const genome = createGenome(brief);
  const row = genome.expressGenes(genes);
  if (!(row instanceof Float64Array)) return false;
  const decoded = genome.decode(row, 0);
  // Through JSON, where -0 is 0, as in the file the design came from.
  return decoded.ok && JSON.stringify(decoded.design) === JSON.stringify(design);
}
