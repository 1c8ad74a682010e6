/** Plates for the tests of this room; all invented. */
import type { Build, Channel, Design, Hole, Pocket, Section } from '../../../src/design/index.ts';
import type { Outline } from '../../../src/brief/index.ts';

export const UP = [0, 0, 1] as const;

export function slanted(angle_deg: number): [number, number, number] {
  const a = (angle_deg * Math.PI) / 180;
  return [Math.sin(a), 0, Math.cos(a)];
}

/** A channel through a plate of thickness t at one place. */
export function aChannel(t: number, change: Partial<Channel> = {}): Channel {
  return {
    points_mm: [
      [0, 0, 0],
      [0, 0, t],
    ],
    inletDirection: UP,
    outletDirection: UP,
    section: { kind: 'round' },
    bore_mm: [4],
    roll_deg: 0,
    pockets: [],
    placements: [{ x_mm: 0, y_mm: 0, turn_deg: 0, mirrored: false }],
    ...change,
  };
}

export type Course = 'straight' | 'sBend' | 'tilted' | 'free';

export const COURSES: Record<Course, (t: number) => Partial<Channel>> = {
  straight: () => ({}),
  // Aside by a third of the thickness: bends of radius t / 2, wider than any section here.
  sBend: (t) => ({
    points_mm: [
      [-t / 6, 0, 0],
      [t / 6, 0.5, t],
    ],
  }),
  tilted: (t) => ({
    points_mm: [
      [-t / 2, 0, 0],
      [t / 2, 0, t],
    ],
    inletDirection: slanted(45),
    outletDirection: slanted(45),
  }),
  free: (t) => ({
    points_mm: [
      [-2, 1, 0],
      [1, -1, t / 2],
      [-1, 2, t],
    ],
    inletDirection: null,
    outletDirection: null,
  }),
};

export const SECTIONS: readonly Section[] = [
  { kind: 'round' },
  { kind: 'teardrop' },
  { kind: 'slot', aspect: 2.5 },
  { kind: 'polygon', sides: 4 },
  { kind: 'polygon', sides: 6 },
];

export const OUTLINES: readonly Outline[] = [
  { kind: 'round', diameter_mm: 80 },
  { kind: 'rectangle', width_mm: 80, height_mm: 70, cornerRadius_mm: 5 },
  { kind: 'rectangle', width_mm: 80, height_mm: 70, cornerRadius_mm: 0 },
  {
    // An L: the face is not convex.
    kind: 'polygon',
    points_mm: [
      [-40, -40],
      [40, -40],
      [40, 30],
      [14, 30],
      [14, 42],
      [-40, 42],
    ],
  },
];

export const POCKET: Pocket = {
  at: 0.5,
  length_mm: 6,
  depth_mm: 1.5,
  width_deg: 120,
  side_deg: 30,
};

export const HOLES: readonly Hole[] = [
  { x_mm: 30, y_mm: -20, diameter_mm: 4.3 },
  { x_mm: -25, y_mm: -25, diameter_mm: 4.3 },
];

export interface PlateChange {
  readonly outline?: Outline;
  readonly holes?: readonly Hole[];
  readonly thickness_mm?: number;
  readonly build?: Build;
}

export function aDesign(channels: readonly Channel[], change: PlateChange = {}): Design {
  return {
    plate: {
      outline: change.outline ?? { kind: 'round', diameter_mm: 80 },
      thickness_mm: change.thickness_mm ?? 15,
      rim_mm: 3,
      holes: change.holes ?? [],
      build: change.build ?? 'flat',
    },
    channels,
  };
}

/** Four standings of a channel: as drawn, turned, mirrored, both. */
export function stoodFour(channel: Channel, gap_mm: number): Channel {
  const place = (x: number, y: number, turn_deg: number, mirrored: boolean) => ({
    x_mm: x * gap_mm,
    y_mm: y * gap_mm,
    turn_deg,
    mirrored,
  });
  return {
    ...channel,
    placements: [
      place(-1, -1, 0, false),
      place(1, -1, 90, false),
      place(-1, 1, 0, true),
      place(1, 1, 33, true),
    ],
  };
}
