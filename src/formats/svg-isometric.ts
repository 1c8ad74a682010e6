/** Isometric line drawing of a plate, cut open along its channels. */
import { isometric } from '../solids/index.ts';
import type { LineDrawing, Loops } from '../solids/index.ts';
import { INK, lettering, num, sheet } from './svg-sheet.ts';

const WIDTH = 720;
const MARGIN = 30;
const LETTERING = 34;

interface CutFace {
  /** Solid on the cut, x and z per point, the solid to the left [mm]. */
  readonly loops: Loops;
  readonly y_mm: number;
}

/**
 * SVG of a line drawing, with the cut face hatched.
 *
 * @param cut null for a whole plate.
 */
export function drawIsometric(drawing: LineDrawing, cut: CutFace | null, title: string): string {
  const box = boundsOf(drawing);
  const scale = (WIDTH - 2 * MARGIN) / Math.max(1e-9, box.maxX - box.minX);
  const x = (right: number): number => MARGIN + (right - box.minX) * scale;
  const y = (up: number): number => MARGIN + (box.maxY - up) * scale;
  const height = y(box.minY) + MARGIN + LETTERING;
  const path = (segments: Float64Array, width: number): string =>
    `<path d="${segmentPath(segments, x, y)}" fill="none" stroke="${INK.line}" ` +
    `stroke-width="${num(width)}" stroke-linecap="round"/>`;
  const face =
    cut === null
      ? []
      : [
          `<path d="${loopPath(cut, x, y)}" fill="url(#cut)" fill-rule="evenodd" ` +
            `stroke="${INK.line}" stroke-width="0.9"/>`,
        ];
  const how =
    cut === null ? 'whole' : `cut open at y = ${num(Math.round(100 * cut.y_mm) / 100)} mm`;
  return sheet({
    width: WIDTH,
    height,
    title,
    description: `Isometric line drawing of the plate, ${how}; the outlet face is on top.`,
    defs:
      '<pattern id="cut" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">' +
      `<rect width="5" height="5" fill="${INK.paper}"/>` +
      `<line x1="0" y1="0" x2="0" y2="5" stroke="${INK.accent}" stroke-width="0.9"/></pattern>`,
    body: [
      ...face,
      path(drawing.creases, 0.7),
      path(drawing.outlines, 0.5),
      lettering(MARGIN, height - 16, `Isometric, ${how}; outlet face on top`, { tone: INK.soft }),
    ],
  });
}

function boundsOf({ creases, outlines }: LineDrawing): {
  minX: number;
  minY: number;
  maxX: number;
  maxY: number;
} {
  const box = { minX: Infinity, minY: Infinity, maxX: -Infinity, maxY: -Infinity };
  for (const segments of [creases, outlines]) {
    for (let k = 0; k < segments.length; k += 2) {
      box.minX = Math.min(box.minX, segments[k]);
      box.maxX = Math.max(box.maxX, segments[k]);
      box.minY = Math.min(box.minY, segments[k + 1]);
      box.maxY = Math.max(box.maxY, segments[k + 1]);
    }
  }
  return box;
}

type Axis = (value_mm: number) => number;

/** One decimal: a tenth of a point is finer than any line is wide. */
function place(value: number): string {
  return num(Math.round(10 * value) / 10);
}

/** Stretches as one path; those that go on from the last one are joined to it. */
function segmentPath(segments: Float64Array, x: Axis, y: Axis): string {
  let path = '';
  let [lastX, lastY] = ['', ''];
  for (let k = 0; k < segments.length; k += 4) {
    const [x1, y1] = [place(x(segments[k])), place(y(segments[k + 1]))];
    const [x2, y2] = [place(x(segments[k + 2])), place(y(segments[k + 3]))];
    if (x1 === x2 && y1 === y2) continue;
    path += x1 === lastX && y1 === lastY ? `L${x2} ${y2}` : `M${x1} ${y1}L${x2} ${y2}`;
    [lastX, lastY] = [x2, y2];
  }
  return path;
}

function loopPath({ loops, y_mm }: CutFace, x: Axis, y: Axis): string {
  return loops
    .map((loop) => {
      const points: string[] = [];
      for (let k = 0; k < loop.length; k += 2) {
        const [right, up] = isometric(loop[k], y_mm, loop[k + 1]);
        points.push(`${place(x(right))} ${place(y(up))}`);
      }
      return `M${points.join('L')}Z`;
    })
    .join('');
}
