/** The course of a channel as drawn, before it is mirrored, turned and moved. */
import { FREE_REACH } from './genes.ts';
import type { Traits } from './traits.ts';

export type Route = readonly (readonly [number, number, number])[];

/**
 * Inlet, bends, outlet, about the middle of the lean. A step moves bends towards one face by
 * k f (1 - f), f the depth as a share of the thickness, which keeps their order for |k| < 1. A free
 * channel's own offset moves all its bends alike.
 *
 * @param slot which own offsets a free channel has.
 * @param pitch_mm distance of neighbours along a row, the unit of own offsets.
 */
export function pointsOf(traits: Traits, step: number, slot: number, pitch_mm: number): Route {
  const { leanX_mm, leanY_mm, thickness_mm, motif } = traits;
  const isFree = motif === 'free';
  const reach_mm = FREE_REACH * pitch_mm;
  const ownX = isFree ? reach_mm * traits.free[2 * slot] : 0;
  const ownY = isFree ? reach_mm * traits.free[2 * slot + 1] : 0;
  const points: [number, number, number][] = [[-0.5 * leanX_mm, -0.5 * leanY_mm, 0]];
  // A free channel without bends of the motif still has one of its own.
  const bends = isFree && traits.bends.length === 0 ? [OWN_BEND] : traits.bends;
  const stepped = motif === 'stepped' || isFree;
  const k = stepped ? traits.stepDepth * ((2 * step) / (traits.steps - 1) - 1) : 0;
  bends.forEach((bend, i) => {
    const even = (i + 1 + 0.5 * bend.depth) / (bends.length + 1);
    const depth = even + k * even * (1 - even);
    points.push([
      leanX_mm * (depth - 0.5) + bend.x_mm + ownX,
      leanY_mm * (depth - 0.5) + bend.y_mm + ownY,
      depth * thickness_mm,
    ]);
  });
  points.push([0.5 * leanX_mm, 0.5 * leanY_mm, thickness_mm]);
  return points;
}

const OWN_BEND = { x_mm: 0, y_mm: 0, depth: 0 };
