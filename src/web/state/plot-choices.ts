/** What the plots show beside the axes of the scatter, kept while views change and runs go on. */
import { signal } from '@preact/signals';
import type { Front } from '../../engine/index.ts';
import { columnsOf } from '../plots/columns.ts';
import type { PlotView } from '../plots/scatter-data.ts';
import { axisSize, axisX, axisY } from './axes.ts';

/** How the third measure of the scatter shows. */
export const thirdAs = signal<'size' | 'shade'>('size');
/** The part of the scatter looked at, and of what: of other measures or fronts it says nothing. */
export const scatterView = signal<{ readonly of: string; readonly view: PlotView } | null>(null);
/** Ids of the measures of the parallel coordinates in order; null stands for the front's own choice. */
export const parallelIds = signal<readonly string[] | null>(null);
/** Ids of the measures that the scatter matrix shows beside the objectives. */
export const matrixExtra = signal<readonly string[]>([]);

/** Most measures of a scatter matrix: with more, its cells are too small to read. */
export const MOST_IN_MATRIX = 6;

/** Measures of the scatter as they apply to a front; null where it has none. */
export function scatterAxes(front: Front): {
  readonly x: string;
  readonly y: string;
  readonly third: string | null;
} {
  const columns = columnsOf(front);
  const has = (id: string | undefined): id is string => id !== undefined && columns.has(id);
  const own = front.objectives.filter(has);
  const [first = front.objectives[0], second = first] = own;
  const x = has(axisX.value) ? axisX.value : first;
  const y = has(axisY.value) ? axisY.value : second;
  const size = axisSize.value;
  if (size === 'none') return { x, y, third: null };
  const third = has(size) ? size : own.find((id) => id !== x && id !== y);
  return { x, y, third: third ?? null };
}

/** By default the objectives and the limited measures that differ: what a decision hangs on. */
export function parallelAxes(front: Front): readonly string[] {
  const columns = columnsOf(front);
  const varied = (id: string): boolean => {
    const column = columns.get(id);
    return column !== undefined && column.low < column.high;
  };
  const limited = (front.designs[0]?.limits ?? []).map(({ measure }) => measure).filter(varied);
  const wanted = parallelIds.value ?? [...front.objectives, ...limited].slice(0, 8);
  return [...new Set(wanted)].filter((id) => columns.has(id));
}

export function matrixMeasures(front: Front): readonly string[] {
  const columns = columnsOf(front);
  const wanted = [...front.objectives, ...matrixExtra.value];
  return [...new Set(wanted)].filter((id) => columns.has(id)).slice(0, MOST_IN_MATRIX);
}

/** Columns of the table: the objectives, and whatever the scatter shows besides. */
export function tableMeasures(front: Front): readonly string[] {
  const { x, y, third } = scatterAxes(front);
  return [...new Set([...front.objectives, x, y, ...(third === null ? [] : [third])])];
}
