/** Distance to the nearest wall and its direction around every cell beside one. */
import type { Grid } from './grid.ts';
import type { Scene } from './scene.ts';

/** Cells around a cell that its normal is taken from, each way. */
const NEIGHBOURHOOD = 2;
/** Halvings of a normal in search of the wall: 1/1600 of a cell. */
const HALVINGS = 12;
/** Farthest a wall is looked for along a normal, and the distance given where there is none [cells]. */
export const FARTHEST_GAP = 2.5;

/** Whether a cell holds air; places beyond mirror planes answer for their images. */
export type AirCell = (x: number, y: number, z: number) => boolean;

export function airCells(grid: Grid, scene: Scene): AirCell {
  return (x, y, z) => {
    const k = Math.min(grid.nz - 1, Math.max(0, z));
    const box = scene.box(k);
    if (box === null) return grid.isFluid(x, y, k);
    return grid.isFluid(foldCell(x, box.x0, box.x1), foldCell(y, box.y0, box.y1), k);
  };
}

/** A cell's index reflected at planes half a cell beyond the first and the last. */
export function foldCell(at: number, first: number, last: number): number {
  if (at < first) return 2 * first - 1 - at;
  return at > last ? 2 * last + 1 - at : at;
}

/**
 * Unit vector from the walls towards the air around a cell: the mean direction of the air cells of the
 * neighbourhood, less that of the solid ones, each over its distance.
 *
 * @returns false where air or wall is all there is, or lies all around alike.
 */
export function wallNormal(
  isAir: AirCell,
  x: number,
  y: number,
  z: number,
  out: Float64Array,
): boolean {
  out.fill(0);
  let air = 0;
  let solid = 0;
  for (let i = -NEIGHBOURHOOD; i <= NEIGHBOURHOOD; i++) {
    for (let j = -NEIGHBOURHOOD; j <= NEIGHBOURHOOD; j++) {
      for (let k = -NEIGHBOURHOOD; k <= NEIGHBOURHOOD; k++) {
        const square = i * i + j * j + k * k;
        if (square > NEIGHBOURHOOD * NEIGHBOURHOOD + 1) continue;
        const holdsAir = isAir(x + i, y + j, z + k);
        if (holdsAir) air++;
        else solid++;
        if (square === 0) continue;
        const share = (holdsAir ? 1 : -1) / square;
        out[0] += share * i;
        out[1] += share * j;
        out[2] += share * k;
      }
    }
  }
  const size = Math.sqrt(out[0] * out[0] + out[1] * out[1] + out[2] * out[2]);
  if (air === 0 || solid === 0 || size < 1e-6) return false;
  for (let d = 0; d < 3; d++) out[d] /= size;
  return true;
}

/**
 * Way from a cell to the wall along its normal [cells]: positive from air, negative from within the
 * wall, at most `FARTHEST_GAP` either way.
 *
 * @param holdsAir whether a place holds air, by the true section.
 */
export function wallGap(
  holdsAir: (x: number, y: number, z: number) => boolean,
  x: number,
  y: number,
  z: number,
  normal: Float64Array,
): number {
  const [a, b, c] = normal;
  const fromAir = holdsAir(x, y, z);
  const sign = fromAir ? -1 : 1;
  let near = 0;
  let far = FARTHEST_GAP;
  const far3 = sign * far;
  if (holdsAir(x + far3 * a, y + far3 * b, z + far3 * c) === fromAir) {
    return fromAir ? FARTHEST_GAP : -FARTHEST_GAP;
  }
  for (let n = 0; n < HALVINGS; n++) {
    const s = 0.5 * (near + far);
    if (holdsAir(x + sign * s * a, y + sign * s * b, z + sign * s * c) === fromAir) near = s;
    else far = s;
  }
  const gap = 0.5 * (near + far);
  return fromAir ? gap : -gap;
}
