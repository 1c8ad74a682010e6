/** What could hide between two stations: a widening between samples, a short pocket. */
import { ROW, SLOT } from './tubes.ts';
import type { Tubes } from './tubes.ts';
import { stationBump } from './section-reach.ts';

/**
 * Raises stations to what stands between them.
 *
 * The bore runs monotone between its given values, so its peaks are at those values: where one lies
 * between two stations and exceeds both, both take it. Pockets mark the stations they widen.
 */
export function raiseHidden(t: Tubes, shape: number, bore_mm: readonly number[]): void {
  const { stations, row } = t;
  const base = shape * stations;
  for (let i = 1; i < bore_mm.length - 1; i++) {
    const k = base + Math.trunc((i * (stations - 1)) / (bore_mm.length - 1));
    const r = 0.5 * bore_mm[i];
    if (r <= row[k * ROW + 3] || r <= row[(k + 1) * ROW + 3]) continue;
    widen(row, k * ROW, r);
    widen(row, (k + 1) * ROW, r);
  }
  for (const pocket of t.pockets[shape]) {
    for (let k = base; k < base + stations; k++) {
      const bump = stationBump(t, shape, k, pocket);
      if (bump <= 0) continue;
      t.pocketed[k] = 1;
      // 1.05 covers the corners that enclose the pocket's curved mouth.
      const reach = 1.05 * (sectionRadius(t, shape, k) + bump);
      if (reach > row[k * ROW + 5]) row[k * ROW + 5] = reach;
    }
  }
}

function widen(row: Float64Array, o: number, r: number): void {
  const ratio = r / row[o + 3];
  row[o + 3] = r;
  row[o + 4] *= ratio;
  row[o + 5] *= ratio;
}

function sectionRadius(t: Tubes, shape: number, station: number): number {
  const o = station * ROW;
  return t.kind[shape] === SLOT
    ? t.row[o + 3] + t.row[o + 4]
    : Math.max(t.row[o + 3], t.row[o + 4]);
}
