/** A test coupon: a small cut of a plate with its real channels, to print and measure first. */
import { InputError, fault } from '../brief/index.ts';
import type { Brief } from '../brief/index.ts';
import { sampleDesign } from '../design/index.ts';
import type { Channel, Design, PlateSamples } from '../design/index.ts';
import { designFlow_m3_per_s } from '../measures/index.ts';
import { cubicMetresPerHour } from '../numeric/index.ts';

export interface CouponOptions {
  readonly width_mm: number;
  readonly height_mm: number;
  /** Middle of the cut on the plate. */
  readonly x_mm: number;
  readonly y_mm: number;
}

export const COUPON_DEFAULTS = { width_mm: 30, height_mm: 30, x_mm: 0, y_mm: 0 } as const;

export interface Coupon {
  /** The brief of the coupon: its outline, no mounting, flow and fan in proportion to its ports. */
  readonly brief: Brief;
  readonly design: Design;
  readonly channels: number;
  /** Port area of the coupon over that of the plate. */
  readonly share: number;
}

/** Samples per channel: enough to see how far it swings sideways. */
const STATIONS = 64;

/**
 * Cuts a rectangle out of a plate. Channels that lie wholly within it, a minimum wall away from its
 * edge, are kept exactly as they are; the others are left out, so that no channel is cut open.
 *
 * @throws InputError when no channel fits, naming the least rectangle that would do, and for plates
 *   with openings in the rim, of which a cut would lose the way out.
 */
export function cutCoupon(brief: Brief, design: Design, options: CouponOptions): Coupon {
  if (brief.air.route.kind !== 'through') {
    const remedy = 'Print a whole plate, or a thinner one, to measure side exits.';
    throw new InputError(
      [fault('air.route.kind', brief.air.route.kind, 'be through for a coupon', remedy)],
      'coupon',
    );
  }
  const samples = sampleDesign(design, STATIONS);
  const rim_mm = brief.process.minimumWall_mm;
  const boxes = channelBoxes(samples);
  const halfX = 0.5 * options.width_mm - rim_mm;
  const halfY = 0.5 * options.height_mm - rim_mm;
  const kept = boxes.map(
    ({ minX, maxX, minY, maxY }) =>
      minX >= options.x_mm - halfX &&
      maxX <= options.x_mm + halfX &&
      minY >= options.y_mm - halfY &&
      maxY <= options.y_mm + halfY,
  );
  let open = 0;
  let inside = 0;
  kept.forEach((isKept, i) => {
    const area = samples.area_mm2[samples.shapeOf[i] * samples.stations];
    open += area;
    if (isKept) inside += area;
  });
  if (inside === 0) throw nothingFits(boxes, options, rim_mm);
  const share = inside / open;
  const outline = {
    kind: 'rectangle',
    width_mm: options.width_mm,
    height_mm: options.height_mm,
    cornerRadius_mm: 0,
  } as const;
  const { thickness_mm } = design.plate;
  return {
    brief: {
      ...brief,
      name: `${brief.name.slice(0, 110)}, coupon`,
      plate: { ...brief.plate, outline, thickness_mm, rim_mm, mounting: { kind: 'none' } },
      air: { ...brief.air, supply: supplyShare(brief, share) },
    },
    design: {
      ...design,
      plate: { ...design.plate, outline, rim_mm, holes: [] },
      channels: keepChannels(design.channels, kept, options),
    },
    channels: kept.filter(Boolean).length,
    share,
  };
}

/** The air that the kept channels had in the plate: each flow times their share. */
function supplyShare(brief: Brief, share: number): Brief['air']['supply'] {
  const { supply } = brief.air;
  const design_m3_per_h = cubicMetresPerHour(designFlow_m3_per_s(brief)) * share;
  if (supply.kind === 'flow') return { kind: 'flow', flow_m3_per_h: design_m3_per_h };
  const curve = supply.curve.map(({ flow_m3_per_h, pressure_Pa }) => ({
    flow_m3_per_h: flow_m3_per_h * share,
    pressure_Pa,
  }));
  return {
    kind: 'fan',
    curve,
    speedShare: supply.speedShare,
    designFlow_m3_per_h: design_m3_per_h,
  };
}

interface Box {
  readonly minX: number;
  readonly maxX: number;
  readonly minY: number;
  readonly maxY: number;
}

/** Box about each placed channel, walls and pockets included, in the plate's plane. */
function channelBoxes(samples: PlateSamples): Box[] {
  return Array.from(samples.shapeOf, (shape, i) => {
    const box = { minX: Infinity, maxX: -Infinity, minY: Infinity, maxY: -Infinity };
    for (let k = 0; k < samples.stations; k++) {
      const row = shape * samples.stations + k;
      const reach = samples.reach_mm[row];
      const x = samples.point_mm[3 * row] + samples.offset_mm[2 * i];
      const y = samples.point_mm[3 * row + 1] + samples.offset_mm[2 * i + 1];
      box.minX = Math.min(box.minX, x - reach);
      box.maxX = Math.max(box.maxX, x + reach);
      box.minY = Math.min(box.minY, y - reach);
      box.maxY = Math.max(box.maxY, y + reach);
    }
    return box;
  });
}

/** The kept placements, moved so that the middle of the cut is the origin. */
function keepChannels(
  channels: readonly Channel[],
  kept: readonly boolean[],
  { x_mm, y_mm }: CouponOptions,
): Channel[] {
  let placed = 0;
  const left: Channel[] = [];
  for (const channel of channels) {
    const placements = channel.placements.filter(() => kept[placed++]);
    if (placements.length === 0) continue;
    left.push({
      ...channel,
      placements: placements.map((place) => ({
        ...place,
        x_mm: place.x_mm - x_mm,
        y_mm: place.y_mm - y_mm,
      })),
    });
  }
  return left;
}

/** What would do: a rectangle about the channel nearest to the middle. */
function nothingFits(boxes: readonly Box[], options: CouponOptions, rim_mm: number): InputError {
  let least: Box | null = null;
  let nearest = Infinity;
  for (const box of boxes) {
    const x = 0.5 * (box.minX + box.maxX) - options.x_mm;
    const y = 0.5 * (box.minY + box.maxY) - options.y_mm;
    if (x * x + y * y < nearest) {
      nearest = x * x + y * y;
      least = box;
    }
  }
  const found = `${options.width_mm} x ${options.height_mm} mm at ${options.x_mm}, ${options.y_mm}`;
  if (least === null) {
    return new InputError(
      [fault('coupon', found, 'hold a channel', 'The plate has none.')],
      'coupon',
    );
  }
  const width = Math.ceil(least.maxX - least.minX + 2 * rim_mm);
  const height = Math.ceil(least.maxY - least.minY + 2 * rim_mm);
  const x = (0.5 * (least.minX + least.maxX)).toFixed(1);
  const y = (0.5 * (least.minY + least.maxY)).toFixed(1);
  const remedy = `The nearest channel needs ${width} x ${height} mm at ${x}, ${y}.`;
  return new InputError(
    [fault('coupon', found, 'hold at least one whole channel', remedy)],
    'coupon',
  );
}
