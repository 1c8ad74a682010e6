import type { Channel, Design } from '../../../src/design/index.ts';

type Outline = Design['plate']['outline'];

/** A plate of 20 mm with straight bores of 5 mm, or what `changes` makes of them, at the given places. */
export function boredPlate(
  places: readonly (readonly [number, number])[],
  changes: Partial<Channel> = {},
  outline: Outline = { kind: 'round', diameter_mm: 60 },
): Design {
  return {
    plate: { outline, thickness_mm: 20, rim_mm: 3, holes: [], build: 'flat' },
    channels: [
      {
        points_mm: [
          [0, 0, 0],
          [0, 0, 20],
        ],
        inletDirection: [0, 0, 1],
        outletDirection: [0, 0, 1],
        section: { kind: 'round' },
        bore_mm: [5],
        roll_deg: 0,
        pockets: [],
        placements: places.map(([x_mm, y_mm]) => ({ x_mm, y_mm, turn_deg: 0, mirrored: false })),
        ...changes,
      },
    ],
  };
}
