/** Decay of Taylor-Green vortices between mirrors and a periodic end. */
import { createFlow, setEquilibrium, velocityOf } from './flows.ts';

/**
 * Rate of decay over the exact one, 2 nu k^2, minus 1; the exact field is
 *
 *   u = U sin kx cos kz e^(-2 nu k^2 t),  w = -U cos kx sin kz e^(-2 nu k^2 t)
 *
 * an exact solution of the Navier-Stokes equations (Taylor & Green 1937).
 *
 * @param n cells in half a wave length.
 */
export function vortexDecay(n: number): number {
  const U = 0.64 / n;
  const viscosity = 0.02;
  const k = Math.PI / n;
  const flow = createFlow(
    {
      nx: n,
      ny: 1,
      nz: 2 * n,
      ends: 'periodic',
      box: () => ({ x0: 0, x1: n - 1, y0: 0, y1: 0 }),
      inside: () => true,
    },
    viscosity,
  );
  const { grid, kernel } = flow;
  const f = kernel.populations();
  for (let x = 0; x < n; x++) {
    for (let z = 0; z < 2 * n; z++) {
      const a = k * (x + 0.5);
      const b = k * (z + 0.5);
      const pressure = (U * U * (Math.cos(2 * a) + Math.cos(2 * b))) / 4;
      setEquilibrium(f, grid, grid.address(x, 0, z), 3 * pressure, [
        U * Math.sin(a) * Math.cos(b),
        0,
        -U * Math.cos(a) * Math.sin(b),
      ]);
    }
  }
  const energy = (): number => {
    const u = new Float64Array(3);
    let sum = 0;
    for (let x = 0; x < n; x++) {
      for (let z = 0; z < 2 * n; z++) {
        velocityOf(kernel.populations(), grid, grid.address(x, 0, z), u);
        sum += u[0] * u[0] + u[2] * u[2];
      }
    }
    return sum;
  };
  // From a tenth of the decay time on, when the start has been forgotten.
  const time = 1 / (2 * viscosity * k * k);
  const from = Math.round(0.1 * time);
  const to = Math.round(time);
  for (let step = 0; step < from; step++) kernel.step();
  const before = energy();
  for (let step = from; step < to; step++) kernel.step();
  const rate = -Math.log(energy() / before) / (2 * (to - from));
  return rate / (2 * viscosity * k * k) - 1;
}
