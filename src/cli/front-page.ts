/** A front for people: what it is, its table, what it is compared with, how far to trust it. */
import { marksOf } from '../engine/index.ts';
import type { Front, FrontDesign } from '../engine/index.ts';
import { citeCalibration, citeCorrection, figure } from '../formats/index.ts';
import type { VerifyCase } from '../formats/index.ts';
import { frontTable, startsTable } from './front-table.ts';
import { ribWords } from './rib-words.ts';
import type { Terminal } from './terminal.ts';
import { wrap } from './words.ts';

/** @param verified computed flows by design. */
export function frontPage(
  front: Front,
  rows: number,
  terminal: Terminal,
  verified: ReadonlyMap<string, readonly VerifyCase[]> = new Map(),
): string {
  const title = `${front.brief.name}: ${front.designs.length} ${front.designs.length === 1 ? 'design' : 'designs'} after ${front.generation} generations and ${front.evaluations} evaluations`;
  const parts = [terminal.strong(title), ''];
  if (front.designs.length === 0) {
    parts.push(
      'No design met every limit. Loosen a limit, widen a range in `routes`, or give the search more generations.',
    );
    if (front.nearest !== null) parts.push(missLine(front.nearest));
  } else {
    parts.push(frontTable(front, marksOf(front), rows, verified));
    const hidden = front.designs.length - rows;
    if (hidden > 0)
      parts.push(terminal.faint(`(${rows} or so of ${front.designs.length}; --rows shows more)`));
  }
  // A run in progress has not scored its starting designs yet.
  if (front.starts.length > 0) parts.push('', startsTable(front), '', volumeLine(front));
  const guesses = front.objectives.flatMap((id) => {
    const info = front.measures.find((entry) => entry.id === id);
    return info !== undefined && info.standing !== 'exact' && info.standing !== 'handbook'
      ? [`${id} (${info.standing})`]
      : [];
  });
  if (guesses.length > 0) {
    parts.push(wrap(`Objectives that rank rather than predict: ${guesses.join(', ')}.`, ''));
  }
  if (verified.size > 0) {
    parts.push(
      wrap(
        `Computed flows of ${[...verified.keys()].join(', ')}: \`anfract measure RUN ID\` sets them beside the estimate.`,
        '',
      ),
    );
  }
  const ribs = ribWords(front.brief);
  if (ribs !== null) parts.push(wrap(ribs, ''));
  for (const cited of [citeCalibration(front.brief), citeCorrection(front.brief)]) {
    if (cited !== null) parts.push(wrap(cited, ''));
  }
  const worst = refinedWorst(front);
  if (worst !== null) parts.push(wrap(worst, ''));
  return parts.join('\n');
}

function volumeLine(front: Front): string {
  const best = front.starts.reduce<{ label: string; value: number }>(
    (most, start) =>
      start.hypervolume > most.value ? { label: start.label, value: start.hypervolume } : most,
    { label: 'none that meets the limits', value: 0 },
  );
  return `Hypervolume ${figure(front.hypervolume.value)}; the best starting design alone (${best.label}) has ${figure(best.value)}.`;
}

/** Greatest change of an objective when the front is sampled twice as finely. */
function refinedWorst(front: Front): string | null {
  let worst: { id: string; design: string; change: number } | null = null;
  for (const design of front.designs) {
    for (const id of front.objectives) {
      const change = design.refinedChange[front.measures.findIndex((info) => info.id === id)];
      if (change !== null && Math.abs(change) > Math.abs(worst?.change ?? 0)) {
        worst = { id, design: design.id, change };
      }
    }
  }
  if (worst === null) return null;
  return `Sampled twice as finely, objectives change by ${figure(100 * Math.abs(worst.change))} % at the most (${worst.id} of ${worst.design}).`;
}

function missLine(nearest: FrontDesign): string {
  const broken = nearest.limits
    .filter((limit) => limit.margin < 0)
    .map((limit) => `${limit.measure} by ${figure(-limit.margin)}`);
  const words = broken.length === 0 ? 'misses narrowly' : `misses ${broken.join(', ')}`;
  return `The nearest, ${nearest.id}, ${words}; \`anfract measure RUN ${nearest.id}\` shows all of it.`;
}
