/** Plates with many holes as solid plates of less stiffness: ligament efficiency and its like. */
import { log, sin } from '../numeric/index.ts';
import { readTable, tabulate } from './table.ts';
import type { Table } from './table.ts';

/** How round holes stand: square lattices are judged along their weaker diagonal. */
export type HolePattern = 'square' | 'triangular';

/**
 * Ligament efficiency [-]: solid between two holes over their pitch.
 *
 *   eta = (p - d) / p
 *
 * @example ligamentEfficiency(10, 7) // 0.3
 * Source: O'Donnell & Langer 1962, Trans. ASME J. Eng. Ind. 84:307.
 */
export function ligamentEfficiency(pitch: number, hole: number): number {
  return (pitch - hole) / pitch;
}

/** Efficiency, modulus ratio of square lattices along the diagonal, of triangular ones, Poisson there. */
const ROWS: readonly (readonly [number, number, number, number])[] = [
  [0, 0, 0, 1],
  [0.1, 0.03735981, 0.04835047, 0.6807618],
  [0.15, 0.07119539, 0.09285091, 0.5719768],
  [0.2, 0.1140866, 0.1462026, 0.4877127],
  [0.25, 0.1657445, 0.2051467, 0.4261553],
  [0.3, 0.2252317, 0.2673911, 0.3834789],
  [0.4, 0.3630696, 0.3968509, 0.3370314],
  [0.5, 0.5150268, 0.5292532, 0.3189913],
  [0.6, 0.6663018, 0.6625356, 0.3114687],
  [1, 1, 1, 0.3],
];

/** Smooth through the rows, which lie on the nodes; 0.35 ... lie straight between. */
function column(index: 1 | 2 | 3): Table {
  return tabulate(
    (eta) => {
      let i = 1;
      while (i < ROWS.length - 1 && eta > ROWS[i][0]) i++;
      const share = (eta - ROWS[i - 1][0]) / (ROWS[i][0] - ROWS[i - 1][0]);
      return ROWS[i - 1][index] + share * (ROWS[i][index] - ROWS[i - 1][index]);
    },
    0,
    1,
    20,
  );
}

const SQUARE = column(1);
const TRIANGULAR = column(2);
const TRIANGULAR_POISSON = column(3);

/** Effective constants of a perforated plate. */
export interface PerforatedElastic {
  /** Young's modulus over that of the solid. */
  readonly modulusRatio: number;
  readonly poisson: number;
}

/**
 * Effective elastic constants, plane stress, of a plate with round holes; Poisson's ratio of the
 * solid 0.3.
 *
 * Square lattices: Young's modulus along the diagonal, the weaker direction, with Poisson's ratio of
 * the solid. Good for bending when the plate is two pitches thick or more; thinner ones are somewhat
 * stiffer. Below an efficiency of 0.1 and above 0.6 drawn straight to 0 and to the solid plate.
 *
 * @param eta ligament efficiency [0..1].
 * @example perforatedElastic(0.3, 'triangular').modulusRatio // 0.2673911
 * @example perforatedElastic(1, 'square').modulusRatio // 1
 * Source: own finite elements of a periodic cell, about 1 %; the concept after O'Donnell & Langer 1962
 * and Slot & O'Donnell 1971.
 */
export function perforatedElastic(eta: number, pattern: HolePattern): PerforatedElastic {
  if (pattern === 'square') return { modulusRatio: readTable(SQUARE, eta), poisson: 0.3 };
  return {
    modulusRatio: readTable(TRIANGULAR, eta),
    poisson: readTable(TRIANGULAR_POISSON, eta),
  };
}

/** Equal slots in rows: one of them with its slats and webs, any unit of length. */
export interface SlotCell {
  /** Across the slot, its opening and the slat beside it. */
  readonly width: number;
  readonly slat: number;
  /** Along the row: slot to slot, and the web between their ends. */
  readonly pitch: number;
  readonly web: number;
  /** Shift of the webs from one row to the next, 0 .. pitch / 2. */
  readonly shift: number;
  /** Thickness of the plate. */
  readonly thickness: number;
}

/** Bending stiffness along and across slots over that of the solid plate, and solid shares there. */
export interface SlotStiffness {
  readonly along: number;
  readonly across: number;
  /** Ligament efficiencies: share of slats in a cut across them, of webs in a cut along a row. */
  readonly slatShare: number;
  readonly webShare: number;
}

/** Stiffness of a slat over a span between webs, its ends held, bending and shear; over E t. */
function sideways(slat: number, span: number): number {
  const share = slat / span;
  return (share * share * share) / (1 + 3.12 * share * share);
}

/** Of the solid. */
const POISSON = 0.3;

/**
 * Bending stiffness of a plate with rows of slots.
 *
 *   along   1 / along  = (1 - web / pitch) (width + slat) / slat + web / pitch
 *   across  1 / across = [width pitch / web + slat] / (width + slat) + narrow + twist
 *   narrow = (4 / pi) c pitch ln{1 / sin[pi web / (2 pitch)]} / (width + slat)
 *   twist = 1 / (1 / roll + 1 / bend)
 *   roll = 2.6 t^3 pitch / {12 J (1 / l1 + 1 / l2) (width + slat)}
 *   bend = pitch / {(width + slat) t / (t + web) sum over l1, l2 of slat^3 / [l^3 (1 + 3.12 slat^2 / l^2)]}
 *
 * Along the slots the slats bend; across them the moment passes from web to web, and where the webs of
 * neighbouring rows stand apart by l1 and l2 it twists the slat between (J its torsion constant): thin
 * slats in a brick pattern are a thousandth as stiff as the plate. `narrow` is what a moment loses on
 * its way into a web: that of a row of cracks, c = (1 + nu) / (3 + nu) in thin plates and 1 in thick
 * ones, here between the two by t / (t + web).
 *
 * A slat that twists bends sideways, one way at the top and the other at the bottom; in thick plates
 * that holds it, not torsion. Webs that stand behind each other carry straight through: across is
 * never less than (1 - nu^2) (web - shift) / pitch, a bound.
 *
 * Own model. Thin plates, against plate finite elements over eight cells: across between 10 % too soft
 * and 3 % too stiff. Thick plates, against plane finite elements of a layer (tests): along within 8 %,
 * across 15 to 27 % too soft where webs are in line, 20 % too soft to 15 % too stiff in a brick pattern.
 *
 * @example slotStiffness({ width: 3, slat: 1, pitch: 20, web: 20, shift: 10, thickness: 4 }).along // 1
 * @example slotStiffness({ width: 3, slat: 1, pitch: 20, web: 20, shift: 10, thickness: 4 }).across // 1
 * Source: row of cracks under tension: Tada, Paris & Irwin, handbook, from memory; the factor of thin
 * plates in bending: Sih, Paris & Erdogan 1962, from memory.
 */
export function slotStiffness(cell: SlotCell): SlotStiffness {
  const { width, slat, pitch, web, thickness } = cell;
  const row = width + slat;
  const open = 1 - web / pitch;
  const along = 1 / ((open * row) / slat + web / pitch);
  const near = Math.max(0, cell.shift - web);
  const far = Math.max(0, pitch - cell.shift - web);
  // 0 in thin plates, 1 in thick ones.
  const thick = thickness / (thickness + web);
  let twist = 0;
  if (near > 0 && far > 0) {
    const cube = thickness * thickness * thickness;
    const paths = torsionConstant(slat, thickness) * (1 / near + 1 / far);
    const rolling = (2.6 * cube * pitch) / (12 * paths * row);
    const bending = pitch / (row * thick * (sideways(slat, near) + sideways(slat, far)));
    twist = (rolling * bending) / (rolling + bending);
  }
  const ease = (4 / Math.PI) * (THIN_CRACK + thick * (1 - THIN_CRACK));
  const narrow = (-ease * pitch * log(sin((0.5 * Math.PI * web) / pitch))) / row;
  const straight = ((1 - POISSON * POISSON) * Math.max(0, web - cell.shift)) / pitch;
  const across = Math.max(straight, 1 / (((width * pitch) / web + slat) / row + narrow + twist));
  return { along, across, slatShare: slat / row, webShare: web / pitch };
}

/** (1 + nu) / (3 + nu), nu = 0.3. */
const THIN_CRACK = 1.3 / 3.3;

/**
 * Torsion constant of a rectangular bar.
 *
 *   J = a b^3 [1/3 - 0.21 (b / a) (1 - b^4 / (12 a^4))], a the longer side
 *
 * @example torsionConstant(1, 1) // 0.1408333
 * Source: Roark; within 0.5 % of the exact series (square 0.1406), from memory.
 */
export function torsionConstant(width: number, height: number): number {
  const a = Math.max(width, height);
  const b = Math.min(width, height);
  const s = b / a;
  return a * b * b * b * (1 / 3 - 0.21 * s * (1 - (s * s * s * s) / 12));
}
