/** Pictures of plots as plain data, so that they can be drawn on the page, in a worker, or to a file. */
import { drawMatrix, drawMatrixTop } from './matrix-draw.ts';
import type { MatrixScene } from './matrix-data.ts';
import { linesOf } from './parallel-data.ts';
import type { ParallelScene } from './parallel-data.ts';
import { drawLines, drawParallelAxes, drawParallelTop } from './parallel-draw.ts';
import type { Pen } from './pen.ts';
import type { Span } from './scatter-data.ts';
import { drawScatter, drawScatterTop } from './scatter-draw.ts';
import type { Ring, ScatterScene } from './scatter-draw.ts';

/** A picture; with `top` also what is selected, as files show it. */
export type Picture =
  | {
      readonly kind: 'scatter';
      readonly scene: ScatterScene;
      readonly top?: readonly Ring[];
    }
  | {
      readonly kind: 'parallel';
      readonly scene: ParallelScene;
      readonly kept: Uint8Array;
      readonly top?: {
        readonly ranges: Readonly<Record<string, Span>>;
        /** Names of the rows that are selected. */
        readonly chosen: ReadonlyMap<number, string>;
      };
    }
  | {
      readonly kind: 'matrix';
      readonly scene: MatrixScene;
      readonly kept: Uint8Array;
      readonly top?: readonly number[];
    };

export function drawPicture(pen: Pen, picture: Picture): void {
  switch (picture.kind) {
    case 'scatter':
      drawScatter(pen, picture.scene);
      if (picture.top !== undefined) drawScatterTop(pen, picture.scene, picture.top);
      break;
    case 'parallel': {
      const { scene, kept, top } = picture;
      const lines = linesOf(scene);
      drawLines(pen, lines, kept);
      if (top === undefined) break;
      drawParallelAxes(pen, scene, top.ranges);
      drawParallelTop(pen, lines, top.chosen, -1, '');
      break;
    }
    case 'matrix':
      drawMatrix(pen, picture.scene, picture.kept);
      if (picture.top !== undefined) drawMatrixTop(pen, picture.scene, picture.top, -1);
      break;
    default: {
      const never: never = picture;
      return never;
    }
  }
}
