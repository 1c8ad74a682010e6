/** The knee of a front: the design that gives up least of every objective at once. */
import type { Front, FrontDesign } from './model.ts';

/**
 * The design nearest to the front's own best corner, each objective scaled to the front's span.
 * A heuristic for a first look, not a recommendation; null for an empty front.
 */
export function kneeOf(front: Front): FrontDesign | null {
  const at = front.objectives.map((id) => front.measures.findIndex((info) => info.id === id));
  const spans = at.map((j) => {
    const readings = front.designs.map((design) => design.readings[j] ?? 0);
    const low = Math.min(...readings);
    const high = Math.max(...readings);
    const best = front.measures[j].better === 'lower' ? low : high;
    return { best, width: high - low };
  });
  let knee: FrontDesign | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const design of front.designs) {
    let distance = 0;
    at.forEach((j, k) => {
      const { best, width } = spans[k];
      const off = width === 0 ? 0 : ((design.readings[j] ?? 0) - best) / width;
      distance += off * off;
    });
    if (distance < least) {
      least = distance;
      knee = design;
    }
  }
  return knee;
}

/** The best design of each objective, in the order of the front's objectives. */
export function bestOf(front: Front): FrontDesign[] {
  return front.objectives.flatMap((id) => {
    const j = front.measures.findIndex((info) => info.id === id);
    const sign = front.measures[j].better === 'lower' ? 1 : -1;
    let best: FrontDesign | null = null;
    for (const design of front.designs) {
      const reading = design.readings[j];
      const known = best?.readings[j] ?? null;
      if (reading !== null && (known === null || sign * reading < sign * known)) best = design;
    }
    return best === null ? [] : [best];
  });
}
