/** Traits of a plate with side exits: its genes read by name. */
import type { Brief } from '../brief/index.ts';
import type { Build } from '../design/index.ts';
import { boreRange, thicknessRange } from './genes.ts';
import type { Gene } from './genes.ts';
import { MOST_RINGS, SIDE_SLOTS, sideRouteOf } from './side-genes.ts';
import { readSidePockets } from './side-pockets.ts';
import type { SidePockets } from './side-pockets.ts';
import type { SectionKind } from './traits.ts';

export interface SideTraits extends SidePockets {
  readonly hasPlenum: boolean;
  readonly section: SectionKind;
  readonly build: Build;
  readonly thickness_mm: number;
  readonly bore_mm: number;
  readonly slotAspect: number;
  readonly sides: number;
  readonly roll_deg: number;
  readonly channels: number;
  readonly rings: number;
  readonly radii: readonly number[];
  readonly heights: readonly number[];
  readonly turn: number;
  readonly climb: number;
  readonly swing: number;
  readonly sweep_deg: number;
  readonly exitShift: number;
  readonly gather: number;
  readonly inletBore: number;
  readonly middleBore: number;
  readonly outletBore: number;
  readonly exits: number;
  readonly exitBore: number;
  readonly plenumInner: number;
  readonly plenumOuter: number;
  readonly plenumFloor: number;
  readonly plenumWall: number;
  readonly isFree: boolean;
  /** Own offsets: exit, radius, height per slot [SIDE_SLOTS x 3]; empty without free motifs. */
  readonly own: Float64Array;
}

export type SideReader = (rows: Float64Array, at: number) => SideTraits;

/** Reads rows of genes; what the brief leaves no choice about has its only value. */
export function createSideReader(brief: Brief, genes: readonly Gene[]): SideReader {
  const index = new Map(genes.map((gene, i) => [gene.name, i]));
  const route = sideRouteOf(brief);
  const sections = [...new Set(brief.routes.sections)];
  const { build } = brief.plate;
  const firstOwn = index.get('own1Exit') ?? -1;
  const mayBeFree = brief.routes.motifs.includes('free');
  return (rows, at) => {
    const value = (name: string, otherwise: number): number => {
      const i = index.get(name);
      return i === undefined ? otherwise : rows[at + i];
    };
    const merges = route.merge === 'plenum' ? 1 : 0;
    const [thinnest] = thicknessRange(brief);
    const rings = value('inletRings', 1);
    const perRing = (what: string): number[] =>
      Array.from({ length: MOST_RINGS }, (_, k) => value(`ring${k + 1}${what}`, 0.5));
    return {
      hasPlenum: value('merge', merges) === 1,
      section: sections[value('section', 0)],
      build: build === 'any' ? (value('build', 0) === 1 ? 'edge' : 'flat') : build,
      thickness_mm: value('thickness_mm', thinnest),
      bore_mm: value('bore_mm', boreRange(brief)[0]),
      slotAspect: value('slotAspect', 1),
      sides: value('sides', 4),
      roll_deg: value('roll_deg', 90),
      channels: value('sideChannels', 3),
      rings,
      radii: perRing('Radius'),
      heights: perRing('Height'),
      turn: value('turn', 1),
      climb: value('climb', 0),
      swing: value('swing', 0),
      sweep_deg: value('sweep_deg', 0),
      exitShift: value('exitShift', 0),
      gather: value('gather', 0),
      inletBore: value('inletBore', 1),
      middleBore: value('middleBore', 1),
      outletBore: value('outletBore', 1),
      exits: value('plenumExits', 3),
      exitBore: value('exitBore', 1),
      plenumInner: value('plenumInner', 0.5),
      plenumOuter: value('plenumOuter', 0.7),
      plenumFloor: value('plenumFloor', 0),
      plenumWall: value('plenumWall', 0.5),
      ...readSidePockets(value),
      isFree: mayBeFree && value('freedom', 1) === 1,
      own: firstOwn < 0 ? NONE : rows.subarray(at + firstOwn, at + firstOwn + 3 * SIDE_SLOTS),
    };
  };
}

const NONE = new Float64Array(0);
