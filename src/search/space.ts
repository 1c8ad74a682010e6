/** What the search may choose: the genes, their kinds and their bounds. */

/** Kind of a gene: a real number, a whole number, or one of k options named 0 .. k-1. */
export const GENE_KINDS = { real: 0, integer: 1, choice: 2 } as const;

export interface GeneSpace {
  /** Kind of each gene [d], a value of `GENE_KINDS`. */
  readonly kinds: Uint8Array;
  /** Least value of each gene [d]; inclusive. A choice starts at 0. */
  readonly lower: Float64Array;
  /** Greatest value of each gene [d]; inclusive, whole for integers and choices. Equal to `lower`: the gene is fixed. */
  readonly upper: Float64Array;
}

/**
 * Checks a space once, so that the loops need not.
 *
 * @throws Error naming the gene, what was found and what is allowed.
 */
export function checkSpace(space: GeneSpace): void {
  const d = space.kinds.length;
  if (d === 0) throw new Error('space has no genes; at least one is needed.');
  if (space.lower.length !== d || space.upper.length !== d) {
    throw new Error(
      `space has ${d} kinds, ${space.lower.length} lower and ${space.upper.length} upper bounds; the three lengths must agree.`,
    );
  }
  for (let g = 0; g < d; g++) {
    const kind = space.kinds[g];
    const low = space.lower[g];
    const high = space.upper[g];
    if (kind > GENE_KINDS.choice) {
      throw new Error(`kinds[${g}] is ${kind}; it must be 0 (real), 1 (integer) or 2 (choice).`);
    }
    if (!Number.isFinite(low) || !Number.isFinite(high) || low > high) {
      throw new Error(
        `gene ${g} lies between ${low} and ${high}; the bounds must be finite and in order.`,
      );
    }
    if (kind !== GENE_KINDS.real && !(Number.isSafeInteger(low) && Number.isSafeInteger(high))) {
      throw new Error(
        `gene ${g} lies between ${low} and ${high}; bounds of integers and choices must be whole.`,
      );
    }
    if (kind === GENE_KINDS.choice && low !== 0) {
      throw new Error(
        `gene ${g} is a choice from ${low} on; the options of a choice count from 0.`,
      );
    }
  }
}

/**
 * Checks rows of genes that come from outside, such as labelled starting designs.
 *
 * @param rows genes, row-major [n x d].
 * @throws Error naming the row, the gene, the value and its bounds.
 */
export function checkRows(space: GeneSpace, rows: Float64Array): void {
  const d = space.kinds.length;
  if (rows.length % d !== 0) {
    throw new Error(`${rows.length} gene values do not fill rows of ${d}.`);
  }
  for (let i = 0; i < rows.length; i++) {
    const g = i % d;
    const x = rows[i];
    if (!(x >= space.lower[g] && x <= space.upper[g])) {
      throw new Error(
        `row ${(i - g) / d}, gene ${g} is ${x}; it must lie between ${space.lower[g]} and ${space.upper[g]}.`,
      );
    }
    if (space.kinds[g] !== GENE_KINDS.real && !Number.isInteger(x)) {
      throw new Error(`row ${(i - g) / d}, gene ${g} is ${x}; integers and choices must be whole.`);
    }
  }
}
