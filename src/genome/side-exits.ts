/** Where the exits stand around the rim, and the inlets that belong to them. */
import type { SideRoute } from '../brief/index.ts';

/** Angles of exits and of their inlets about the plate centre, exits rising [n] [deg]. */
interface Spread {
  readonly exit_deg: readonly number[];
  readonly inlet_deg: readonly number[];
}

const TURN_DEG = 360;

/**
 * Spreads exits evenly over the open sectors, and inlets before them or all around.
 *
 * @param shift moves the exits along the rim, in steps; around a whole turn they go on, within a
 *   sector they keep to it.
 * @param gather 0: inlets at the angle of their exits; 1: inlets evenly all around, in the same order.
 * @param own further shift of each exit, in steps.
 * @example spreadExits([{ from_deg: 0, to_deg: 360 }], 4, 0, 0).exit_deg[1] // 135
 * @example spreadExits([{ from_deg: -30, to_deg: 30 }], 2, 0, 1).inlet_deg[0] // -90
 */
export function spreadExits(
  sectors: SideRoute['sectors'],
  count: number,
  shift: number,
  gather: number,
  own: (exit: number) => number = () => 0,
): Spread {
  const open = sectors.toSorted((a, b) => a.from_deg - b.from_deg);
  const total = open.reduce((sum, { from_deg, to_deg }) => sum + to_deg - from_deg, 0);
  const isRing = open.length === 1 && total > TURN_DEG - 1e-9;
  const exit_deg: number[] = [];
  for (let j = 0; j < count; j++) {
    const place = j + 0.5 + shift + own(j);
    const share = (isRing ? place : Math.min(count - 0.25, Math.max(0.25, place))) / count;
    exit_deg.push(angleAt(open, share * total));
  }
  const middle = exit_deg[(count - 1) >> 1];
  const centre = isRing ? middle : 0.5 * (exit_deg[0] + exit_deg[count - 1]);
  const inlet_deg = exit_deg.map((exit, j) => {
    const even = centre + TURN_DEG * ((j + 0.5) / count - 0.5);
    return isRing ? exit : exit + gather * (even - exit);
  });
  return { exit_deg, inlet_deg };
}

/** Angle after so many open degrees from the first sector on. */
function angleAt(open: SideRoute['sectors'], along_deg: number): number {
  let left = along_deg;
  for (const { from_deg, to_deg } of open) {
    if (left <= to_deg - from_deg || from_deg === open[open.length - 1].from_deg) {
      return from_deg + left;
    }
    left -= to_deg - from_deg;
  }
  return left;
}
