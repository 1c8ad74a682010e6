/** What the views of parts show: shared by all designs side by side. */
import { signal } from '@preact/signals';
import type { ShadeKind } from '../../engine/index.ts';
import { FIRST_VIEW } from './view.ts';
import type { View } from './view.ts';

export type Shown = 'part' | 'air' | 'both';

export interface Cut {
  /** 0, 1, 2: the plane stands across x, y or z. */
  readonly axis: 0 | 1 | 2;
  /** Where, as a share of the part's extent along the axis. */
  readonly share: number;
  /** Shows the half of smaller coordinates instead of the greater. */
  readonly other: boolean;
}

export const AXES = ['x', 'y', 'z'] as const;

export const view = signal<View>(FIRST_VIEW);
export const shown = signal<Shown>('part');
export const shade = signal<ShadeKind | null>(null);
export const cut = signal<Cut | null>(null);
/** A lamp behind the plate: what shines through is a straight way along the line of sight. */
export const isLit = signal(false);
/** Layer of the print looked at; null: of each design the one of which most hangs. */
export const layer = signal<number | null>(null);

/** Low and high corner of a body of loose triangles [mm]. */
export function boxOf(corners: Float32Array): { readonly low: number[]; readonly high: number[] } {
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  for (let k = 0; k < corners.length; k++) {
    const d = k % 3;
    if (corners[k] < low[d]) low[d] = corners[k];
    if (corners[k] > high[d]) high[d] = corners[k];
  }
  return { low, high };
}
