/** All numbers of one design with limits, ranges left, sources and cautions, as text. */
import type { Measured } from '../engine/index.ts';
import type { Terminal } from './terminal.ts';
import { figure, table, wrap } from './words.ts';

export function measurePage(title: string, measured: Measured, terminal: Terminal): string {
  const rows = measured.measures.map((info, j) => {
    const limits = measured.limits.filter((limit) => limit.measure === info.id);
    return [
      info.id,
      figure(measured.readings[j]),
      info.unit,
      info.better,
      limits
        .map((limit) => `${limit.bound === 'atMost' ? '<=' : '>='} ${figure(limit.value)}`)
        .join(' '),
      limits
        .map((limit) => (limit.margin >= 0 ? 'met' : `missed by ${figure(-limit.margin)}`))
        .join(' '),
      info.standing,
    ];
  });
  const headings = ['measure', 'reading', 'unit', 'better', 'limit', 'verdict', 'standing'];
  const parts = [terminal.strong(title), '', table(headings, rows)];
  if (measured.outside.length > 0) {
    parts.push('', terminal.strong('Outside the range where a number holds'));
    parts.push(...measured.outside.map((text) => wrap(text, '  ')));
  }
  const cautions = [...new Set(measured.measures.flatMap((info) => info.caution ?? []))];
  if (cautions.length > 0) {
    parts.push('', terminal.strong('Cautions'));
    parts.push(...cautions.map((text) => wrap(text, '  ')));
  }
  parts.push('', terminal.strong('What the numbers mean, and where they come from'));
  for (const info of measured.measures) {
    parts.push(
      wrap(`${info.id}: ${info.meaning} Holds: ${info.validity} Source: ${info.source}`, '  '),
    );
  }
  return parts.join('\n');
}

/** The same as data, for --json. */
export function measureData(title: string, measured: Measured): string {
  return JSON.stringify(
    {
      design: title,
      readings: Object.fromEntries(
        measured.measures.map((info, j) => [info.id, measured.readings[j]]),
      ),
      limits: measured.limits,
      outside: measured.outside,
      measures: measured.measures,
    },
    null,
    2,
  );
}
