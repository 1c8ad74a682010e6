/** Backward-facing step: where the stream lies down again. */
import { createFlow, marchOpen, velocityOf } from './flows.ts';

export interface StepCase {
  readonly Re: number;
  /** Reattachment over step height. */
  readonly length: number;
}

/**
 * Armaly, Durst, Pereira & Schonung 1983 (J. Fluid Mech. 127:473), measured, expansion 1.94, Re on twice
 * the inlet's height and its mean velocity. Digitised from the figure by the authors of a public code
 * (Lethe); read off to about 2 %.
 */
export const ARMALY: readonly StepCase[] = [
  { Re: 100.3, length: 3.035 },
  { Re: 151.5, length: 4 },
  { Re: 300.6, length: 6.612 },
  { Re: 389.7, length: 8.612 },
];

/**
 * Erturk 2008 (Comput. Fluids 37:633), computed in two dimensions, expansion 2, inlet channel of 20 step
 * heights; as quoted there.
 */
export const ERTURK: readonly StepCase[] = [
  { Re: 100, length: 2.922 },
  { Re: 200, length: 4.982 },
  { Re: 300, length: 6.761 },
  { Re: 400, length: 8.237 },
];

export interface StepOptions {
  /** Height of the channel behind the step over that of the inlet. */
  readonly expansion: number;
  /** Cells over the inlet's height. */
  readonly cells: number;
  /** Inlet channel and channel behind the step, in step heights. */
  readonly upstream: number;
  readonly downstream: number;
}

const SPEED = 0.06;

/** Reattachment over step height. */
export function reattachment(
  Re: number,
  { expansion, cells: h, upstream, downstream }: StepOptions,
): number {
  const S = (expansion - 1) * h;
  const edge = Math.round(upstream * S);
  const nx = Math.ceil(S + h) + 2;
  // x up from the lower wall at 0.5; z along the stream, the step ends at z = edge - 0.5.
  const flow = createFlow(
    {
      nx,
      ny: 1,
      nz: edge + Math.round(downstream * S),
      ends: 'open',
      box: () => ({ x0: 0, x1: nx - 1, y0: 0, y1: 0 }),
      inside: (x, _y, z) => x < 0.5 + S + h && x > (z < edge - 0.5 ? 0.5 + S : 0.5),
    },
    (SPEED * 2 * h) / Re,
  );
  const { grid, kernel } = flow;
  const march = marchOpen(flow, (x) => {
    const at = (x - 0.5 - S) / h;
    return at > 0 && at < 1 ? 6 * SPEED * at * (1 - at) : 0;
  });
  const u = new Float64Array(3);
  const speedAt = (x: number, z: number): number => {
    velocityOf(kernel.populations(), grid, grid.address(x, 0, z), u);
    return u[2];
  };
  const find = (): number => {
    // From the outlet back to the last place where the parabola through the lower wall and the two
    // cells beside it, half a cell and one and a half away, rises backwards.
    let after = 0;
    for (let z = grid.nz - 1; z > edge; z--) {
      const slope = 9 * speedAt(1, z) - speedAt(2, z);
      if (slope < 0) return (z - slope / (after - slope) - (edge - 0.5)) / S;
      after = slope;
    }
    return 0;
  };
  let held = 0;
  const flush = Math.round(grid.nz / (SPEED / expansion));
  for (let step = 1; step <= 14 * flush; step++) {
    march.next();
    if (step % Math.round(0.5 * flush) !== 0) continue;
    const length = find();
    if (step > 2 * flush && Math.abs(length - held) < 1e-3 * length) return length;
    held = length;
  }
  return held;
}
