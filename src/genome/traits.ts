/** Traits: a row of genes read by name, with the brief's only choice where there is no gene. */
import type { Brief } from '../brief/index.ts';
import type { Build, LatticeKind } from '../design/index.ts';
import { FREE_SLOTS, MOST_BENDS, boreRange, thicknessRange } from './genes.ts';
import type { Gene } from './genes.ts';

export type SectionKind = Brief['routes']['sections'][number];
export type Motif = Brief['routes']['motifs'][number];

export interface Bend {
  readonly x_mm: number;
  readonly y_mm: number;
  readonly depth: number;
}

export interface Traits {
  readonly lattice: LatticeKind;
  readonly section: SectionKind;
  readonly motif: Motif;
  readonly build: Build;
  readonly thickness_mm: number;
  readonly bore_mm: number;
  readonly ligament_mm: number;
  readonly stagger: number;
  readonly rotation_deg: number;
  readonly facesOutwards: boolean;
  readonly slotAspect: number;
  readonly sides: number;
  readonly roll_deg: number;
  readonly bends: readonly Bend[];
  readonly leanX_mm: number;
  readonly leanY_mm: number;
  readonly endsAlongLean: boolean;
  readonly inletBore: number;
  readonly middleBore: number;
  readonly outletBore: number;
  readonly grading: number;
  readonly steps: number;
  readonly stepDepth: number;
  readonly pockets: number;
  readonly pocketDepth_mm: number;
  readonly pocketLength_mm: number;
  readonly pocketWidth_deg: number;
  readonly pocketShift: number;
  readonly pocketLip: number;
  readonly pocketTurn_deg: number;
  readonly toothHeight_mm: number;
  readonly toothSpacing: number;
  /** Own offsets of free channels, x y per slot [FREE_SLOTS x 2]; empty without free motifs. */
  readonly free: Float64Array;
}

/** Reads rows of genes; made once per brief. */
export type TraitReader = (rows: Float64Array, at: number) => Traits;

export function createReader(brief: Brief, genes: readonly Gene[]): TraitReader {
  const index = new Map(genes.map((gene, i) => [gene.name, i]));
  const { routes, plate } = brief;
  const [least] = boreRange(brief);
  const find = (name: string): number => index.get(name) ?? -1;
  const real =
    (name: string, otherwise: number) =>
    (rows: Float64Array, at: number): number => {
      const i = find(name);
      return i < 0 ? otherwise : rows[at + i];
    };
  const pick =
    <T extends string>(name: string, options: readonly T[]) =>
    (rows: Float64Array, at: number): T => {
      const i = find(name);
      return options[i < 0 ? 0 : rows[at + i]];
    };
  const lattice = pick('lattice', [...new Set(routes.lattices)]);
  const section = pick('section', [...new Set(routes.sections)]);
  const motif = pick('motif', [...new Set(routes.motifs)]);
  const builds: readonly Build[] = plate.build === 'any' ? ['flat', 'edge'] : [plate.build];
  const build = pick('build', builds);
  const facing = pick('facing', ['fixed', 'radial'] as const);
  const ends = pick('ends', ['faces', 'lean'] as const);
  const number = {
    thickness_mm: real('thickness_mm', thicknessRange(brief)[0]),
    bore_mm: real('bore_mm', least),
    ligament_mm: real('ligament_mm', routes.ligament_mm.max),
    stagger: real('stagger', 0),
    rotation_deg: real('rotation_deg', 0),
    slotAspect: real('slotAspect', 1),
    sides: real('sides', 4),
    roll_deg: real('roll_deg', 0),
    bends: real('bends', 0),
    leanX_mm: real('leanX_mm', 0),
    leanY_mm: real('leanY_mm', 0),
    inletBore: real('inletBore', 1),
    middleBore: real('middleBore', 1),
    outletBore: real('outletBore', 1),
    grading: real('grading', 0),
    steps: real('steps', 2),
    stepDepth: real('stepDepth', 0),
    pockets: real('pockets', 0),
    pocketDepth_mm: real('pocketDepth_mm', 0),
    pocketLength_mm: real('pocketLength_mm', 1),
    pocketWidth_deg: real('pocketWidth_deg', 90),
    pocketShift: real('pocketShift', 0),
    pocketLip: real('pocketLip', 0),
    pocketTurn_deg: real('pocketTurn_deg', 0),
    toothHeight_mm: real('toothHeight_mm', 0),
    toothSpacing: real('toothSpacing', 10),
  };
  const firstBend = find('bend1X_mm');
  const firstFree = find('free1X');
  return (rows, at) => {
    const bends: Bend[] = [];
    const bendCount = Math.min(number.bends(rows, at), MOST_BENDS);
    for (let i = 0; i < bendCount; i++) {
      const from = at + firstBend + 3 * i;
      bends.push({ x_mm: rows[from], y_mm: rows[from + 1], depth: rows[from + 2] });
    }
    return {
      lattice: lattice(rows, at),
      section: section(rows, at),
      motif: motif(rows, at),
      build: build(rows, at),
      thickness_mm: number.thickness_mm(rows, at),
      bore_mm: number.bore_mm(rows, at),
      ligament_mm: number.ligament_mm(rows, at),
      stagger: number.stagger(rows, at),
      rotation_deg: number.rotation_deg(rows, at),
      facesOutwards: facing(rows, at) === 'radial',
      slotAspect: number.slotAspect(rows, at),
      sides: number.sides(rows, at),
      roll_deg: number.roll_deg(rows, at),
      bends,
      leanX_mm: number.leanX_mm(rows, at),
      leanY_mm: number.leanY_mm(rows, at),
      endsAlongLean: ends(rows, at) === 'lean',
      inletBore: number.inletBore(rows, at),
      middleBore: number.middleBore(rows, at),
      outletBore: number.outletBore(rows, at),
      grading: number.grading(rows, at),
      steps: number.steps(rows, at),
      stepDepth: number.stepDepth(rows, at),
      pockets: number.pockets(rows, at),
      pocketDepth_mm: number.pocketDepth_mm(rows, at),
      pocketLength_mm: number.pocketLength_mm(rows, at),
      pocketWidth_deg: number.pocketWidth_deg(rows, at),
      pocketShift: number.pocketShift(rows, at),
      pocketLip: number.pocketLip(rows, at),
      pocketTurn_deg: number.pocketTurn_deg(rows, at),
      toothHeight_mm: number.toothHeight_mm(rows, at),
      toothSpacing: number.toothSpacing(rows, at),
      free:
        firstFree < 0 ? NO_OFFSETS : rows.subarray(at + firstFree, at + firstFree + 2 * FREE_SLOTS),
    };
  };
}

const NO_OFFSETS = new Float64Array(0);
