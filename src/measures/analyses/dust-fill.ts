/** How long pockets take to fill, and what the plate keeps then. */
import type { Brief } from '../../brief/index.ts';
import { designFlow_m3_per_s } from './supply.ts';
import { dustAnalysis } from './dust.ts';
import type { Analysis, Assessment } from '../assessment.ts';

/** Dust load of a brief that does not state any [mg/m3]; a dusty room, from memory. */
export const DEFAULT_LOAD_mg_per_m3 = 1;
/** Longer than this is as good as for ever [h]: over a hundred years. */
const LONGEST_h = 1e6;

/**
 * Pockets that together keep less of the dust than this fade out: a pocket out of the dust's way never
 * fills, which a search takes for a long life. Own heuristic.
 */
const USEFUL_SHARE = 0.03;

export interface FillReport {
  /**
   * Time at which the pockets catch half of what they catch empty [h]; fades to 0 where they catch
   * next to nothing.
   */
  readonly halfway_h: number;
  /** Time at which the first pocket is full [h]. */
  readonly first_h: number;
  /** Share of the dust mass that the plate keeps with all pockets full. */
  readonly captureFull: number;
}

export const fillAnalysis: Analysis<FillReport> = { name: 'pocket filling', run: analyseFill };

export function dustLoad({ dust }: Brief): number {
  return dust.load_mg_per_m3 ?? DEFAULT_LOAD_mg_per_m3;
}

/**
 * Each pocket fills at the rate at which it catches while empty, t = room/(load flow share), and then
 * catches nothing more; what passes it is not given to the next, so the later pockets fill sooner in
 * truth. The median of t by share is the time at which half of the catching is gone.
 */
function analyseFill(assessment: Assessment): FillReport {
  const { capture, inPockets, pocketShare, pocketRoom_g } = assessment.get(dustAnalysis);
  const dust_g_per_h =
    dustLoad(assessment.brief) * 1e-3 * designFlow_m3_per_s(assessment.brief) * 3600;
  const order: { readonly time_h: number; readonly share: number; readonly index: number }[] = [];
  pocketShare.forEach((share, index) => {
    if (share > 0)
      order.push({ time_h: pocketRoom_g[index] / (dust_g_per_h * share), share, index });
  });
  order.sort((a, b) => a.time_h - b.time_h || a.index - b.index);
  const captureFull = Math.max(0, capture - inPockets);
  if (order.length === 0) return { halfway_h: 0, first_h: 0, captureFull };
  let all = 0;
  for (const { share } of order) all += share;
  let gone = 0;
  let halfway_h = 0;
  for (const { time_h, share } of order) {
    gone += share;
    halfway_h = time_h;
    if (gone >= 0.5 * all) break;
  }
  const t = Math.min(1, all / USEFUL_SHARE);
  return {
    halfway_h: Math.min(LONGEST_h, halfway_h) * t * t * (3 - 2 * t),
    first_h: Math.min(LONGEST_h, order[0].time_h),
    captureFull,
  };
}
