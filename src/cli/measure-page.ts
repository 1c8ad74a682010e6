/** All numbers of one design with limits, ranges left, sources and cautions, as text. */
import type { Brief, Measured, Stream } from '../engine/index.ts';
import { VERIFY_METHOD, citeCalibration, citeCorrection, figure } from '../formats/index.ts';
import type { VerifyCase } from '../formats/index.ts';
import type { Terminal } from './terminal.ts';
import { verifyLines } from './verify-page.ts';
import { table, wrap } from './words.ts';

export function measurePage(
  title: string,
  brief: Brief,
  measured: Measured,
  flows: readonly VerifyCase[],
  terminal: Terminal,
): string {
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
  parts.push(
    '',
    terminal.strong('Air per channel at the design flow'),
    streamTable(measured.streams),
  );
  if (flows.length > 0) {
    parts.push('', terminal.strong('Computed flow against the estimate'), ...verifyLines(flows));
    parts.push(wrap(VERIFY_METHOD, '  '));
  }
  parts.push('', terminal.strong('Batches'), batchTable(brief, measured.batches));
  const cited = citeCalibration(brief) ?? citeCorrection(brief);
  if (cited !== null) parts.push('', wrap(cited, ''));
  const corrected = correctionLine(measured.streams);
  if (corrected !== null) parts.push(wrap(corrected, ''));
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

/** Most rows of the table of channels; a free pack has as many shapes as channels. */
const MOST_STREAMS = 12;

/** Channels by speed, fastest first: the ends of the range matter, so the middle is left out. */
function streamTable(streams: readonly Stream[]): string {
  const sorted = streams.toSorted((a, b) => b.velocity_m_per_s - a.velocity_m_per_s);
  const half = MOST_STREAMS / 2;
  const shown =
    sorted.length <= MOST_STREAMS ? sorted : [...sorted.slice(0, half), ...sorted.slice(-half)];
  const rows = shown.map((stream) => [
    String(stream.channels),
    figure(stream.flow_m3_per_h),
    figure(stream.velocity_m_per_s),
    figure(stream.peakVelocity_m_per_s),
    figure(stream.reynolds),
  ]);
  const headings = [
    'channels',
    'flow each [m3/h]',
    'port speed [m/s]',
    'peak speed [m/s]',
    'Reynolds',
  ];
  const hidden = sorted.length - shown.length;
  return (
    table(headings, rows) + (hidden > 0 ? `\n(${hidden} shapes between them; --json has all)` : '')
  );
}

/** What the correction made of this design, with the widest of its intervals; null without one. */
function correctionLine(streams: readonly Stream[]): string | null {
  const all = streams.flatMap(({ correction }) => correction ?? []);
  if (all.length === 0) return null;
  const factors = all.map(({ factor }) => factor);
  const least = figure(Math.min(...factors));
  const most = figure(Math.max(...factors));
  const between = least === most ? least : `${least} to ${most}`;
  const low = figure(Math.min(...all.map((entry) => entry.low)));
  const high = figure(Math.max(...all.map((entry) => entry.high)));
  const strangers = all.filter(({ outside }) => outside.length > 0).length;
  const doubt =
    strangers === 0
      ? ''
      : ` ${strangers} of ${all.length} channel shapes lie outside what was computed: no interval holds for them.`;
  return `Here the estimate is multiplied by ${between}; 95 % interval ${low} to ${high}.${doubt}`;
}

/** What some batch sizes take; scrap, full beds and hands-on time as `batch` in the brief says. */
function batchTable({ process }: Brief, batches: Measured['batches']): string {
  if (batches.some(({ partsPerJob }) => partsPerJob === 0)) {
    return 'The plate does not fit the bed given by `batch` in the brief.';
  }
  return table(
    [
      'plates',
      'per job',
      'jobs',
      'machine [h]',
      'done in [h]',
      'hands-on [h]',
      `each [${process.currency}]`,
    ],
    batches.map((plan) => [
      String(plan.parts),
      String(plan.partsPerJob),
      String(plan.jobs),
      figure(plan.machine_h),
      figure(plan.elapsed_h),
      figure(plan.labour_h),
      figure(plan.costPerPart),
    ]),
  );
}

/** The same as data, for --json. */
export function measureData(
  title: string,
  measured: Measured,
  flows: readonly VerifyCase[],
): string {
  return JSON.stringify(
    {
      design: title,
      readings: Object.fromEntries(
        measured.measures.map((info, j) => [info.id, measured.readings[j]]),
      ),
      limits: measured.limits,
      outside: measured.outside,
      streams: measured.streams,
      flows,
      batches: measured.batches,
      measures: measured.measures,
    },
    null,
    2,
  );
}
