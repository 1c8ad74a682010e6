/** What a lip at the downstream edge of a pocket's mouth does to dust. */
import type { Pocket } from '../../design/index.ts';

/** Lee behind a lip, in heights: reattachment behind a step at 5 to 7 of them (from memory). */
const LEE = 6;

/** Open cavity times bounce trap, as in `pocketHold` (without its fade for shallow pockets). */
function hold(length_mm: number, depth_mm: number): number {
  const open = Math.min(1, Math.max(0.3, 1 - (0.7 * (length_mm / depth_mm - 6)) / 6));
  return (open * depth_mm) / (depth_mm + 0.5 * length_mm);
}

/**
 * How many times better a pocket holds what finds its mouth, by its lip: as if deeper by the lip's
 * height.
 *
 * @returns 1 or more; 1 without a lip.
 * @example lipGain({ at: 0.5, length_mm: 6, depth_mm: 2, width_deg: 90, side_deg: 0 }) // 1
 * @example lipGain({ at: 0.5, length_mm: 6, depth_mm: 2, width_deg: 90, side_deg: 0, lip_mm: 1 }) // 1.25
 * Source: own heuristic: rebounds and what skims along the floor meet a wall higher by the lip.
 */
export function lipGain(pocket: Pocket): number {
  const lip = pocket.lip_mm ?? 0;
  const depth = Math.min(pocket.depth_mm, 0.5 * pocket.length_mm);
  if (!(lip > 0) || !(depth > 0)) return 1;
  return hold(pocket.length_mm, depth + lip) / hold(pocket.length_mm, depth);
}

/**
 * Share of a pocket's floor that lies in the lee of its lip when the air flows in reverse [0..1].
 *
 *   min(1, 6 lip/length)
 *
 * @example lipLee({ at: 0.5, length_mm: 6, depth_mm: 2, width_deg: 90, side_deg: 0, lip_mm: 0.5 }) // 0.5
 * Source: own heuristic on the reattachment length behind a step.
 */
export function lipLee(pocket: Pocket): number {
  return Math.min(1, (LEE * (pocket.lip_mm ?? 0)) / pocket.length_mm);
}
