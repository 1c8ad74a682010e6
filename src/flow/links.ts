/**
 * Everything that does not stream from one air cell to the next, as one list of linear rules:
 *
 *   population[to] = scale * population[near] + share * population[far] + constant
 *
 * applied to all links before each step, so that the collision loop meets no boundary at all.
 *
 * Walls: interpolated bounce-back at the true distance of the wall (Bouzidi, Firdaouss & Lallemand
 * 2001, Phys. Fluids 13:3452, linear form). That rule alone lets air through walls, at sharp lips a few
 * per cent of the flow on 15 cells; what a cell loses is therefore added to it at rest, which leaves its
 * momentum as it was (cf. Bao, Yuan & Schaefer 2008, J. Comput. Phys. 227:8472). Mirror planes: specular reflection half a cell out. Inlet:
 * bounce-back off a moving wall, which fixes the flow exactly (Ladd 1994, J. Fluid Mech. 271:285).
 * Outlet: anti-bounce-back, which fixes the pressure (Ginzburg, Verhaeghe & d'Humieres 2008, Commun.
 * Comput. Phys. 3:427).
 */
import type { Grid } from './grid.ts';
import { CX, CY, CZ, DIRECTIONS, mirroredDirection, oppositeOf, weightOf } from './lattice.ts';
import type { Scene } from './scene.ts';

export interface Links {
  readonly count: number;
  /** Indices into the populations (direction * size + address). */
  readonly to: Int32Array;
  readonly near: Int32Array;
  readonly far: Int32Array;
  /**
   * Where the cell of a wall link rests: what the wall would swallow, population[near] - population[to],
   * is added there. Links other than walls give theirs to a place that is never read.
   */
  readonly rest: Int32Array;
  readonly scale: Float32Array;
  readonly share: Float32Array;
  readonly constant: Float32Array;
  /** Links [first, end) of the inlet; their constant is `inletWeight` * inlet velocity. */
  readonly inlet: readonly [number, number];
  /** Links [first, end) of the outlet, five for each cell, and those cells' addresses. */
  readonly outlet: readonly [number, number];
  readonly outletCell: Int32Array;
  /** Direction in which each outlet link leaves. */
  readonly outletDirection: Uint8Array;
  readonly inletWeight: Float32Array;
  /** Links over a periodic end: their constant is weight * (-)density rise. */
  readonly periodic: readonly [number, number];
  readonly periodicWeight: Float32Array;
}

/** Halvings of a link in search of the wall: 1/4096 of a cell. */
const HALVINGS = 12;
/** Nearest wall taken [cells]: the rule divides by nothing smaller than this. */
const LEAST_DISTANCE = 1e-3;

interface Rule {
  to: number;
  near: number;
  far: number;
  scale: number;
  share: number;
  weight: number;
  /** Address of the cell beside. */
  cell: number;
}

interface Spot {
  x: number;
  y: number;
  z: number;
  acrossX: boolean;
  acrossY: boolean;
}

export function createLinks(scene: Scene, grid: Grid): Links {
  const walls: Rule[] = [];
  const mirrors: Rule[] = [];
  const inlets: Rule[] = [];
  const outlets: Rule[] = [];
  const rounds: Rule[] = [];
  const { size } = grid;
  const index = (direction: number, x: number, y: number, z: number): number =>
    direction * size + grid.address(x, y, z);

  /** The place inside the mirror planes that stands for a place outside. */
  const reflect = (x: number, y: number, z: number): Spot => {
    const k = Math.min(grid.nz - 1, Math.max(0, Math.round(z)));
    const box = scene.box(k);
    const spot: Spot = { x, y, z, acrossX: false, acrossY: false };
    if (box === null) return spot;
    const mx = fold(x, box.x0, box.x1);
    const my = fold(y, box.y0, box.y1);
    spot.acrossX = mx !== x;
    spot.acrossY = my !== y;
    spot.x = mx;
    spot.y = my;
    return spot;
  };
  const holdsAir = (x: number, y: number, z: number): boolean => {
    const spot = reflect(x, y, z);
    return scene.inside(spot.x, spot.y, spot.z);
  };
  const wallDistance = (x: number, y: number, z: number, i: number): number => {
    let air = 0;
    let wall = 1;
    for (let n = 0; n < HALVINGS; n++) {
      const q = 0.5 * (air + wall);
      if (holdsAir(x + q * CX[i], y + q * CY[i], z + q * CZ[i])) air = q;
      else wall = q;
    }
    return Math.max(LEAST_DISTANCE, 0.5 * (air + wall));
  };
  const wallRule = (x: number, y: number, z: number, i: number, to: number): Rule => {
    const near = index(i, x, y, z);
    const q = wallDistance(x, y, z, i);
    const weight = 0;
    const cell = grid.address(x, y, z);
    if (q >= 0.5) {
      const far = index(oppositeOf(i), x, y, z);
      return { to, near, far, scale: 0.5 / q, share: 1 - 0.5 / q, weight, cell };
    }
    const back = z - CZ[i];
    const isRound = scene.ends === 'periodic' && (back < 0 || back >= grid.nz);
    const behind = reflect(x - CX[i], y - CY[i], isRound ? (back + grid.nz) % grid.nz : back);
    // A gap one cell wide has nothing behind the cell: there the wall is taken at half a cell.
    if (!grid.isFluid(behind.x, behind.y, behind.z)) {
      return { to, near, far: near, scale: 1, share: 0, weight, cell };
    }
    const seen = mirroredDirection(i, behind.acrossX, behind.acrossY);
    const far = index(seen, behind.x, behind.y, behind.z);
    const share = 1 - 2 * q;
    // Over a periodic end the pressure is higher upstream.
    const rise = isRound ? Math.sign(CZ[i]) * share * weightOf(i) : 0;
    return { to, near, far, scale: 2 * q, share, weight: rise, cell };
  };
  const wall = (x: number, y: number, z: number, i: number, to: number): void => {
    const rule = wallRule(x, y, z, i, to);
    (rule.weight === 0 ? walls : rounds).push(rule);
  };
  const addLink = (x: number, y: number, z: number, i: number): void => {
    const px = x + CX[i];
    const py = y + CY[i];
    const pz = z + CZ[i];
    if (grid.isFluid(px, py, pz)) return;
    const back = oppositeOf(i);
    const to = index(back, px, py, pz);
    const cell = grid.address(x, y, z);
    const plain = { to, scale: 1, share: 0, cell };
    if (pz < 0 || pz >= grid.nz) {
      if (scene.ends === 'periodic') {
        const other = reflect(px, py, pz < 0 ? grid.nz - 1 : 0);
        if (grid.isFluid(other.x, other.y, other.z)) {
          const seen = mirroredDirection(back, other.acrossX, other.acrossY);
          const near = index(seen, other.x, other.y, other.z);
          const weight = (pz < 0 ? 1 : -1) * weightOf(i);
          rounds.push({ ...plain, near, far: near, weight });
        } else wall(x, y, z, i, to);
      } else if (pz < 0) {
        const near = index(i, x, y, z);
        inlets.push({ ...plain, near, far: near, weight: 6 * weightOf(i) });
      } else {
        const near = index(i, x, y, z);
        outlets.push({ ...plain, scale: -1, near, far: near, weight: i });
      }
      return;
    }
    const image = reflect(px, py, pz);
    if ((image.acrossX || image.acrossY) && grid.isFluid(image.x, image.y, image.z)) {
      const seen = mirroredDirection(back, image.acrossX, image.acrossY);
      const near = index(seen, image.x, image.y, image.z);
      mirrors.push({ ...plain, near, far: near, weight: 0 });
    } else wall(x, y, z, i, to);
  };
  for (let x = 0; x < grid.nx; x++) {
    for (let y = 0; y < grid.ny; y++) {
      for (let z = 0; z < grid.nz; z++) {
        if (!grid.isFluid(x, y, z)) continue;
        for (let i = 1; i < DIRECTIONS; i++) addLink(x, y, z, i);
      }
    }
  }
  return packLinks(size, walls, mirrors, inlets, outlets, rounds);
}

/** A coordinate reflected at planes half a cell beyond the first and the last cell. */
function fold(at: number, first: number, last: number): number {
  if (at < first - 0.5) return 2 * first - 1 - at;
  return at > last + 0.5 ? 2 * last + 1 - at : at;
}

function packLinks(
  size: number,
  walls: readonly Rule[],
  mirrors: readonly Rule[],
  inlets: readonly Rule[],
  outlets: readonly Rule[],
  rounds: readonly Rule[],
): Links {
  const rules = [...walls, ...mirrors, ...inlets, ...outlets, ...rounds];
  const a = walls.length + mirrors.length;
  const b = a + inlets.length;
  const c = b + outlets.length;
  return {
    count: rules.length,
    to: Int32Array.from(rules, (rule) => rule.to),
    near: Int32Array.from(rules, (rule) => rule.near),
    far: Int32Array.from(rules, (rule) => rule.far),
    rest: Int32Array.from(rules, (rule, n) => (n < walls.length ? rule.cell : rule.to % size)),
    scale: Float32Array.from(rules, (rule) => rule.scale),
    share: Float32Array.from(rules, (rule) => rule.share),
    constant: new Float32Array(rules.length),
    inlet: [a, b],
    inletWeight: Float32Array.from(inlets, (rule) => rule.weight),
    outlet: [b, c],
    outletCell: Int32Array.from(outlets, (rule) => rule.cell),
    outletDirection: Uint8Array.from(outlets, (rule) => rule.weight),
    periodic: [c, rules.length],
    periodicWeight: Float32Array.from(rounds, (rule) => rule.weight),
  };
}
