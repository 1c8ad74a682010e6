/** The members of a front that differ most. */
import { kneeOf } from './knee.ts';
import type { Front } from './model.ts';

/**
 * Ids of the designs that lie farthest apart in the objectives, each scaled to the front's span: the
 * two ends first, then always the one whose nearest chosen neighbour is farthest. Of equals the one
 * with the smaller id. One alone is the knee.
 *
 * Source: farthest-point traversal, Gonzalez 1985, Theor. Comput. Sci. 38:293 (from memory).
 *
 * @param count how many; fewer where the front has fewer, or only copies are left.
 */
export function differentDesigns(front: Front, count: number): string[] {
  const { designs } = front;
  if (count < 1 || designs.length === 0) return [];
  const knee = kneeOf(front);
  if (count === 1) return knee === null ? [] : [knee.id];
  const points = scaledObjectives(front);
  const distance = (a: number, b: number): number =>
    points[a].reduce((sum, value, k) => sum + (value - points[b][k]) * (value - points[b][k]), 0);
  let ends: [number, number] = [0, 0];
  let widest = 0;
  for (let a = 0; a < designs.length; a++) {
    for (let b = a + 1; b < designs.length; b++) {
      const apart = distance(a, b);
      if (apart > widest) {
        widest = apart;
        ends = [a, b];
      }
    }
  }
  const chosen = widest === 0 ? [0] : [...ends];
  while (chosen.length < Math.min(count, designs.length)) {
    let next = -1;
    let farthest = 0;
    for (let i = 0; i < designs.length; i++) {
      const nearest = chosen.reduce((least, j) => Math.min(least, distance(i, j)), Infinity);
      if (nearest > farthest) {
        farthest = nearest;
        next = i;
      }
    }
    if (next < 0) break;
    chosen.push(next);
  }
  return chosen.map((i) => designs[i].id);
}

/** Objectives of every design from 0 to 1 over the front; a missing one stands at 0. */
function scaledObjectives(front: Front): number[][] {
  const columns = front.objectives.map((id) => {
    const j = front.measures.findIndex((info) => info.id === id);
    const readings = front.designs.map((design) => design.readings[j] ?? 0);
    const low = Math.min(...readings);
    const span = Math.max(...readings) - low;
    return readings.map((value) => (span === 0 ? 0 : (value - low) / span));
  });
  return front.designs.map((_, i) => columns.map((column) => column[i]));
}
