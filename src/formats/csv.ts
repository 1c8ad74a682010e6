/** Tables for spreadsheets: comma-separated values by RFC 4180. */
import type { Front } from '../engine/index.ts';

/**
 * One cell. Text is quoted where RFC 4180 asks for it (comma, quote, line break); text that a
 * spreadsheet would run as a formula gets a leading apostrophe. No number gives an empty cell.
 *
 * @example csvCell('a "b"') // '"a ""b"""'
 * @example csvCell('=1+1') // "'=1+1"
 */
export function csvCell(value: string | number | null): string {
  if (value === null) return '';
  if (typeof value === 'number') return Number.isFinite(value) ? String(value + 0) : '';
  const text = /^[=+\-@\t\r]/u.test(value) ? `'${value}` : value;
  return /[",\r\n]/u.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** Rows of cells as text; each row ends with CR LF. */
function writeCsv(rows: readonly (readonly (string | number | null)[])[]): string {
  return rows.map((row) => `${row.map(csvCell).join(',')}\r\n`).join('');
}

/**
 * A front as a table: one header row with units, then one row per design with id, origin, every
 * measure and every gene (of a choice its number). An empty cell: no reading.
 */
export function writeFrontCsv(front: Front): string {
  const header = [
    'id',
    'origin',
    ...front.measures.map((measure) => `${measure.id} [${measure.unit}]`),
    ...front.genes.map((gene) => `gene ${gene.name}`),
  ];
  const rows = front.designs.map((design) => [
    design.id,
    design.origin,
    ...design.readings,
    ...design.genes,
  ]);
  return writeCsv([header, ...rows]);
}
