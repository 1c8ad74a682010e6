/** Where in a channel a place lies: along its centreline, around it, and in which pocket. */
import { pocketBump, pocketWindow } from '../design/index.ts';
import type { PlateSamples } from '../design/index.ts';
import { atan2 } from '../numeric/index.ts';

/** A place as the channel sees it. */
export interface ChannelPlace {
  /** Along the centreline from the inlet [mm]. */
  arc_mm: number;
  /** Around it, from the section's first axis towards the second [rad]. */
  theta_rad: number;
  /** Unit vector of the channel's axis there. */
  readonly tangent: Float64Array;
  /** Pocket whose mouth lies over the place, counted as in the design; -1 for bare wall. */
  pocket: number;
}

export interface ChannelMap {
  readonly length_mm: number;
  readonly pockets: number;
  locate(x_mm: number, y_mm: number, z_mm: number, out: ChannelPlace): void;
}

/** Depth from which on a place at the wall is a pocket's [mm]: the rim of its window is bare wall. */
const LEAST_DEPTH_MM = 0.05;

export function createChannelPlace(): ChannelPlace {
  return { arc_mm: 0, theta_rad: 0, tangent: new Float64Array(3), pocket: -1 };
}

/** The map of one shape. Of several section planes through a place the one with the nearest axis counts. */
export function createChannelMap(samples: PlateSamples, shape: number): ChannelMap {
  const S = samples.stations;
  const first = shape * S;
  const { point_mm: p, tangent: t, first: e, second: g } = samples;
  const pockets = samples.pockets[shape];
  const length_mm = samples.length_mm[shape];
  const ahead = (row: number, x: number, y: number, z: number): number => {
    const i = 3 * row;
    return (x - p[i]) * t[i] + (y - p[i + 1]) * t[i + 1] + (z - p[i + 2]) * t[i + 2];
  };
  return {
    length_mm,
    pockets: pockets.length,
    locate(x, y, z, out) {
      let best = Infinity;
      let station = 0;
      let share = 0;
      const consider = (k: number, s: number): void => {
        const i = 3 * (first + k);
        const rx = x - p[i] - s * (p[i + 3] - p[i]);
        const ry = y - p[i + 1] - s * (p[i + 4] - p[i + 1]);
        const rz = z - p[i + 2] - s * (p[i + 5] - p[i + 2]);
        const square = rx * rx + ry * ry + rz * rz;
        if (square >= best) return;
        best = square;
        station = k;
        share = s;
      };
      let now = ahead(first, x, y, z);
      if (now < 0) consider(0, 0);
      for (let k = 0; k < S - 1; k++) {
        const next = ahead(first + k + 1, x, y, z);
        if (now >= 0 && next < 0) consider(k, now / (now - next));
        now = next;
      }
      if (now >= 0 || best === Infinity) consider(S - 2, 1);
      const i = 3 * (first + station);
      const keep = 1 - share;
      let a = 0;
      let b = 0;
      for (let d = 0; d < 3; d++) {
        const at = d === 0 ? x : d === 1 ? y : z;
        const r = at - keep * p[i + d] - share * p[i + 3 + d];
        a += r * (keep * e[i + d] + share * e[i + 3 + d]);
        b += r * (keep * g[i + d] + share * g[i + 3 + d]);
        out.tangent[d] = keep * t[i + d] + share * t[i + 3 + d];
      }
      out.arc_mm = (length_mm * (station + share)) / (S - 1);
      out.theta_rad = atan2(b, a);
      out.pocket = -1;
      let deepest = LEAST_DEPTH_MM;
      for (let n = 0; n < pockets.length; n++) {
        const bump = pocketBump(pockets[n], out.arc_mm, length_mm);
        if (bump <= deepest) continue;
        const depth = bump * pocketWindow(pockets[n], out.theta_rad);
        if (depth <= deepest) continue;
        deepest = depth;
        out.pocket = n;
      }
    },
  };
}
