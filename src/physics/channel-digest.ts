/**
 * Everything about a channel's pressure drop that does not depend on the flow, gathered in one pass
 * over its stations, so that the drop at any flow is then cheap (see channel-loss.ts).
 */
import { pow } from '../numeric/index.ts';
import type { Air } from './air.ts';
import { wideningLosses } from './area-runs.ts';
import { digestBends } from './bend-lobes.ts';
import { END_NUMBERS, digestEnds, gatherEnds } from './digest-ends.ts';
import { DIGEST } from './digest-layout.ts';
import { teardropFRe } from './ducts.ts';
import { FULLY_TURBULENT, LAMINAR_LIMIT, turbulentShare } from './friction.ts';
import { ribLaminarRise, ribRoughness } from './ribs.ts';
import { printRoughness } from './roughness.ts';
import { readTable, tabulate } from './table.ts';
import { turbulentFriction } from './turbulent-table.ts';

const { LOBE_FIELDS, MAX_LOBES, PANEL_FIELDS, SHAPE_FIELDS, STATIONS_PER_PANEL } = DIGEST;
const { P_DEVELOPED, P_ENTRY, P_F_RE, P_LENGTH, P_REACH, P_REYNOLDS, P_ROUGH } = DIGEST;
const { S_NARROWEST, S_PORT, S_REYNOLDS, S_ROUGH, S_ROUGHNESS, S_SEPARATION } = DIGEST;

/** Station arrays of many shapes, each with `stations` entries at equal arc steps, in any length unit. */
export interface StationArrays {
  /** Length unit of the arrays [m]: 0.001 for millimetres. */
  readonly unit_m: number;
  readonly stations: number;
  /** Unit tangents [M x S x 3]. */
  readonly tangent: Float64Array;
  /** Section area, wetted perimeter, inscribed diameter, roof strength [M x S]. */
  readonly area: Float64Array;
  readonly perimeter: Float64Array;
  readonly bore: Float64Array;
  readonly roof: Float64Array;
  /** Arc length of each shape [M]. */
  readonly length: Float64Array;
  /** Tangent at the inlet times the normal of the surface it opens in [M]; z when left out. */
  readonly inletRise?: Float64Array;
  /** Teeth on the walls: height about a station [M x S], distance from tooth to tooth [M] (0: none). */
  readonly teeth?: { readonly height: Float64Array; readonly pitch: Float64Array };
}

/** How a section family behaves; `tangential`: every side touches the inscribed circle, so D_h = bore. */
export type DuctFamily =
  | { readonly kind: 'tangential'; readonly fRe: number }
  | { readonly kind: 'roofed' }
  | { readonly kind: 'slot'; readonly fRe: number };

/** What surrounds the channels of one plate. */
export interface DigestConditions {
  readonly air: Air;
  /** How much smaller than drawn a bore comes out, on the diameter, in the arrays' unit. */
  readonly shrinkage: number;
  /** Layer height in the arrays' unit; 0 for smooth walls. */
  readonly layer: number;
  /** Component of the tangent along the build direction: 1 for y, 2 for z. */
  readonly buildAxis: 1 | 2;
  /** Inlet numbers of this plate's face (`faceInlet`). */
  readonly inletLoss: number;
  readonly thinShare: number;
}

export interface ChannelDigests {
  readonly stations: number;
  readonly panels: number;
  readonly shape: Float64Array;
  readonly panel: Float64Array;
  readonly lobe: Float64Array;
}

/** Digests in the making. */
export interface DigestRoom extends ChannelDigests {
  readonly scratch: DigestScratch;
}

/** Effective section of the shape at hand, in SI [S]. */
interface DigestScratch {
  readonly area: Float64Array;
  readonly diameter: Float64Array;
  readonly inverseDiameter: Float64Array;
  /** sqrt(i/2): how far the developing loss has come half-way between stations [2S]. */
  readonly progress: Float64Array;
  /** See `END_NUMBERS`. */
  readonly port: Float64Array;
}

/** All channels of a plate, ready to be digested. */
export interface PlateChannels {
  readonly arrays: StationArrays;
  readonly shapes: number;
  /** Section family, sum of `pocketLoss`, and surroundings of each shape [M]. */
  readonly families: readonly DuctFamily[];
  readonly pockets: ArrayLike<number>;
  readonly conditions: readonly DigestConditions[];
}

/** (e/3.7)^1.11 over sqrt(e): e^1.11 itself is too curved near 0 for equal cells. */
export const ROUGH_TERM = tabulate((r) => (r > 0 ? pow((r * r) / 3.7, 1.11) : 0), 0, 1, 128);

export function panelCount(stations: number): number {
  return Math.max(1, Math.round((stations - 1) / STATIONS_PER_PANEL));
}

/** Last station of a panel. */
export function panelEnd(panel: number, panels: number, stations: number): number {
  return Math.round(((panel + 1) * (stations - 1)) / panels);
}

/** `DigestScratch.progress`. */
export function progressOf(stations: number): Float64Array {
  return Float64Array.from({ length: 2 * stations }, (_, i) => Math.sqrt(i / 2));
}

/**
 * Room for the digests of some shapes.
 *
 * @param reuse digests no longer needed, whose memory may serve again.
 */
export function createDigests(shapes: number, stations: number, reuse?: DigestRoom): DigestRoom {
  if (reuse?.stations === stations && reuse.shape.length >= SHAPE_FIELDS * shapes) return reuse;
  const panels = panelCount(stations);
  return {
    stations,
    panels,
    shape: new Float64Array(SHAPE_FIELDS * shapes),
    panel: new Float64Array(PANEL_FIELDS * panels * shapes),
    lobe: new Float64Array(LOBE_FIELDS * MAX_LOBES * shapes),
    scratch: {
      area: new Float64Array(stations),
      diameter: new Float64Array(stations),
      inverseDiameter: new Float64Array(stations),
      progress: progressOf(stations),
      port: new Float64Array(END_NUMBERS.COUNT),
    },
  };
}

/**
 * Gathers one shape into `digests`.
 *
 * The flow sees the printed bore, drawn bore less the shrinkage (at least a tenth of the drawn one):
 * the shrunk bore is what a plug gauge feels, so it stands for the constricted diameter of a rough
 * wall as well. Roughness itself counts in turbulent flow only.
 *
 * @param pockets sum of `pocketLoss` over the shape's pockets.
 */
export function digestChannel(
  digests: DigestRoom,
  index: number,
  arrays: StationArrays,
  family: DuctFamily,
  pockets: number,
  conditions: DigestConditions,
): void {
  shrinkSections(digests, index, arrays, family, conditions.shrinkage);
  digestPanels(digests, index, arrays, family, conditions);
  digestBends(digests, index, arrays, conditions.air.density_kg_per_m3);
  wideningLosses(digests, index, arrays, conditions.air.density_kg_per_m3);
  gatherEnds(digests, index, arrays);
  digestEnds(digests, index, arrays, digests.scratch.port, 0, pockets, conditions);
}

/** Gathers all shapes of a plate, one by one. */
export function digestChannels(digests: DigestRoom, plate: PlateChannels): void {
  for (let m = 0; m < plate.shapes; m += 1) {
    digestChannel(
      digests,
      m,
      plate.arrays,
      plate.families[m],
      plate.pockets[m],
      plate.conditions[m],
    );
  }
}

function shrinkSections(
  digests: DigestRoom,
  index: number,
  arrays: StationArrays,
  family: DuctFamily,
  shrinkage: number,
): void {
  const { area, diameter, inverseDiameter } = digests.scratch;
  const unit = arrays.unit_m;
  const start = index * arrays.stations;
  for (let i = 0; i < arrays.stations; i += 1) {
    const bore = arrays.bore[start + i];
    const printed = Math.max(bore - shrinkage, 0.1 * bore);
    if (family.kind === 'slot') {
      // Parallel set of an obround: the straight sides keep their length.
      const off = (bore - printed) / 2;
      const A = arrays.area[start + i] - off * (arrays.perimeter[start + i] - Math.PI * off);
      area[i] = A * unit * unit;
      diameter[i] = ((4 * A) / (arrays.perimeter[start + i] - 2 * Math.PI * off)) * unit;
    } else {
      const scale = (printed / bore) * unit;
      area[i] = arrays.area[start + i] * scale * scale;
      diameter[i] = printed * unit;
    }
    inverseDiameter[i] = 1 / diameter[i];
  }
}

/** Laminar f Re of a section with a roof of some strength. */
export function familyFRe(family: DuctFamily, roof: number): number {
  return family.kind === 'roofed' ? teardropFRe(roof) : family.fRe;
}

function digestPanels(
  digests: DigestRoom,
  index: number,
  arrays: StationArrays,
  family: DuctFamily,
  conditions: DigestConditions,
): void {
  const { area, diameter, inverseDiameter } = digests.scratch;
  const { panels, panel, shape, stations } = digests;
  const nu = conditions.air.kinematicViscosity_m2_per_s;
  const half = 0.5 * conditions.air.density_kg_per_m3;
  const start = index * stations;
  const step = (arrays.length[index] * arrays.unit_m) / (stations - 1);
  const layer = conditions.layer * arrays.unit_m;
  let last = 0;
  let allRe = 0;
  let allRough = 0;
  for (let p = 0; p < panels; p += 1) {
    const first = last;
    last = panelEnd(p, panels, stations);
    let re = 0;
    let entry = 0;
    let length = 0;
    let size = 0;
    for (let i = first; i <= last; i += 1) {
      const weight = i === first || i === last ? 0.5 : 1;
      const D_h = diameter[i];
      const inverse = 1 / area[i];
      const q = weight * inverse * inverse;
      re += weight * D_h * inverse;
      entry += q;
      length += q * inverseDiameter[i];
      size += weight * D_h;
    }
    // What hardly changes within a panel is taken at its middle.
    const middle = (first + last) >> 1;
    const root = Math.sqrt(area[middle]) * inverseDiameter[middle];
    const fRe = familyFRe(family, arrays.roof[start + middle]);
    const rise = arrays.tangent[3 * (start + middle) + conditions.buildAxis];
    const share = 1 / (last - first);
    const sine = Math.sqrt(Math.max(0, 1 - rise * rise));
    const roughness = printRoughness(layer, sine) / (size * share);
    const at = PANEL_FIELDS * (index * panels + p);
    panel[at + P_REYNOLDS] = (re * share) / nu;
    panel[at + P_ENTRY] = 4 * root * half * entry * share;
    panel[at + P_DEVELOPED] = 0.25 * fRe * root;
    panel[at + P_ROUGH] = readTable(ROUGH_TERM, Math.sqrt(roughness));
    panel[at + P_LENGTH] = half * length * step;
    panel[at + P_F_RE] = fRe;
    panel[at + P_REACH] = nu * step * last;
    if (arrays.teeth !== undefined) raisePanel(digests, at, index, arrays, first, last);
    allRe += re;
    allRough += roughness * (last - first);
  }
  const row = SHAPE_FIELDS * index;
  shape[row + S_REYNOLDS] = allRe / (nu * (stations - 1));
  shape[row + S_ROUGHNESS] = allRough / (stations - 1);
  const rough = readTable(ROUGH_TERM, Math.sqrt(allRough / (stations - 1)));
  shape[row + S_ROUGH] = rough;
  shape[row + S_SEPARATION] = turbulentFriction(FULLY_TURBULENT, rough);
}

/** Adds the friction of teeth to a panel between two stations. */
function raisePanel(
  digests: DigestRoom,
  at: number,
  index: number,
  arrays: StationArrays,
  first: number,
  last: number,
): void {
  const pitch = arrays.teeth?.pitch[index] ?? 0;
  if (!(pitch > 0) || arrays.teeth === undefined) return;
  const { diameter } = digests.scratch;
  const { panel, stations } = digests;
  let height = 0;
  let size = 0;
  let toothed = 0;
  for (let i = first; i <= last; i += 1) {
    const e = arrays.teeth.height[index * stations + i];
    if (!(e > 0)) continue;
    height += e;
    size += diameter[i];
    toothed += 1;
  }
  if (toothed === 0) return;
  const ribs = { height: (height * arrays.unit_m) / size, pitch: (pitch * toothed) / height };
  const share = toothed / (last - first + 1);
  const laminar = 1 + share * (ribLaminarRise(ribs) - 1);
  panel[at + P_ROUGH] += share * ribRoughness(ribs);
  panel[at + P_ENTRY] *= laminar;
  panel[at + P_F_RE] *= laminar;
}

/** What a shape's digest says about its flow, per flow through one channel. */
export interface ShapeFlowFacts {
  /** Mean Reynolds number per flow [s/m3]. */
  readonly reynolds_s_per_m3: number;
  /** Bulk velocity per flow at the inlet port and at the narrowest place [1/m2]. */
  readonly port_per_m2: number;
  readonly narrowest_per_m2: number;
  /** Mean roughness over D_h [-]. */
  readonly roughness: number;
  /** Laminar f Re on D_h, in the middle of the channel [-]. */
  readonly fRe: number;
}

/** `blendedFriction` of a shape at its mean roughness, read from tables: within 1e-6. */
export function shapeFriction(digests: ChannelDigests, index: number, Re: number): number {
  const { shape } = digests;
  const row = SHAPE_FIELDS * index;
  if (Re >= FULLY_TURBULENT) return turbulentFriction(Re, shape[row + S_ROUGH]);
  const { fRe } = shapeFlowFacts(digests, index);
  if (Re <= LAMINAR_LIMIT) return fRe / Re;
  const w = turbulentShare(Re);
  return ((1 - w) * fRe) / LAMINAR_LIMIT + w * shape[row + S_SEPARATION];
}

export function shapeFlowFacts(digests: ChannelDigests, index: number): ShapeFlowFacts {
  const { shape, panel, panels } = digests;
  const row = SHAPE_FIELDS * index;
  return {
    reynolds_s_per_m3: shape[row + S_REYNOLDS],
    port_per_m2: shape[row + S_PORT],
    narrowest_per_m2: shape[row + S_NARROWEST],
    roughness: shape[row + S_ROUGHNESS],
    fRe: panel[PANEL_FIELDS * (index * panels + (panels >> 1)) + P_F_RE],
  };
}
