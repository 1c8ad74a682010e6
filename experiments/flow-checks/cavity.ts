/** Lid-driven square cavity: velocity along its centrelines. */
import { createFlow, moveWalls, velocityOf } from './flows.ts';
import type { LatticeFlow } from './flows.ts';

export interface CavityTable {
  readonly y: readonly number[];
  readonly u: readonly number[];
  readonly x: readonly number[];
  readonly v: readonly number[];
}

/**
 * Ghia, Ghia & Shin 1982 (J. Comput. Phys. 48:387), tables I and II: u along the vertical centreline, v
 * along the horizontal one, both over the lid's speed, walls left out. Copied from public codes that
 * quote the tables alike. Left out: v at x = 0.9063 for Re 400 (-0.23827), which breaks the curve and is
 * held to be a misprint.
 */
const HEIGHTS = [
  0.9766, 0.9688, 0.9609, 0.9531, 0.8516, 0.7344, 0.6172, 0.5, 0.4531, 0.2813, 0.1719, 0.1016,
  0.0703, 0.0625, 0.0547,
];
const WIDTHS = [
  0.9688, 0.9609, 0.9531, 0.9453, 0.9063, 0.8594, 0.8047, 0.5, 0.2344, 0.2266, 0.1563, 0.0938,
  0.0781, 0.0703, 0.0625,
];
export const GHIA: Readonly<Record<number, CavityTable>> = {
  100: {
    y: HEIGHTS,
    u: [
      0.84123, 0.78871, 0.73722, 0.68717, 0.23151, 0.00332, -0.13641, -0.20581, -0.2109, -0.15662,
      -0.1015, -0.06434, -0.04775, -0.04192, -0.03717,
    ],
    x: WIDTHS,
    v: [
      -0.05906, -0.07391, -0.08864, -0.10313, -0.16914, -0.22445, -0.24533, 0.05454, 0.17527,
      0.17507, 0.16077, 0.12317, 0.1089, 0.10091, 0.09233,
    ],
  },
  400: {
    y: HEIGHTS,
    u: [
      0.75837, 0.68439, 0.61756, 0.55892, 0.29093, 0.16256, 0.02135, -0.11477, -0.17119, -0.32726,
      -0.24299, -0.14612, -0.10338, -0.09266, -0.08186,
    ],
    x: WIDTHS.filter((x) => x !== 0.9063),
    v: [
      -0.12146, -0.15663, -0.19254, -0.22847, -0.44993, -0.38598, 0.05186, 0.30174, 0.30203,
      0.28124, 0.22965, 0.2092, 0.19713, 0.1836,
    ],
  },
  1000: {
    y: HEIGHTS,
    u: [
      0.65928, 0.57492, 0.51117, 0.46604, 0.33304, 0.18719, 0.05702, -0.0608, -0.10648, -0.27805,
      -0.38289, -0.2973, -0.2222, -0.20196, -0.18109,
    ],
    x: WIDTHS,
    v: [
      -0.21388, -0.27669, -0.33714, -0.39188, -0.5155, -0.42665, -0.31966, 0.02526, 0.32235,
      0.33075, 0.37095, 0.32627, 0.30353, 0.29012, 0.27485,
    ],
  },
};

export interface CavityErrors {
  /** Greatest and root mean square departure from the table, over the lid's speed. */
  readonly greatest: number;
  readonly rms: number;
  readonly steps: number;
}

const LID = 0.1;

/** @param n cells along a side, even. */
export function cavity(Re: number, n: number): CavityErrors {
  // x up, z along the lid; y is one cell between mirrors.
  const flow = createFlow(
    {
      nx: n + 2,
      ny: 1,
      nz: n + 2,
      ends: 'periodic',
      box: () => ({ x0: 0, x1: n + 1, y0: 0, y1: 0 }),
      inside: (x, _y, z) => x > 0.5 && x < n + 0.5 && z > 0.5 && z < n + 0.5,
    },
    (LID * n) / Re,
  );
  moveWalls(flow, (x) => (x > n ? [0, 0, LID] : null));
  const steps = settle(flow, n, Math.round((200 * n) / LID));
  const middle = (at: (i: number) => readonly [number, number, number]): Float64Array => {
    const u = new Float64Array(3);
    const f = flow.kernel.populations();
    velocityOf(f, flow.grid, flow.grid.address(...at(n / 2)), u);
    const v = u.slice();
    velocityOf(f, flow.grid, flow.grid.address(...at(n / 2 + 1)), u);
    return u.map((value, d) => (0.5 * (value + v[d])) / LID);
  };
  const along = Array.from({ length: n }, (_, i) => middle((z) => [i + 1, 0, z])[2]);
  const across = Array.from({ length: n }, (_, i) => middle((x) => [x, 0, i + 1])[0]);
  const { x, y, u, v } = GHIA[Re];
  const errors = [
    ...y.map((at, i) => profileAt([0, ...along, 1], at, n) - u[i]),
    ...x.map((at, i) => profileAt([0, ...across, 0], at, n) - v[i]),
  ];
  const squares = errors.reduce((sum, error) => sum + error * error, 0);
  const greatest = Math.max(...errors.map(Math.abs));
  return { greatest, rms: Math.sqrt(squares / errors.length), steps };
}

/** Value of a profile of wall, n cells, wall at a share of the side: cubic through four neighbours. */
function profileAt(values: readonly number[], share: number, n: number): number {
  const places = values.map((_, i) => (i === 0 ? 0 : i > n ? 1 : (i - 0.5) / n));
  const after = places.findIndex((place) => place >= share);
  const first = Math.min(n - 2, Math.max(0, after - 2));
  let sum = 0;
  for (let i = first; i < first + 4; i++) {
    let weight = values[i];
    for (let j = first; j < first + 4; j++) {
      if (j !== i) weight *= (share - places[j]) / (places[i] - places[j]);
    }
    sum += weight;
  }
  return sum;
}

/** Marches until the velocity in the middle stands still. */
function settle({ grid, kernel }: LatticeFlow, n: number, most: number): number {
  const u = new Float64Array(3);
  const cell = grid.address(n / 4, 0, n / 2);
  let held = Infinity;
  for (let step = 1; step <= most; step++) {
    kernel.step();
    if (step % 1000 !== 0) continue;
    velocityOf(kernel.populations(), grid, cell, u);
    if (Math.abs(u[2] - held) < 1e-5 * LID) return step;
    held = u[2];
  }
  return most;
}
