/** What is written over a view of a part: a dimension line for scale, and the directions. */
import type { Ink } from '../style/ink-tones.ts';
import { roundLength } from './round-length.ts';
import { basisOf } from './view.ts';
import type { View } from './view.ts';

const AXES = [
  { name: 'x', at: [1, 0, 0] },
  { name: 'y', at: [0, 1, 0] },
  { name: 'z', at: [0, 0, 1] },
] as const;

export function drawOver(
  canvas: HTMLCanvasElement | OffscreenCanvas,
  ink: Ink,
  view: View,
  mm_per_px: number,
  density: number,
): void {
  const context: CanvasRenderingContext2D | OffscreenCanvasRenderingContext2D | null =
    canvas.getContext('2d');
  if (context === null || mm_per_px === 0) return;
  const { width, height } = canvas;
  context.save();
  context.font = `${12 * density}px ${ink.font}`;
  context.lineWidth = 1.2 * density;
  context.strokeStyle = ink.line;
  context.fillStyle = ink.line;
  const pad = 14 * density;
  const length_mm = roundLength(mm_per_px * width * 0.3);
  const length = length_mm / mm_per_px;
  const right = width - pad;
  const foot = height - pad;
  const tick = 4 * density;
  context.beginPath();
  context.moveTo(right - length, foot);
  context.lineTo(right, foot);
  for (const x of [right - length, right]) {
    context.moveTo(x, foot - tick);
    context.lineTo(x, foot + tick);
    context.moveTo(x - tick / 1.5, foot + tick / 1.5);
    context.lineTo(x + tick / 1.5, foot - tick / 1.5);
  }
  context.stroke();
  context.textAlign = 'center';
  context.fillText(`${Number(length_mm.toPrecision(1))} mm`, right - length / 2, foot - tick - 2);
  const basis = basisOf(view);
  const reach = 24 * density;
  const [x0, y0] = [pad + reach, foot - reach];
  context.textAlign = 'left';
  context.textBaseline = 'middle';
  for (const { name, at } of AXES) {
    const dx = reach * dot(at, basis.right);
    const dy = -reach * dot(at, basis.up);
    // An axis along the line of sight would be a dot with a name on it.
    if (Math.hypot(dx, dy) < 0.25 * reach) continue;
    context.beginPath();
    context.moveTo(x0, y0);
    context.lineTo(x0 + dx, y0 + dy);
    context.stroke();
    context.textAlign = dx < -4 ? 'right' : 'left';
    context.fillText(name, x0 + 1.12 * dx + (dx < -4 ? -3 : 3), y0 + 1.18 * dy);
  }
  context.restore();
}

function dot(a: readonly number[], b: readonly number[]): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}
