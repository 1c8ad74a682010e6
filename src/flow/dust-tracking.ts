/** Dust of some size classes sent through a solved channel: how much lands, where, and what lifts it again. */
import { radicalInverse, wilsonShare } from '../numeric/index.ts';
import type { Share } from '../numeric/index.ts';
import { relaxationTime, settlingVelocity } from '../physics/index.ts';
import type { Air, DustClass } from '../physics/index.ts';
import type { AirField } from './air-field.ts';
import type { ChannelMap } from './channel-map.ts';
import { createChannelPlace } from './channel-map.ts';
import type { GrainKind } from './grains.ts';
import { FATE, createFlight, createFlyer } from './particles.ts';
import type { Bounds, Flight } from './particles.ts';

export interface DustOptions {
  readonly classes: readonly DustClass[];
  readonly density_kg_per_m3: number;
  readonly air: Air;
  /** Unit vector downwards in the plate's axes, or null without gravity. */
  readonly down: readonly [number, number, number] | null;
  /** Grains of each class. */
  readonly grains: number;
  /** Whether dry grains bounce off walls that they meet too fast (`REBOUND_m2_per_s`). */
  readonly isDry: boolean;
  /** Square they start in at `Bounds.start_mm`: least x, greatest x, least y, greatest y. */
  readonly start_mm: readonly [number, number, number, number];
}

/** Fates of one class. */
export interface ClassFlights {
  readonly diameter_um: number;
  readonly massShare: number;
  readonly started: number;
  /** Grains that came into the channel; the shares below are of these. */
  readonly entered: number;
  /** Grains that touched the inlet face beside the port. */
  readonly onFace: number;
  /** Grains that fell back against the air. */
  readonly fellBack: number;
  /** Grains still in the air of the channel when patience ended; they count as not caught. */
  readonly afloat: number;
  /** Landed in the channel. */
  readonly caught: Share;
  /** Landed in a pocket. */
  readonly inPockets: Share;
}

/** Grains that landed in the channel, in the order they were sent. */
export interface Landings {
  readonly count: number;
  /** [count x 3] [mm]. */
  readonly place_mm: Float64Array;
  /** Speed at which each met the wall [count] [m/s]. */
  readonly speed_m_per_s: Float64Array;
  /** Size class [count]. */
  readonly sizeClass: Uint8Array;
  /** Pocket, -1 for bare wall [count]. */
  readonly pocket: Int16Array;
  /** Place along the channel over its length [count]. */
  readonly along: Float64Array;
}

export interface DustTracked {
  readonly classes: readonly ClassFlights[];
  /** Share of the mass that entered and landed, with its 95 % interval from the classes'. */
  readonly caught: Share;
  readonly inPockets: Share;
  /** Share of the mass that entered and landed in each pocket [pockets]. */
  readonly byPocket: Float64Array;
  /** Share of the mass that landed in each tenth of the channel [10]. */
  readonly byTenth: Float64Array;
  readonly landings: Landings;
}

/** Bases of the point set that grains start from. */
const BASE_X = 2;
const BASE_Y = 3;
/** Earth's pull in mm/ms2. */
const GRAVITY_mm_per_ms2 = 9.80665e-3;

/**
 * Speed square to a wall above which dry grains rebound, times their diameter [m2/s]: 1 m/s at 7 um,
 * falling as 1/d, as in the estimate of dust kept.
 *
 * Source: order of magnitude of Wall, John, Wang & Goren 1990 (Aerosol Sci. Technol. 12:926); value from
 * memory, rough or soft walls differ by a factor of 3.
 */
export const REBOUND_m2_per_s = 7e-6;

/** A size class as the flight sees it; it sticks at any speed. */
export function grainKind(diameter_um: number, density_kg_per_m3: number, air: Air): GrainKind {
  const d = diameter_um * 1e-6;
  const { viscosity_Pa_s, density_kg_per_m3: rho, meanFreePath_m } = air;
  return {
    relaxation_ms: 1000 * relaxationTime(d, density_kg_per_m3, viscosity_Pa_s, meanFreePath_m),
    reynoldsPerSpeed_s_per_m: (rho * d) / viscosity_Pa_s,
    radius_mm: 500 * d,
  };
}

export function gravityOf(
  down: readonly [number, number, number] | null,
): readonly [number, number, number] {
  if (down === null) return [0, 0, 0];
  return [GRAVITY_mm_per_ms2 * down[0], GRAVITY_mm_per_ms2 * down[1], GRAVITY_mm_per_ms2 * down[2]];
}

/**
 * Sends `grains` of each class on their way, evenly over the square where the air is still even, so
 * that every grain stands for the same flow; with the air's velocity there and the speed at which
 * they fall. A grain that touches a wall stays, an upper bound for dry grains; or, dry, bounces until
 * it meets a wall slowly enough, or leaves.
 */
export function trackDust(
  field: AirField,
  map: ChannelMap,
  bounds: Bounds,
  options: DustOptions,
): DustTracked {
  const { classes, density_kg_per_m3, air, grains } = options;
  const gravity = gravityOf(options.down);
  const total = classes.reduce((sum, { massShare }) => sum + massShare, 0);
  const book = createBook();
  const flight = createFlight();
  const spot = createChannelPlace();
  const results: ClassFlights[] = [];
  const byPocket = new Float64Array(map.pockets);
  const byTenth = new Float64Array(10);
  for (const [i, { diameter_um, massShare }] of classes.entries()) {
    const sticky = grainKind(diameter_um, density_kg_per_m3, air);
    const sticks_m_per_s = REBOUND_m2_per_s / (diameter_um * 1e-6);
    const kind = options.isDry ? { ...sticky, sticks_m_per_s } : sticky;
    const flyer = createFlyer(field, kind, gravity, bounds);
    const fall_m_per_s = settlingVelocity(
      kind.relaxation_ms * 1e-3,
      diameter_um * 1e-6,
      air.density_kg_per_m3,
      air.viscosity_Pa_s,
    );
    const fates = new Int32Array(5);
    const first = book.sizeClass.length;
    let entered = 0;
    let pocketed = 0;
    for (let n = 0; n < grains; n++) {
      start(flight, field, gravity, bounds, options, i * grains + n + 1, fall_m_per_s);
      flyer.fly(flight);
      if (flight.entered) entered++;
      if (flight.fate !== FATE.afloat || flight.entered) fates[flight.fate]++;
      if (flight.fate !== FATE.wall) continue;
      const [x, y, z] = flight.place_mm;
      map.locate(x, y, z, spot);
      if (spot.pocket >= 0) pocketed++;
      book.place.push(x, y, z);
      book.speed.push(speedOf(flight.velocity_m_per_s));
      book.sizeClass.push(i);
      book.pocket.push(spot.pocket);
      book.along.push(spot.arc_mm / map.length_mm);
    }
    const mass = massShare / total;
    for (let n = first; n < book.sizeClass.length; n++) {
      byTenth[Math.min(9, Math.max(0, Math.floor(10 * book.along[n])))] += mass / entered;
      if (book.pocket[n] >= 0) byPocket[book.pocket[n]] += mass / entered;
    }
    results.push({
      diameter_um,
      massShare: mass,
      started: grains,
      entered,
      onFace: fates[FATE.face],
      fellBack: fates[FATE.back],
      afloat: fates[FATE.afloat],
      caught: wilsonShare(fates[FATE.wall], entered),
      inPockets: wilsonShare(pocketed, entered),
    });
  }
  return {
    classes: results,
    caught: massMean(results, (one) => one.caught),
    inPockets: massMean(results, (one) => one.inPockets),
    byPocket,
    byTenth,
    landings: packBook(book),
  };
}

function start(
  flight: Flight,
  field: AirField,
  gravity: readonly [number, number, number],
  bounds: Bounds,
  { start_mm: [x0, x1, y0, y1] }: DustOptions,
  index: number,
  fall_m_per_s: number,
): void {
  const { place_mm: place, velocity_m_per_s: velocity } = flight;
  place[0] = x0 + (x1 - x0) * radicalInverse(index, BASE_X);
  place[1] = y0 + (y1 - y0) * radicalInverse(index, BASE_Y);
  place[2] = bounds.start_mm;
  field.velocity(place[0], place[1], place[2], velocity);
  for (let d = 0; d < 3; d++) velocity[d] += (gravity[d] / GRAVITY_mm_per_ms2) * fall_m_per_s;
}

/**
 * Mean of shares by mass; its interval from the classes' half widths as independent errors:
 * sqrt(sum (m h)^2).
 */
function massMean(classes: readonly ClassFlights[], of: (one: ClassFlights) => Share): Share {
  let share = 0;
  let below = 0;
  let above = 0;
  let mass = 0;
  for (const one of classes) {
    // A class none of which came in says nothing about the channel.
    if (one.entered === 0) continue;
    const { share: s, low, high } = of(one);
    mass += one.massShare;
    share += one.massShare * s;
    below += one.massShare * one.massShare * (s - low) * (s - low);
    above += one.massShare * one.massShare * (high - s) * (high - s);
  }
  if (mass === 0) return { share: 0, low: 0, high: 1 };
  return {
    share: share / mass,
    low: Math.max(0, (share - Math.sqrt(below)) / mass),
    high: Math.min(1, (share + Math.sqrt(above)) / mass),
  };
}

function speedOf([x, y, z]: Float64Array): number {
  return Math.sqrt(x * x + y * y + z * z);
}

interface Book {
  readonly place: number[];
  readonly speed: number[];
  readonly sizeClass: number[];
  readonly pocket: number[];
  readonly along: number[];
}

function createBook(): Book {
  return { place: [], speed: [], sizeClass: [], pocket: [], along: [] };
}

function packBook(book: Book): Landings {
  return {
    count: book.sizeClass.length,
    place_mm: Float64Array.from(book.place),
    speed_m_per_s: Float64Array.from(book.speed),
    sizeClass: Uint8Array.from(book.sizeClass),
    pocket: Int16Array.from(book.pocket),
    along: Float64Array.from(book.along),
  };
}
