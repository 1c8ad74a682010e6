/** Computed flows of a design in the report. */
import { VERIFY_HEADINGS, VERIFY_METHOD, verdictLines, verifyRow } from './verify-words.ts';
import type { VerifyCase } from './verify-schema.ts';
import { escapeXml } from './xml.ts';

/** A section on computed flows as HTML; empty without any. */
export function flowsSection(cases: readonly VerifyCase[]): string {
  if (cases.length === 0) return '';
  const last = VERIFY_HEADINGS.length - 1;
  const classOf = (j: number): string => (j === 0 || j === last ? '' : ' class="n"');
  const heads = VERIFY_HEADINGS.map((text, j) => `<th${classOf(j)}>${escapeXml(text)}</th>`);
  const rows = cases.map((entry) => {
    const cells = verifyRow(entry).map((text, j) => `<td${classOf(j)}>${escapeXml(text)}</td>`);
    return `<tr>${cells.join('')}</tr>`;
  });
  const verdicts = verdictLines(cases).map((text) => `<li>${escapeXml(text)}</li>`);
  return `<h3>Computed flow against the estimate</h3>
<table><thead><tr>${heads.join('')}</tr></thead><tbody>
${rows.join('\n')}
</tbody></table>
<ul>${verdicts.join('')}</ul>
<p>${escapeXml(VERIFY_METHOD)}</p>`;
}
