/** The table of a front: ids, where each design comes from, its objectives, its tightest limit. */
import { markWords } from '../engine/index.ts';
import type { Front, FrontDesign, FrontMarks, StartResult } from '../engine/index.ts';
import { figure, verifyMark } from '../formats/index.ts';
import type { VerifyCase } from '../formats/index.ts';
import { table } from './words.ts';

/**
 * @param most rows at the most, evenly picked; marked designs and computed ones always show.
 * @param verified computed flows by design.
 */
export function frontTable(
  front: Front,
  marks: FrontMarks,
  most: number,
  verified: ReadonlyMap<string, readonly VerifyCase[]>,
): string {
  const at = front.objectives.map((id) => front.measures.findIndex((info) => info.id === id));
  const headings = [
    'design',
    ...at.map((j) => `${front.measures[j].label} [${front.measures[j].unit}]`),
    'tightest limit',
    'origin',
    'mark',
  ];
  const rows = pick(front.designs, marks, most, verified).map((design) => [
    design.id,
    ...at.map((j) => figure(design.readings[j])),
    tightest(design),
    design.origin,
    [markWords(marks, design.id), verifyMark(verified.get(design.id) ?? [])]
      .filter((text) => text !== '' && text !== null)
      .join('; '),
  ]);
  return table(headings, rows);
}

/** The starting designs beside the same objectives. */
export function startsTable(front: Front): string {
  const at = front.objectives.map((id) => front.measures.findIndex((info) => info.id === id));
  const headings = [
    'starting design',
    ...at.map((j) => `${front.measures[j].label} [${front.measures[j].unit}]`),
    'meets limits',
    'hypervolume',
  ];
  return table(
    headings,
    front.starts.map((start) => [
      start.label,
      ...at.map((j) => figure(start.readings[j])),
      verdict(start),
      figure(start.hypervolume),
    ]),
  );
}

function verdict(start: StartResult): string {
  if (start.failure !== null) return 'does not fit';
  return start.feasible ? 'yes' : 'no';
}

function pick(
  designs: readonly FrontDesign[],
  marks: FrontMarks,
  most: number,
  verified: ReadonlyMap<string, unknown>,
): FrontDesign[] {
  if (designs.length <= most) return [...designs];
  const kept = new Set<number>();
  designs.forEach((design, i) => {
    if (markWords(marks, design.id) !== '' || verified.has(design.id)) kept.add(i);
  });
  const steps = Math.max(1, most - 1);
  for (let k = 0; k < most; k++) kept.add(Math.round((k * (designs.length - 1)) / steps));
  return [...kept].toSorted((a, b) => a - b).map((i) => designs[i]);
}

/** The limit with the least margin, relative to its own size. */
function tightest(design: FrontDesign): string {
  let words = '-';
  let least = Number.POSITIVE_INFINITY;
  for (const limit of design.limits) {
    const relative = limit.margin / (limit.value === 0 ? 1 : Math.abs(limit.value));
    // A limit of zero that is met exactly (no overlap) says nothing about how tight a design is.
    if (relative < least && !(limit.value === 0 && limit.margin === 0)) {
      least = relative;
      words = `${limit.measure} by ${figure(limit.margin)}`;
    }
  }
  return words;
}
