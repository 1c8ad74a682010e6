/** Pressure along a round pipe that air enters evenly. */
import { createFlow, densityOf, marchOpen } from './flows.ts';

/**
 * Apparent Fanning friction times Re over x+ = x/(D Re), x from the inlet: an own marching solution of
 * the boundary-layer equations, within 1.8 % of the fit of Shah 1978 (J. Fluids Eng. 100:177).
 */
export const APPARENT: readonly (readonly [number, number])[] = [
  [0.005, 51.5],
  [0.01, 38.4],
  [0.02, 29.45],
  [0.05, 22.1],
];

/** Pressure lost from the inlet to a row of the table, over rho U^2 / 2. */
function table(row: number): number {
  return 4 * APPARENT[row][1] * APPARENT[row][0];
}

/**
 * Pressure lost from the first to the last of some places, over rho U^2 / 2, divided by that of the
 * table, minus 1. The first places near the inlet are left to the boundary-layer equations, which do
 * not hold there.
 *
 * @param n cells across.
 * @param places rows of `APPARENT` between which the loss is compared.
 */
export function developingError(
  Re: number,
  n: number,
  [from, to]: readonly [number, number],
): number {
  const speed = 0.05;
  const middle = 0.5 * (n + 1) + 0.2;
  const x = (row: number): number => APPARENT[row][0] * Re * n;
  const nz = Math.ceil(x(to) + 3 * n);
  const inside = (px: number, py: number): boolean => {
    const a = px - middle;
    const b = py - middle;
    return a * a + b * b < 0.25 * n * n;
  };
  const flow = createFlow(
    { nx: n + 3, ny: n + 3, nz, ends: 'open', box: () => null, inside },
    (speed * n) / Re,
  );
  const { grid, kernel } = flow;
  const march = marchOpen(flow, () => speed);
  const pressure = (at: number): number => {
    // Layer k has its centre k + 1/2 cells behind the inlet plane.
    const low = Math.floor(at - 0.5);
    const share = at - 0.5 - low;
    return (1 - share) * layerPressure(low) + share * layerPressure(low + 1);
  };
  const layerPressure = (z: number): number => {
    let sum = 0;
    let cells = 0;
    for (let i = 0; i < grid.nx; i++) {
      for (let j = 0; j < grid.ny; j++) {
        if (!grid.isFluid(i, j, z)) continue;
        sum += densityOf(kernel.populations(), grid, grid.address(i, j, z)) / 3;
        cells++;
      }
    }
    return sum / cells;
  };
  const lost = (): number => (pressure(x(from)) - pressure(x(to))) / (0.5 * speed * speed);
  let held = 0;
  const flush = Math.round(nz / speed);
  for (let step = 1; step <= 8 * flush; step++) {
    march.next();
    if (step % Math.round(0.25 * flush) !== 0) continue;
    const now = lost();
    if (step > 1.5 * flush && Math.abs(now / held - 1) < 5e-4) break;
    held = now;
  }
  return lost() / (table(to) - table(from)) - 1;
}
