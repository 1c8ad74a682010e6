/** A scatter matrix: every pair of measures once, with the names along its foot and its left side. */
import type { Front } from '../../engine/index.ts';
import { columnsOf } from './columns.ts';
import type { Column } from './columns.ts';
import { roomyExtent } from './scatter-data.ts';
import type { Span } from './scatter-data.ts';

const MATRIX = { left: 66, bottom: 46, gap: 8, top: 6, right: 6 } as const;

interface MatrixCell {
  /** Places of the measures across and up among the columns. */
  readonly across: number;
  readonly up: number;
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

export interface MatrixScene {
  readonly columns: readonly Column[];
  readonly spans: readonly Span[];
  readonly cells: readonly MatrixCell[];
  /** Width and height of a cell [px]. */
  readonly cell: { readonly width: number; readonly height: number };
}

/** Height of a matrix of so many measures in a width: cells a little wider than high. */
export function matrixHeight(measures: number, width: number): number {
  const { left, right, top, bottom } = MATRIX;
  const count = Math.max(1, measures - 1);
  const cell = (width - left - right) / count;
  return top + bottom + count * Math.min(240, Math.max(84, 0.72 * cell));
}

export function layMatrix(
  front: Front,
  ids: readonly string[],
  width: number,
  height: number,
): MatrixScene {
  const known = columnsOf(front);
  const columns = ids.flatMap((id) => known.get(id) ?? []);
  const count = Math.max(1, columns.length - 1);
  const cell = {
    width: (width - MATRIX.left - MATRIX.right) / count - MATRIX.gap,
    height: (height - MATRIX.top - MATRIX.bottom) / count - MATRIX.gap,
  };
  const cells: MatrixCell[] = [];
  for (let up = 1; up < columns.length; up++) {
    for (let across = 0; across < up; across++) {
      cells.push({ across, up, ...placeOf(cell, across, up - 1), ...cell });
    }
  }
  return { columns, spans: columns.map(({ values }) => roomyExtent(values)), cells, cell };
}

/** Upper left corner of the cell in a column and a row. */
function placeOf(
  cell: MatrixScene['cell'],
  column: number,
  row: number,
): { readonly left: number; readonly top: number } {
  return {
    left: MATRIX.left + column * (cell.width + MATRIX.gap),
    top: MATRIX.top + row * (cell.height + MATRIX.gap),
  };
}

/** Where the designs lie in a cell [px]; NaN without a reading. */
export function cellPoints(
  scene: MatrixScene,
  cell: MatrixCell,
): { readonly x: Float64Array; readonly y: Float64Array } {
  const place = (column: number, from: number, length: number): Float64Array => {
    const [low, high] = scene.spans[column];
    return scene.columns[column].values.map(
      (value) => from + ((value - low) * length) / (high - low),
    );
  };
  return {
    x: place(cell.across, cell.left, cell.width),
    y: place(cell.up, cell.top + cell.height, -cell.height),
  };
}

/** The cell at a place, or -1. */
export function cellAt(scene: MatrixScene, x: number, y: number): number {
  return scene.cells.findIndex(
    ({ left, top, width, height }) =>
      x >= left && x <= left + width && y >= top && y <= top + height,
  );
}
