/** A small library of fan curves to begin with. All of them are INVENTED; none belongs to a product. */

export interface LibraryFan {
  readonly name: string;
  /** Edge of the square frame [mm]. */
  readonly frame_mm: number;
  readonly note: string;
  readonly curve: readonly { readonly flow_m3_per_h: number; readonly pressure_Pa: number }[];
  /** Ring that the blades sweep. */
  readonly swept: { readonly diameter_mm: number; readonly hub_mm: number };
}

/** Shares of free flow and of shut-off pressure along the invented shape; the dip is at 0.5 to 0.6. */
const SHAPE: readonly (readonly [number, number])[] = [
  [0, 1],
  [0.15, 0.88],
  [0.3, 0.76],
  [0.45, 0.65],
  [0.55, 0.62],
  [0.7, 0.53],
  [0.85, 0.3],
  [1, 0],
];

/**
 * Invented curves of plausible shape: steep at first, flatter or dipping in the stall at 40 to 70 % of
 * the free flow, steep again at the end (common practice, no source). Take the maker's data sheet
 * for a real fan.
 */
export const FAN_LIBRARY: readonly LibraryFan[] = [
  invent('small-40', 40, 'small, fast', 12, 48, { diameter_mm: 38, hub_mm: 17 }),
  invent('mid-60', 60, 'for instruments', 31, 40, { diameter_mm: 58, hub_mm: 25 }),
  invent('calm-80', 80, 'slow and quiet', 42, 16, { diameter_mm: 76, hub_mm: 32 }),
  invent('brisk-80', 80, 'all-round', 66, 38, { diameter_mm: 76, hub_mm: 32 }),
  invent('flat-92', 92, 'shallow frame', 72, 24, { diameter_mm: 88, hub_mm: 40 }),
  invent('calm-120', 120, 'slow and quiet', 105, 18, { diameter_mm: 116, hub_mm: 42 }),
  invent('strong-120', 120, 'for filters and dense plates', 190, 82, {
    diameter_mm: 116,
    hub_mm: 46,
  }),
  invent('broad-140', 140, 'much air, little pressure', 160, 20, { diameter_mm: 134, hub_mm: 48 }),
];

function invent(
  name: string,
  frame_mm: number,
  note: string,
  free_m3_per_h: number,
  shutOff_Pa: number,
  swept: LibraryFan['swept'],
): LibraryFan {
  const curve = SHAPE.map(([flow, pressure]) => ({
    flow_m3_per_h: round(flow * free_m3_per_h),
    pressure_Pa: round(pressure * shutOff_Pa),
  }));
  return { name, frame_mm, note, curve, swept };
}

/** To a tenth: finer figures would pretend to knowledge. */
function round(value: number): number {
  return Math.round(10 * value) / 10;
}
