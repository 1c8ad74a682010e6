/** Flow through a plate whose channels meet in a plenum: a network instead of one bank in parallel. */
import { END, plenumRadii } from '../../design/index.ts';
import type { PlateSamples, Plenum } from '../../design/index.ts';
import { atan2, metres } from '../../numeric/index.ts';
import {
  LAMINAR_LIMIT,
  NETWORK_TOLERANCE,
  blendedFriction,
  rectangleFRe,
  solveNetwork,
} from '../../physics/index.ts';
import type { Air, BranchLaw, BranchPressure, Network } from '../../physics/index.ts';

/** Flows of a plate with a plenum, solved for one total flow after the other. */
interface PlenumFlow {
  /** Pressure drop at a total flow [Pa]; leaves the channels' flows in `shapeFlow_m3_per_s`. */
  solve(total_m3_per_s: number): number;
  /** Through one channel of each shape [M]; negative where the air goes against the drawn way. */
  readonly shapeFlow_m3_per_s: Float64Array;
  /** Q d(drop)/dQ at the last solution [Pa], from the channels' own slopes. */
  slope_Pa(): number;
  /** Flow missing at a node over the greatest flow, at the last solution. */
  imbalance(): number;
}

const TURN = 2 * Math.PI;
/** Places around the plenum at most; channels join the nearest. */
const MOST_PLACES = 36;
/** Channels this near in angle join at one place [rad]. */
const SAME_PLACE = 1e-6;
/** Slices of height over which the plenum's section is summed. */
const SLICES = 24;
/** Nodes of the network: before the plate, behind it, then the places around the plenum. */
const FRONT = 0;
const BEHIND = 1;
const PLACES = 2;

/**
 * Sets up the network of a plate with a plenum.
 *
 * Every channel is a branch with the same loss as in a plate without one: into the plenum its jet is
 * lost whole, out of it it starts at a sharp inlet. The plenum is a ring of places joined by duct
 * with the friction of its own section; what jets push along or mixing costs is left out.
 *
 * @param pressure loss of each channel shape at a flow.
 */
export function createPlenumFlow(
  samples: PlateSamples,
  plenum: Plenum,
  air: Air,
  pressure: BranchPressure,
): PlenumFlow {
  const { shapeCount } = samples;
  const angles = endAngles(samples);
  const places = placesOf(angles);
  const arcs = places.length > 1 ? places.length : 0;
  const from = new Int32Array(shapeCount + arcs);
  const to = new Int32Array(shapeCount + arcs);
  const count = new Float64Array(shapeCount);
  for (const shape of samples.shapeOf) count[shape]++;
  const kind = samples.sides?.kind ?? new Uint8Array(2 * shapeCount);
  for (let m = 0; m < shapeCount; m++) {
    from[m] = kind[2 * m] === END.plenum ? PLACES + nearest(places, angles[2 * m]) : FRONT;
    to[m] = kind[2 * m + 1] === END.plenum ? PLACES + nearest(places, angles[2 * m + 1]) : BEHIND;
  }
  const duct = ductOf(plenum);
  const lengths = new Float64Array(arcs);
  for (let a = 0; a < arcs; a++) {
    const next = (a + 1) % places.length;
    from[shapeCount + a] = PLACES + a;
    to[shapeCount + a] = PLACES + next;
    lengths[a] = duct.radius_m * ((((places[next] - places[a]) % TURN) + TURN) % TURN);
  }
  const network: Network = {
    nodes: PLACES + places.length,
    from,
    to,
    held_Pa: Float64Array.from({ length: PLACES + places.length }, (_, n) =>
      n === BEHIND ? 0 : NaN,
    ),
    inflow_m3_per_s: new Float64Array(PLACES + places.length),
  };
  let least = 0;
  const reply = new Float64Array(2);
  const law: BranchLaw = (branch, flow, out) => {
    if (branch >= shapeCount) {
      ductLaw(duct, lengths[branch - shapeCount], air, flow, out);
      return;
    }
    const n = count[branch];
    // At rest a channel is read at a flow so small that its loss is a straight line.
    const Q = Math.max(Math.abs(flow) / n, least);
    pressure(branch, Q, reply);
    out[0] = (reply[0] * flow) / (n * Q);
    out[1] = Math.min(2.6 * reply[0], Math.max(reply[0], reply[1])) / (Q * n);
  };
  const shapeFlow_m3_per_s = new Float64Array(shapeCount);
  let flows: Float64Array | undefined;
  let total = 0;
  let drop = 0;
  let imbalance = 0;
  return {
    shapeFlow_m3_per_s,
    solve(total_m3_per_s) {
      least = 1e-7 * total_m3_per_s;
      network.inflow_m3_per_s[FRONT] = total_m3_per_s;
      const start = flows?.map((q) => (q * total_m3_per_s) / total) ?? evenStart(count, arcs, total_m3_per_s); // prettier-ignore
      const found = solveNetwork(network, law, start, NETWORK_TOLERANCE);
      flows = found.flow_m3_per_s;
      total = total_m3_per_s;
      drop = found.pressure_Pa[FRONT];
      imbalance = found.imbalance;
      for (let m = 0; m < shapeCount; m++) shapeFlow_m3_per_s[m] = flows[m] / count[m];
      return drop;
    },
    slope_Pa() {
      // Power spent is Q drop; each branch gives its own exponent, weighted by what it spends.
      let spent = 0;
      let risen = 0;
      const solved = flows ?? new Float64Array(shapeCount);
      for (let b = 0; b < shapeCount; b++) {
        law(b, solved[b], branchReply);
        spent += solved[b] * branchReply[0];
        risen += solved[b] * solved[b] * branchReply[1];
      }
      return spent > 0 ? (drop * risen) / spent : 2 * drop;
    },
    imbalance: () => imbalance,
  };
}

const branchReply = new Float64Array(2);

function evenStart(count: Float64Array, arcs: number, total: number): Float64Array {
  let channels = 0;
  for (const n of count) channels += n;
  const start = new Float64Array(count.length + arcs);
  for (let m = 0; m < count.length; m++) start[m] = (2 * total * count[m]) / channels;
  return start;
}

/** Angle about the plate centre of both ends of each shape, NaN where not in the plenum [M x 2]. */
function endAngles(samples: PlateSamples): Float64Array {
  const { sides, stations, point_mm, offset_mm } = samples;
  const angles = new Float64Array(2 * samples.shapeCount).fill(NaN);
  for (let n = 0; n < samples.channelCount; n++) {
    const m = samples.shapeOf[n];
    for (let end = 0; end < 2; end++) {
      if (sides?.kind[2 * m + end] !== END.plenum) continue;
      const i = 3 * (m * stations + end * (stations - 1));
      const y = point_mm[i + 1] + offset_mm[2 * n + 1];
      const angle = atan2(y, point_mm[i] + offset_mm[2 * n]);
      angles[2 * m + end] = angle < 0 ? angle + TURN : angle;
    }
  }
  return angles;
}

/** Different angles in rising order, or even steps where there are too many. */
function placesOf(angles: Float64Array): number[] {
  const sorted = angles.filter((angle) => !Number.isNaN(angle)).toSorted();
  const places: number[] = [];
  for (const angle of sorted) {
    if (places.length === 0 || angle - places[places.length - 1] > SAME_PLACE) places.push(angle);
  }
  if (places.length > 1 && places[0] + TURN - places[places.length - 1] <= SAME_PLACE) places.pop();
  if (places.length <= MOST_PLACES) return places;
  return Array.from({ length: MOST_PLACES }, (_, k) => (TURN * k) / MOST_PLACES);
}

function nearest(places: readonly number[], angle: number): number {
  let best = 0;
  let least = Infinity;
  places.forEach((place, k) => {
    const gap = Math.abs(place - angle);
    const around = Math.min(gap, TURN - gap);
    if (around < least) [best, least] = [k, around];
  });
  return best;
}

interface Duct {
  readonly area_m2: number;
  readonly diameter_m: number;
  /** Radius along which the air goes round. */
  readonly radius_m: number;
  readonly fRe: number;
}

/** The plenum as a duct that air goes round in: its section's area, 4 A / P, middle radius. */
function ductOf(plenum: Plenum): Duct {
  const radii = new Float64Array(2);
  const dz = (plenum.top_mm - plenum.floor_mm) / SLICES;
  let area = 0;
  let moment = 0;
  for (let k = 0; k < SLICES; k++) {
    if (!plenumRadii(plenum, plenum.floor_mm + (k + 0.5) * dz, radii)) continue;
    area += (radii[1] - radii[0]) * dz;
    moment += 0.5 * (radii[1] * radii[1] - radii[0] * radii[0]) * dz;
  }
  const width = plenum.outerRadius_mm - plenum.innerRadius_mm;
  const lean = plenum.top_mm - plenum.eaves_mm;
  const isRing = plenum.innerRadius_mm > 0;
  const flanks = (isRing ? 2 : 1) * lean;
  const wall = (isRing ? 2 : 1) * (plenum.eaves_mm - plenum.floor_mm);
  const perimeter = width + wall + Math.SQRT2 * flanks + Math.max(0, width - flanks);
  const height = area / width;
  return {
    area_m2: metres(metres(area)),
    diameter_m: metres((4 * area) / perimeter),
    radius_m: metres(moment / area),
    fRe: rectangleFRe(Math.min(width, height) / Math.max(width, height)),
  };
}

/** Friction along a stretch of the plenum, Darcy's law on its section. */
function ductLaw(duct: Duct, length_m: number, air: Air, flow: number, out: Float64Array): void {
  const { area_m2, diameter_m, fRe } = duct;
  const speed = Math.abs(flow) / area_m2;
  const Re = (speed * diameter_m) / air.kinematicViscosity_m2_per_s;
  // Laminar: f q / D = fRe mu U / (2 D^2), a straight line through the origin.
  const laminar = (fRe * air.viscosity_Pa_s * length_m) / (2 * diameter_m * diameter_m * area_m2);
  if (Re <= LAMINAR_LIMIT) {
    out[0] = laminar * flow;
    out[1] = laminar;
    return;
  }
  const f = blendedFriction(Re, 0, fRe);
  const drop = ((f * length_m) / diameter_m) * 0.5 * air.density_kg_per_m3 * speed * speed;
  out[0] = Math.sign(flow) * drop;
  out[1] = (1.8 * drop) / Math.abs(flow);
}
