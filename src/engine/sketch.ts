/** A brief at a glance: the plate from above with the ports of its first starting design. */
import { FAN_FRAMES, mountingHoles } from '../brief/index.ts';
import type { Brief } from '../brief/index.ts';
import { outlinePolygon } from '../design/index.ts';
import { createGenome } from '../genome/index.ts';

export interface Sketch {
  /** Corners of the outline, x y per row [mm]. */
  readonly outline: readonly (readonly [number, number])[];
  readonly rim_mm: number;
  readonly holes: readonly {
    readonly x_mm: number;
    readonly y_mm: number;
    readonly diameter_mm: number;
  }[];
  /** Inlet ports of the first starting design. */
  readonly ports: readonly {
    readonly x_mm: number;
    readonly y_mm: number;
    readonly bore_mm: number;
  }[];
  /** What those ports belong to. */
  readonly start: string | null;
  /** Ring swept by the fan: as stated, or as usual for the frame; null without a fan. */
  readonly swept: {
    readonly x_mm: number;
    readonly y_mm: number;
    readonly diameter_mm: number;
    readonly hub_mm: number;
  } | null;
}

/** How far arcs may stray in a sketch [mm]. */
const COARSE_MM = 0.05;
/** Hub over swept bore of a common axial fan; common practice, no source. */
const HUB_SHARE = 0.4;

export function sketchBrief(brief: Brief): Sketch {
  const { plate } = brief;
  const outline = outlinePolygon(plate.outline, COARSE_MM);
  const genome = createGenome(brief);
  const [first] = genome.starts;
  const decoded = first === undefined ? null : genome.decode(first.row, 0);
  const ports =
    decoded?.ok === true
      ? decoded.design.channels.flatMap((channel) =>
          channel.placements.map((place) => ({
            x_mm: place.x_mm + channel.points_mm[0][0],
            y_mm: place.y_mm + channel.points_mm[0][1],
            bore_mm: channel.bore_mm[0],
          })),
        )
      : [];
  return {
    outline,
    rim_mm: plate.rim_mm,
    holes: mountingHoles(plate.mounting),
    ports,
    start: first?.label ?? null,
    swept: sweptOf(brief),
  };
}

function sweptOf({ air, plate }: Brief): Sketch['swept'] {
  if (air.supply.kind !== 'fan') return null;
  if (air.supply.swept !== undefined) return air.supply.swept;
  if (plate.mounting.kind !== 'frame') return null;
  const { frame_mm } = plate.mounting;
  const bore_mm = FAN_FRAMES.find((frame) => frame.frame_mm === frame_mm)?.sweptBore_mm;
  if (bore_mm === undefined) return null;
  return { x_mm: 0, y_mm: 0, diameter_mm: bore_mm, hub_mm: HUB_SHARE * bore_mm };
}
