/** Labelled starting designs with side exits: what an engineer would draw first. */
import type { Brief } from '../brief/index.ts';
import { boreRange, thicknessRange } from './genes.ts';
import type { Gene } from './genes.ts';
import { writeRow } from './row.ts';
import type { NamedGenes } from './row.ts';
import { sideDesignOf } from './side-decode.ts';
import { inletReach, sideRouteOf } from './side-genes.ts';
import { lyingReach } from './side-sections.ts';
import type { SideReader } from './side-traits.ts';
import type { Start } from './starts.ts';

/** Solid kept beyond the minimum wall, for what 32 stations cannot see [mm]. */
const SPARE_MM = 0.2;
/** Spare radius of a turn, for what the spline bends unevenly [mm]. */
const EASY_MM = 0.6;
/** Exits of a manifold against its inlets, and its outer radius as a share of what the rim leaves. */
const EXIT_BORE = 1.25;
const MANIFOLD_RADIUS = 0.85;
const INNER_RADIUS = 0.5;
const OUTER_RADIUS = 0.78;

/**
 * Plain side bends of one bore: inlets on one ring, as many as keep their walls there, exits straight
 * out, half-way up. Also what `brief check` shows.
 */
export function plainSideGenes(brief: Brief, bore_mm: number): NamedGenes {
  const { sectors, merge } = sideRouteOf(brief);
  const open_deg = sectors.reduce((sum, { from_deg, to_deg }) => sum + to_deg - from_deg, 0);
  const r = INNER_RADIUS * inletReach(brief);
  const step = bore_mm + brief.process.minimumWall_mm + SPARE_MM;
  const count = Math.floor((r * Math.PI * open_deg) / (180 * step));
  return {
    merge: merge === 'any' ? 'none' : '',
    section: 'teardrop',
    bore_mm,
    sideChannels: count,
    inletRings: 1,
    ring1Radius: INNER_RADIUS,
    ring1Height: 0.5,
    turn: 1.2,
    plenumExits: count,
    gather: 0,
  };
}

/** The starting designs that a brief allows, each decodable, without repetitions. */
export function listSideStarts(brief: Brief, genes: readonly Gene[], read: SideReader): Start[] {
  const [least, largest] = boreRange(brief);
  const [thinnest, thickest] = thicknessRange(brief);
  const { merge } = sideRouteOf(brief);
  const bore_mm = Math.sqrt(least * largest);
  const plain = { ...plainSideGenes(brief, bore_mm), thickness_mm: 0.5 * (thinnest + thickest) };
  const recipes: [string, NamedGenes][] = [];
  if (merge !== 'plenum') {
    recipes.push(
      ['side bends', plain],
      ['fine side bends', { ...plain, ...plainSideGenes(brief, least) }],
      ['two-storey side bends', twoStoreys(brief, genes, read, plain)],
      ['swept side bends', { ...plain, sweep_deg: 20 }],
      ...pocketed(brief, plain),
    );
  }
  if (merge !== 'none') {
    recipes.push(['ring manifold', ringManifold(brief, genes, read, plain)]);
  }
  const starts: Start[] = [];
  for (const [label, named] of recipes) {
    const row = writeRow(genes, named);
    const known = starts.some((start) => start.row.every((value, i) => value === row[i]));
    if (!known && sideDesignOf(brief, read(row, 0)).ok) starts.push({ label, row });
  }
  return starts;
}

/** Plain side bends with a pocket at the outer side of the turn. */
function pocketed(brief: Brief, plain: NamedGenes): [string, NamedGenes][] {
  if (!brief.routes.pockets || brief.routes.sidePockets !== true) return [];
  const bore_mm = Number(plain.bore_mm);
  const pocket = { pockets: 1, pocketDepth_mm: 0.25 * bore_mm, pocketLength_mm: 1.2 * bore_mm };
  return [['side bends with pockets', { ...plain, ...pocket }]];
}

/**
 * Inner inlets that pass over outer ones: the greatest bore for which the outer ones have room to turn
 * below the inner ones, twice as many channels as stand on the inner ring.
 */
function twoStoreys(
  brief: Brief,
  genes: readonly Gene[],
  read: SideReader,
  plain: NamedGenes,
): NamedGenes {
  const traits = read(writeRow(genes, plain), 0);
  const [least] = boreRange(brief);
  const wall = brief.process.minimumWall_mm;
  const storeys = (
    bore_mm: number,
  ): { low: number; lowest: number; highest: number; rise: number } => {
    const [down, up] = lyingReach(traits, bore_mm);
    const turn = Math.max(0.5 * (bore_mm + wall) + EASY_MM, 0.9 * bore_mm);
    const lowest = wall + down;
    return {
      low: Math.max(lowest, turn),
      lowest,
      highest: traits.thickness_mm - wall - up,
      rise: down + up + wall + SPARE_MM,
    };
  };
  let bore_mm = traits.bore_mm;
  let at = storeys(bore_mm);
  while (bore_mm > least && at.highest - at.low < at.rise) {
    bore_mm = Math.max(least, 0.97 * bore_mm);
    at = storeys(bore_mm);
  }
  const inner = plainSideGenes(brief, bore_mm);
  return {
    ...plain,
    ...inner,
    sideChannels: 2 * Number(inner.sideChannels),
    inletRings: 2,
    ring1Radius: INNER_RADIUS,
    ring1Height: 1,
    ring2Radius: OUTER_RADIUS,
    ring2Height: (at.low - at.lowest) / Math.max(1e-9, at.highest - at.lowest),
    turn: 1.2,
  };
}

/**
 * As wide a ring as a pointed roof covers in this plate, one or two rings of inlets under it, and wide
 * exits side by side all along its outer wall.
 */
function ringManifold(
  brief: Brief,
  genes: readonly Gene[],
  read: SideReader,
  plain: NamedGenes,
): NamedGenes {
  const traits = read(writeRow(genes, plain), 0);
  const wall = brief.process.minimumWall_mm + SPARE_MM;
  const isOutward = sideRouteOf(brief).direction === 'outward';
  const [least] = boreRange(brief);
  // Turned over, the ports leave through a flat top, which closes in from both sides.
  const widest = isOutward ? Infinity : 0.5 * brief.process.bridgeLimit_mm - 1.4 * wall;
  const bore_mm = Math.max(least, Math.min(traits.bore_mm, widest));
  const exit_mm = EXIT_BORE * bore_mm;
  const [down, up] = lyingReach(traits, exit_mm);
  const outer = MANIFOLD_RADIUS * inletReach(brief);
  const roof = Math.max(0, traits.thickness_mm - 2 * wall - down - up);
  const width = Math.min(0.55 * outer, 2 * roof);
  const inner = outer - width;
  const { sectors } = sideRouteOf(brief);
  const open_deg = sectors.reduce((sum, { from_deg, to_deg }) => sum + to_deg - from_deg, 0);
  const around = (r: number): number => (2 * Math.PI * r) / (bore_mm + 2 * wall);
  const hasTwo = isOutward && width > 2 * bore_mm + 3 * wall;
  const inlets = hasTwo ? around(inner) + around(outer - bore_mm) : around(outer - width / 2);
  return {
    ...plain,
    merge: 'plenum',
    bore_mm,
    sideChannels: Math.floor(inlets),
    inletRings: hasTwo ? 2 : 1,
    plenumExits: Math.floor((outer * Math.PI * open_deg) / (180 * (exit_mm + wall))),
    exitBore: EXIT_BORE,
    plenumInner: inner / outer,
    plenumOuter: MANIFOLD_RADIUS,
    plenumFloor: 0,
    plenumWall: 0,
  };
}
