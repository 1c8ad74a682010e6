/**
 * The yardstick of a run: bounds that normalise its objectives and the hypervolume over them.
 * Fixed once from the first population, written into the result, never moved.
 */
import { quantile } from '../numeric/index.ts';
import { hypervolume } from '../search/index.ts';
import type { Scores } from '../search/index.ts';

export interface Yardstick {
  /** Best and reference value of each objective, minimised [m]. */
  readonly ideal: readonly number[];
  readonly reference: readonly number[];
}

/**
 * Best value and nine-tenths quantile of each objective over the rows that could be scored; the
 * quantile keeps one absurd random design from flattening the scale.
 */
export function setYardstick(scores: Scores, count: number, objectives: number): Yardstick {
  const ideal: number[] = [];
  const reference: number[] = [];
  for (let j = 0; j < objectives; j++) {
    const column: number[] = [];
    for (let i = 0; i < count; i++) {
      if (scores.failed[i] === 0) column.push(scores.values[i * objectives + j]);
    }
    if (column.length === 0) column.push(0);
    const low = Math.min(...column);
    const high = quantile(column, 0.9);
    ideal.push(low);
    reference.push(high > low ? high : low + Math.max(1e-9, Math.abs(low)));
  }
  return { ideal, reference };
}

/**
 * Hypervolume of a set of minimised objective vectors [n x m], normalised so that a single point at
 * the yardstick's ideal scores 1. Points better than the ideal score more; points beyond the
 * reference add nothing.
 */
export function measureSet(yardstick: Yardstick, values: Float64Array, count: number): number {
  const m = yardstick.ideal.length;
  const scaled = new Float64Array(count * m);
  for (let i = 0; i < count; i++) {
    for (let j = 0; j < m; j++) {
      scaled[i * m + j] =
        (values[i * m + j] - yardstick.ideal[j]) / (yardstick.reference[j] - yardstick.ideal[j]);
    }
  }
  return hypervolume(scaled, count, m, new Float64Array(m).fill(1));
}
