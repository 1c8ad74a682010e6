/** Friction of a long curved tube: one turn of a coil, endless through a periodic end. */
import { createFlow, drive, velocityOf } from './flows.ts';

export interface CoilFlow {
  readonly Re: number;
  /** Re sqrt(a/R). */
  readonly dean: number;
  /** Friction over that of the straight tube, 64/Re. */
  readonly ratio: number;
  readonly steps: number;
}

/** Rise of the coil in one turn, in tube radii: as flat as neighbouring turns allow. */
const PITCH = 2.6;

/**
 * @param dean that the driving pressure is chosen for, by an expected ratio.
 * @param expected friction ratio that is expected; the flow found answers for itself.
 * @param a cells in the tube's radius.
 * @param bend radius of the coil in tube radii.
 */
export function coil(dean: number, expected: number, a: number, bend: number): CoilFlow {
  const R = bend * a;
  const nz = Math.round(PITCH * a);
  const b = nz / (2 * Math.PI);
  const wide = Math.ceil(2 * (R + a)) + 3;
  const middle = 0.5 * (wide - 1) + 0.3;
  const pull = 1 + (b * b) / (R * R);
  const inside = (x: number, y: number, z: number): boolean => {
    const px = x - middle;
    const py = y - middle;
    const r = Math.sqrt(px * px + py * py);
    if (Math.abs(r - R) > 1.1 * a || r === 0) return false;
    // Nearest turn of the axis, then Newton's way to its nearest point.
    const angle = Math.atan2(py, px);
    let rise = z - b * angle;
    rise -= nz * Math.round(rise / nz);
    let turn = (rise * b) / (R * r + b * b);
    for (let n = 0; n < 4; n++) {
      const slope = R * r * Math.sin(turn) - (rise - b * turn) * b;
      turn -= slope / (R * r * Math.cos(turn) + b * b);
    }
    const square = r * r + R * R - 2 * r * R * Math.cos(turn);
    const off = rise - b * turn;
    return square + off * off < a * a;
  };
  const Re = dean * Math.sqrt(bend);

  const speed = 0.06;
  const viscosity = (speed * 2 * a) / Re;
  const flow = createFlow(
    { nx: wide, ny: wide, nz, ends: 'periodic', box: () => null, inside },
    viscosity,
  );
  const { grid, kernel } = flow;
  const length = 2 * Math.PI * R * Math.sqrt(pull);
  const drop = (((64 * expected) / Re) * length * 0.5 * speed * speed) / (2 * a);
  drive(flow, 3 * drop);
  const u = new Float64Array(3);
  const mean = (): number => {
    let flux = 0;
    for (let x = 0; x < wide; x++) {
      for (let y = 0; y < wide; y++) {
        const px = x - middle;
        const py = y - middle;
        for (let z = 0; z < nz; z++) {
          if (!grid.isFluid(x, y, z)) continue;
          velocityOf(kernel.populations(), grid, grid.address(x, y, z), u);
          // Through any half plane that ends in the coil's axis: the mean over all of them.
          flux += (u[1] * px - u[0] * py) / (2 * Math.PI * (px * px + py * py));
        }
      }
    }
    return flux / (Math.PI * a * a);
  };
  let held = 0;
  let U = 0;
  let steps = 0;
  const most = Math.round((6 * a * a) / viscosity);
  while (steps < most) {
    for (let n = 0; n < 500; n++) kernel.step();
    steps += 500;
    U = mean();
    if (Math.abs(U / held - 1) < 3e-4) break;
    held = U;
  }
  const found = (U * 2 * a) / viscosity;
  const friction = (drop * 2 * a) / (length * 0.5 * U * U);
  const ratio = (friction * found) / 64;
  return { Re: found, dean: found / Math.sqrt(bend), ratio, steps };
}
