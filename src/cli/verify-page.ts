/** Computed flows beside their estimates, as text. */
import { VERIFY_HEADINGS, VERIFY_METHOD, verdictLines, verifyRow } from '../formats/index.ts';
import type { VerifyCase } from '../formats/index.ts';
import { findingLines } from './verify-findings.ts';
import { table, wrap } from './words.ts';

/** Table and verdicts of one design; nothing for none. */
export function verifyLines(cases: readonly VerifyCase[]): string[] {
  if (cases.length === 0) return [];
  return [
    table(VERIFY_HEADINGS, cases.map(verifyRow)),
    ...verdictLines(cases).map((text) => wrap(text, '  ')),
  ];
}

/** How one design came out, with its grids. */
export function verifyPage(title: string, cases: readonly VerifyCase[]): string {
  const grids = cases.flatMap(({ velocity_m_per_s, grids: pair }) =>
    pair.map((grid) => [
      velocity_m_per_s.toFixed(2),
      grid.cellsAcross.toFixed(1),
      String(grid.cells),
      String(grid.steps),
      grid.loss.toFixed(4),
      (100 * grid.massError).toFixed(2),
      grid.converged ? 'yes' : 'no',
    ]),
  );
  const headings = [
    'velocity [m/s]',
    'cells across',
    'cells',
    'steps',
    'loss factor',
    'leak [%]',
    'at rest',
  ];
  const files = cases
    .flatMap(({ field, slice, landings }) => [field, slice, landings ?? null])
    .filter((name) => name !== null);
  return [
    title,
    '',
    ...verifyLines(cases),
    '',
    table(headings, grids),
    ...findingLines(cases),
    wrap(VERIFY_METHOD, '  '),
    wrap(`Fields, slices and landings: ${files.join(', ')}.`, '  '),
  ].join('\n');
}
