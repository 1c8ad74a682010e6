/** Labelled starting designs: points of the gene space that an engineer would draw first. */
import type { Brief } from '../brief/index.ts';
import { cosDeg, sampleDesign, sinDeg } from '../design/index.ts';
import type { Channel, Design } from '../design/index.ts';
import { designOf } from './decode.ts';
import { boreRange, thicknessRange } from './genes.ts';
import type { Gene } from './genes.ts';
import { writeRow } from './row.ts';
import type { NamedGenes } from './row.ts';
import type { TraitReader } from './traits.ts';

export interface Start {
  readonly label: string;
  readonly row: Float64Array;
}

/** How many swings two neighbours may come closer to each other than their ports, by motif. */
const SWINGS: Readonly<Record<string, number>> = {
  alike: 0,
  stepped: 1,
  turned: 1,
  free: 1,
  mirrored: 2.2,
};

/** Samples per channel when a start is eased: fine enough to meet the peak of its curvature. */
const LOOK_STATIONS = 160;
/** Every third of them, for a first look. */
const ROUGH_STATIONS = 54;
/** A start's channels rise at least this much everywhere [share of their length]. */
const LEAST_RISE = 0.45;
/** Solid kept beyond the minimum wall, for what 32 stations cannot see [mm]. */
const SPARE_MM = 0.15;

type Recipe = (kit: Kit) => NamedGenes | null;

/** What recipes draw with. */
interface Kit {
  readonly brief: Brief;
  /** Cut down to one channel: a plate decodes when one fits. As it is where ribs break channels. */
  readonly sketch: Brief;
  readonly thickness_mm: number;
  readonly bore_mm: number;
  readonly wall_mm: number;
  readonly ligament_mm: number;
  /** First allowed of the named sections. */
  section(...kinds: string[]): string | undefined;
  motif(kind: string): boolean;
}

/** Labels and recipes; a recipe answers null when the brief does not allow its design. */
const RECIPES: readonly (readonly [string, Recipe])[] = [
  ['straight holes', (kit) => plain(kit, 'round', 'teardrop', 'polygon')],
  ['straight hexagons', (kit) => withSection(kit, 'polygon', { sides: 6, roll_deg: 0 })],
  ['slots', (kit) => withSection(kit, 'slot', { lattice: 'square', slotAspect: 4, stagger: 0.5 })],
  [
    'tilted slots with ribs',
    (kit) =>
      withSection(kit, 'slot', {
        lattice: 'square',
        slotAspect: 6,
        leanY_mm: 0.7 * kit.thickness_mm,
        ends: 'lean',
      }),
  ],
  ['tilted holes', (kit) => lean(plain(kit, 'round', 'teardrop', 'polygon'), kit)],
  ['single bends', (kit) => bent(kit, [1])],
  ['S-bends', (kit) => bent(kit, [1, -1])],
  ['S-bends with pockets', (kit) => pocketed(kit, bent(kit, [1, -1]))],
  ['double bends', (kit) => bent(kit, [1, -1, 1])],
  ['mirrored S-bends', (kit) => inMotif(kit, 'mirrored', bent(kit, [1, -1], 0.3))],
  ['turned bends', (kit) => inMotif(kit, 'turned', bent(kit, [1], 0.2))],
  ['stepped bends', (kit) => inMotif(kit, 'stepped', bent(kit, [1, -1]), { stepDepth: 0.3 })],
  ['free bends', (kit) => inMotif(kit, 'free', bent(kit, [1, -1]), FREE_STIR)],
  ['straight toothed holes', (kit) => toothed(kit, plain(kit, 'round', 'polygon', 'teardrop'))],
  ['louvres', (kit) => louvres(kit)],
  ['chevron louvres', (kit) => chevrons(kit)],
];

/** Small offsets of their own, so that free channels differ from the start. */
const FREE_STIR: NamedGenes = Object.fromEntries(
  Array.from({ length: 64 }, (_, i) => {
    const name = `free${1 + (i >> 1)}${i % 2 === 0 ? 'X' : 'Y'}`;
    // A low-discrepancy spread (golden ratio) instead of random numbers.
    const share = (i * 0.6180339887498949) % 1;
    return [name, 0.2 * (share - 0.5)];
  }),
);

function plain(kit: Kit, ...sections: string[]): NamedGenes | null {
  const section = kit.section(...sections);
  if (section === undefined) return null;
  const { bore_mm, ligament_mm, thickness_mm } = kit;
  return { lattice: 'hexagonal', section, motif: 'alike', bore_mm, ligament_mm, thickness_mm };
}

function withSection(kit: Kit, section: string, genes: NamedGenes): NamedGenes | null {
  const base = plain(kit, section);
  return base && { ...base, ...genes };
}

function lean(base: NamedGenes | null, kit: Kit): NamedGenes | null {
  return base && { ...base, leanX_mm: 0.8 * kit.thickness_mm, ends: 'lean' };
}

/** Bends to alternate sides, as strong as fits once `ease` has looked at them. */
function bent(kit: Kit, sides: readonly number[], swing = 0.45): NamedGenes | null {
  const base = plain(kit, 'round', 'teardrop', 'polygon', 'slot');
  if (base === null) return null;
  const genes: Record<string, number | string> = { ...base, bends: sides.length };
  // A slot bends across its short side only.
  if (base.section === 'slot') genes.roll_deg = 90;
  sides.forEach((side, i) => {
    genes[`bend${i + 1}X_mm`] = (side * swing * kit.thickness_mm) / sides.length;
  });
  return genes;
}

/**
 * Long slots for plates whose brief lets ribs break them, as wide as a share of the thickness; in
 * plates on edge they stand upright.
 */
function slats(kit: Kit, share: number): NamedGenes | null {
  if (kit.brief.routes.ribs === 'none') return null;
  const [least] = boreRange(kit.brief);
  const bore_mm = Math.max(least, Math.min(kit.bore_mm, share * kit.thickness_mm));
  const roll_deg = kit.brief.plate.build === 'edge' ? 90 : 0;
  return withSection(kit, 'slot', { lattice: 'square', slotAspect: 8, bore_mm, roll_deg });
}

/**
 * Slots tilted until nobody looks straight through them, within the overhang limit. A straight slot
 * still lets a line pass along its own tilt.
 */
function louvres(kit: Kit): NamedGenes | null {
  const base = slats(kit, 0.35);
  if (base === null) return null;
  const limit_deg = Math.min(45, kit.brief.process.overhangLimit_deg);
  const steepest_mm = (kit.thickness_mm * sinDeg(limit_deg)) / cosDeg(limit_deg);
  const lean_mm = Math.min(steepest_mm, LOUVRE_SHIFT * Number(base.bore_mm));
  const tilt = kit.brief.plate.build === 'edge' ? 'leanX_mm' : 'leanY_mm';
  return { ...base, [tilt]: lean_mm, ends: 'lean' };
}

/** Slots that tilt out and back: no line passes once the swing exceeds the opening. */
function chevrons(kit: Kit): NamedGenes | null {
  const base = slats(kit, 0.2);
  if (base === null) return null;
  const bend = kit.brief.plate.build === 'edge' ? 'bend1X_mm' : 'bend1Y_mm';
  return { ...base, bends: 1, [bend]: LOUVRE_SHIFT * Number(base.bore_mm) };
}

/** Outlet against inlet of a louvre, in openings: its ports then lie side by side, with a margin. */
const LOUVRE_SHIFT = 1.6;

function pocketed(kit: Kit, base: NamedGenes | null): NamedGenes | null {
  if (base === null || !kit.brief.routes.pockets) return null;
  return {
    ...base,
    pockets: Number(base.bends),
    pocketDepth_mm: 0.3 * kit.bore_mm,
    pocketLength_mm: Math.min(1.6 * kit.bore_mm, 0.3 * kit.thickness_mm),
  };
}

/** Teeth at the middle of the heights and pitches that were tested, but no finer than prints. */
function toothed(kit: Kit, base: NamedGenes | null): NamedGenes | null {
  if (base === null || kit.brief.routes.teeth !== true) return null;
  const layer_mm = kit.brief.process.layerHeight_mm;
  return { ...base, toothHeight_mm: Math.max(2 * layer_mm, 0.03 * kit.bore_mm), toothSpacing: 15 };
}

function inMotif(
  kit: Kit,
  motif: string,
  base: NamedGenes | null,
  genes: NamedGenes = {},
): NamedGenes | null {
  // On a square lattice every neighbour of a row or column differs.
  const lattice = motif === 'stepped' || motif === 'free' ? 'hexagonal' : 'square';
  if (base === null || !kit.motif(motif)) return null;
  // A long slot would meet a neighbour that stands across it.
  const short = motif === 'turned' && base.section === 'slot' ? { slotAspect: 1 } : {};
  return { ...base, ...genes, ...short, motif, lattice };
}

/** The starting designs that a brief allows, each decodable, without repetitions. */
export function listStarts(brief: Brief, genes: readonly Gene[], read: TraitReader): Start[] {
  const kit = kitOf(brief);
  const starts: Start[] = [];
  for (const [label, recipe] of RECIPES) {
    const named = recipe(kit);
    if (named === null) continue;
    const row = ease(kit, genes, read, named);
    if (row === null) continue;
    const known = starts.some((start) => start.row.every((value, i) => value === row[i]));
    if (!known && designOf(kit.sketch, read(row, 0)).ok) starts.push({ label, row });
  }
  return starts;
}

function kitOf(brief: Brief): Kit {
  const [thinnest, thickest] = thicknessRange(brief);
  const [least, largest] = boreRange(brief);
  const wall_mm = brief.process.minimumWall_mm;
  const { ligament_mm, sections, motifs } = brief.routes;
  const one = { ...brief, routes: { ...brief.routes, maxChannels: 1 } };
  return {
    brief,
    sketch: brief.routes.ribs === 'none' ? one : brief,
    thickness_mm: 0.5 * (thinnest + thickest),
    bore_mm: Math.sqrt(least * largest),
    wall_mm,
    ligament_mm: Math.min(ligament_mm.max, Math.max(ligament_mm.min, wall_mm + SPARE_MM)),
    section: (...kinds) => kinds.find((kind) => sections.some((allowed) => allowed === kind)),
    motif: (kind) => motifs.some((allowed) => allowed === kind),
  };
}

/**
 * Softens a drawn start until its bends are no tighter than bore and wall allow, and widens the
 * ligament so that parallel channels keep their wall where they run at a slant. Null when the plate is
 * too thin to bend in. What the ligament's bound does not let it mend is left for the search.
 */
function ease(
  kit: Kit,
  genes: readonly Gene[],
  read: TraitReader,
  named: NamedGenes,
): Float64Array | null {
  let row = writeRow(genes, named);
  if (!('bends' in named) && named.ends !== 'lean') return row;
  // Elsewhere all channels take one course (the demo's 13 starts, cold: 185 to 128 ms).
  const looked = named.motif === 'stepped' || named.motif === 'free' ? kit.brief : kit.sketch;
  let softened: NamedGenes = named;
  for (let attempt = 0; attempt < 14; attempt++) {
    const decoded = designOf(looked, read(row, 0));
    // Nothing fits yet: a smaller swing or ligament may help.
    const courses = decoded.ok ? coursesOf(decoded.design) : null;
    const tightest = 0.5 * (kit.bore_mm + kit.wall_mm) + SPARE_MM;
    const steep = courses && leastRise(courses, tightest);
    if (steep !== null) {
      const pocket = typeof named.pocketDepth_mm === 'number' ? 2 * named.pocketDepth_mm : 0;
      const crossing = named.motif === 'alike' ? 1 : 1.5;
      const room = kit.bore_mm + pocket + kit.wall_mm + crossing * SPARE_MM;
      const swing = SWINGS[String(named.motif)] * swingOf(softened);
      const ligament_mm = room / (named.ends === 'lean' ? 1 : steep) - kit.bore_mm + swing;
      return writeRow(genes, { ...softened, ligament_mm: Math.max(ligament_mm, kit.ligament_mm) });
    }
    softened = scaleBends(softened, 0.85);
    row = writeRow(genes, softened);
  }
  return null;
}

/** One standing of each course that a design's channels take; bores and pockets do not bend it. */
function coursesOf(design: Design): Design {
  const courses = new Set<Channel['points_mm']>();
  const channels: Channel[] = [];
  for (const channel of design.channels) {
    if (courses.has(channel.points_mm)) continue;
    courses.add(channel.points_mm);
    channels.push({ ...channel, pockets: [], placements: channel.placements.slice(0, 1) });
  }
  return { plate: design.plate, channels };
}

/**
 * Least rise of the tangents, or null where a course bends tighter than `tightest_mm` or runs too
 * near along the plate. The rough look sees every third station of the fine one, so what it turns
 * down the fine one would turn down as well; it takes the courses one by one, since the first bad one
 * is enough.
 */
function leastRise(courses: Design, tightest_mm: number): number | null {
  const { plate, channels } = courses;
  let steep = 1;
  for (const channel of channels) {
    const rise = riseOf({ plate, channels: [channel] }, ROUGH_STATIONS, tightest_mm);
    if (rise === null) return null;
    steep = Math.min(steep, rise);
  }
  const rise = riseOf(courses, LOOK_STATIONS, tightest_mm);
  return rise === null ? null : Math.min(steep, rise);
}

/** Least rise at so many stations, or null as above. */
function riseOf(courses: Design, stations: number, tightest_mm: number): number | null {
  const { curvature_per_mm: k, tangent, shapeCount } = sampleDesign(courses, stations);
  let steep = 1;
  let bend = 0;
  for (let i = 0; i < 3 * shapeCount * stations; i += 3) {
    bend = Math.max(bend, k[i] * k[i] + k[i + 1] * k[i + 1] + k[i + 2] * k[i + 2]);
    steep = Math.min(steep, tangent[i + 2]);
  }
  return bend * tightest_mm * tightest_mm > 1 || steep <= LEAST_RISE ? null : steep;
}

function scaleBends(named: NamedGenes, factor: number): NamedGenes {
  return Object.fromEntries(
    Object.entries(named).map(([name, value]) => {
      const scales = /^(bend\d+[XY]|lean[XY])_mm$/.test(name) && typeof value === 'number';
      return [name, scales ? factor * value : value];
    }),
  );
}

/** Greatest sideways offset of a bend: what a neighbour that bends otherwise must keep clear of. */
function swingOf(named: NamedGenes): number {
  let swing = 0;
  for (const [name, value] of Object.entries(named)) {
    if (/^bend\d+[XY]_mm$/.test(name)) swing = Math.max(swing, Math.abs(Number(value)));
  }
  return swing;
}
