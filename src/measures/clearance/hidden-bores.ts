/** What could hide between two stations: a widening between samples, a short pocket. */
import { SLOT } from './tubes.ts';
import type { Tubes } from './tubes.ts';
import { stationBump } from './pocket-hulls.ts';

/**
 * Raises stations to what stands between them.
 *
 * The bore runs monotone between its given values, so its peaks are at those values: where one lies
 * between two stations and exceeds both, both take it. Pockets mark the stations they widen.
 */
export function raiseHidden(t: Tubes, shape: number, bore_mm: readonly number[]): void {
  const { stations, bore } = t;
  const base = shape * stations;
  for (let i = 1; i < bore_mm.length - 1; i++) {
    const k = base + Math.trunc((i * (stations - 1)) / (bore_mm.length - 1));
    if (bore_mm[i] <= bore[k] || bore_mm[i] <= bore[k + 1]) continue;
    widen(t, k, bore_mm[i]);
    widen(t, k + 1, bore_mm[i]);
  }
  const steps = stations - 1;
  for (const pocket of t.pockets[shape]) {
    // A mouth's stations, and one more at either end, which `stationBump` may still count.
    const middle = pocket.at * steps;
    const around = (0.5 * pocket.length_mm * steps) / t.length_mm[shape] + 1.5;
    const last = base + Math.min(steps, Math.ceil(middle + around));
    for (let k = base + Math.max(0, Math.floor(middle - around)); k <= last; k++) {
      const bump = stationBump(t, shape, k, pocket);
      if (bump <= 0) continue;
      t.pocketed[k] = 1;
      t.hullAt[k] = -1;
      // 1.05 covers the corners that enclose the pocket's curved mouth.
      const reach = 1.05 * (sectionRadius(t, shape, k) + bump);
      if (reach > t.reach[k]) t.reach[k] = reach;
    }
  }
}

function widen(t: Tubes, k: number, bore_mm: number): void {
  const ratio = bore_mm / t.bore[k];
  t.bore[k] = bore_mm;
  t.size[k] *= ratio;
  t.reach[k] *= ratio;
}

function sectionRadius(t: Tubes, shape: number, station: number): number {
  const r = 0.5 * t.bore[station];
  const size = t.size[station];
  return t.kind[shape] === SLOT ? r + size : Math.max(r, size);
}
