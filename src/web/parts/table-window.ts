/** Which rows of a long table stand in the document, and in which order. */

/** Rows beyond the seen ones on either side, so that a quick scroll finds them there. */
const SPARE = 12;
/** The window moves by so many rows at a time. */
const STEP = 6;

export interface RowWindow {
  /** First row in the document, and the one after the last. */
  readonly from: number;
  readonly to: number;
}

/**
 * The rows to put into the document.
 *
 * @param scrolled, seen distance scrolled and height seen [px].
 * @example windowOf(5000, 30, 3000, 300).from // 84
 */
export function windowOf(
  rows: number,
  rowHeight: number,
  scrolled: number,
  seen: number,
): RowWindow {
  const first = Math.floor(scrolled / rowHeight);
  const from = Math.max(0, Math.floor((first - SPARE) / STEP) * STEP);
  const to = from + Math.ceil(seen / rowHeight) + 2 * SPARE + STEP;
  return { from: Math.min(from, rows), to: Math.min(rows, to) };
}

/** Rows kept, by a reading; those without one last, equal ones in the order of the front. */
export function sortedRows(
  values: ArrayLike<number>,
  kept: Uint8Array,
  down: boolean,
): readonly number[] {
  const turn = down ? -1 : 1;
  const rows: number[] = [];
  for (let i = 0; i < kept.length; i++) if (kept[i] === 1) rows.push(i);
  return rows.toSorted((a, b) => {
    const [p, q] = [values[a], values[b]];
    if (Number.isNaN(p) || Number.isNaN(q)) {
      return Number(Number.isNaN(p)) - Number(Number.isNaN(q)) || a - b;
    }
    return turn * (p - q) || a - b;
  });
}
