/** A selection carried over when a front is renewed: ids are given out anew, genes stay. */
import type { Front } from '../../engine/index.ts';

/**
 * Ids in the renewed front of the designs that had some ids in the old one; those that have left
 * the front are left out.
 */
export function followIds(ids: readonly string[], old: Front, renewed: Front): readonly string[] {
  if (ids.length === 0 || old === renewed) return ids;
  const byGenes = new Map(renewed.designs.map(({ id, genes }) => [genes.join(), id]));
  return ids.flatMap((id) => {
    const design = old.designs.find((one) => one.id === id);
    return design === undefined ? [] : (byGenes.get(design.genes.join()) ?? []);
  });
}
