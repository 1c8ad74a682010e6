/** Rows written by name. */
import type { Gene } from './genes.ts';

/** Values of genes by name; a choice by the name of its option or its number. */
export type NamedGenes = Readonly<Record<string, number | string>>;

/** What a gene is when nobody says: no bend, no lean, no pocket, everything at its nominal size. */
const PLAIN: Readonly<Record<string, number>> = {
  inletBore: 1,
  middleBore: 1,
  outletBore: 1,
  slotAspect: 4,
  sides: 6,
  pocketWidth_deg: 90,
  toothSpacing: 10,
  sideChannels: 12,
  ring1Radius: 0.55,
  ring2Radius: 0.75,
  ring3Radius: 0.35,
  ring1Height: 0.5,
  ring2Height: 0,
  ring3Height: 1,
  turn: 1,
  plenumExits: 12,
  exitBore: 1,
  plenumInner: 0.5,
  plenumOuter: 0.8,
};

/** Value of a gene when nobody says: its plain value, or the nearest within its bounds. */
export function plainValue(gene: Gene): number {
  if (gene.kind === 'choice') return 0;
  if (gene.name === 'thickness_mm') return 0.5 * (gene.min + gene.max);
  return within(gene, PLAIN[gene.name] ?? 0);
}

export function within(gene: Gene, value: number): number {
  const near = Math.min(gene.max, Math.max(gene.min, value));
  return gene.kind === 'real' ? near : Math.round(near);
}

/**
 * Writes a row from named values; genes without a value get their plain one. Values beyond the
 * bounds are brought to the nearest bound, options that the brief does not allow to its first.
 */
export function writeRow(genes: readonly Gene[], named: NamedGenes): Float64Array {
  const row = new Float64Array(genes.length);
  genes.forEach((gene, i) => {
    const value = named[gene.name];
    if (value === undefined) row[i] = plainValue(gene);
    else if (typeof value === 'number') row[i] = within(gene, value);
    else row[i] = Math.max(0, gene.options?.indexOf(value) ?? 0);
  });
  return row;
}
