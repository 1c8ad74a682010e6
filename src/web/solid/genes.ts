/** Genes of several designs side by side. */
import type { GeneInfo } from '../../engine/index.ts';
import { figure } from '../state/words.ts';

interface GeneRow {
  readonly name: string;
  /** In words; a dash where a design's front has no such gene. */
  readonly values: readonly string[];
  readonly allowed: string;
}

/** @param designs genes as their fronts list them, matched by name, and values in that order. */
export function differingGenes(
  designs: readonly { readonly genes: readonly GeneInfo[]; readonly values: readonly number[] }[],
): { readonly rows: readonly GeneRow[]; readonly same: readonly string[] } {
  const infos = new Map<string, GeneInfo>();
  for (const { genes } of designs) {
    for (const gene of genes) if (!infos.has(gene.name)) infos.set(gene.name, gene);
  }
  const rows: GeneRow[] = [];
  const same: string[] = [];
  for (const gene of infos.values()) {
    const found = designs.map(({ genes, values }) => {
      const at = genes.findIndex(({ name }) => name === gene.name);
      return at < 0 ? null : { info: genes[at], value: values[at] };
    });
    if (found.every((one) => one?.value === found[0]?.value)) {
      same.push(gene.name);
      continue;
    }
    rows.push({
      name: gene.name,
      values: found.map((one) => (one === null ? '\u2013' : valueWords(one.info, one.value))),
      allowed:
        gene.options === undefined
          ? `${figure(gene.min)} \u2026 ${figure(gene.max)}`
          : `${gene.options.length} kinds`,
    });
  }
  return { rows, same };
}

function valueWords({ options }: GeneInfo, value: number): string {
  return options?.[Math.round(value)] ?? figure(value);
}
