/** Plates with exits in the rim, for tests. All invented. */
import type { Channel, Design, Plate, Plenum } from '../../src/design/index.ts';
import { aPlacement, aPlate } from './plates.ts';

/**
 * A channel that rises from the inlet face at radius `from_mm` on +x, turns with `bend_mm` at height
 * `height_mm` and runs out through the rim of a round plate of 80 mm.
 */
export function aSideBend(
  changes: Partial<Channel> = {},
  { from_mm = 18, height_mm = 10, bend_mm = 6 } = {},
): Channel {
  // Points close enough that the spline follows straights and arc within some hundredths.
  const points: [number, number, number][] = [[from_mm, 0, 0]];
  const rise = height_mm - bend_mm;
  for (const share of [0.5, 0.8]) if (rise > 1) points.push([from_mm, 0, share * rise]);
  for (let k = rise > 0.3 ? 0 : 1; k <= 6; k++) {
    const angle = (Math.PI * k) / 12;
    points.push([from_mm + bend_mm * (1 - Math.cos(angle)), 0, rise + bend_mm * Math.sin(angle)]);
  }
  const run = 40 - from_mm - bend_mm;
  for (const share of [0.2, 0.5]) {
    if (run > 1) points.push([from_mm + bend_mm + share * run, 0, height_mm]);
  }
  points.push([40, 0, height_mm]);
  return {
    points_mm: points,
    inletDirection: [0, 0, 1],
    outletDirection: [1, 0, 0],
    section: { kind: 'teardrop' },
    bore_mm: [5],
    roll_deg: 0,
    pockets: [],
    placements: [aPlacement()],
    outlet: 'rim',
    ...changes,
  };
}

/** As many side bends as asked for, evenly turned about the middle of a round plate of 80 x 18 mm. */
export function aSidePlate(
  count = 8,
  channel: Partial<Channel> = {},
  plate: Partial<Plate> = {},
  course = {},
): Design {
  const placements = Array.from({ length: count }, (_, i) =>
    aPlacement({ turn_deg: (360 * i) / count }),
  );
  return {
    plate: aPlate({ thickness_mm: 18, ...plate }),
    channels: [aSideBend({ placements, ...channel }, course)],
  };
}

/** A ring 12 mm wide whose gable roof starts at 6 mm. */
export const A_RING: Plenum = {
  innerRadius_mm: 14,
  outerRadius_mm: 26,
  floor_mm: 2,
  eaves_mm: 7,
  top_mm: 12,
};

/** Inlets from the face into `A_RING`, and fewer exits from it to the rim. */
export function aManifold(inlets = 12, exits = 6, plate: Partial<Plate> = {}): Design {
  const turns = (count: number) =>
    Array.from({ length: count }, (_, i) => aPlacement({ turn_deg: (360 * i) / count }));
  const straight = {
    section: { kind: 'teardrop' },
    roll_deg: 0,
    pockets: [],
  } as const;
  return {
    plate: aPlate({ thickness_mm: 15, ...plate }),
    channels: [
      {
        ...straight,
        points_mm: [
          [20, 0, 0],
          [20, 0, 2],
        ],
        inletDirection: [0, 0, 1],
        outletDirection: [0, 0, 1],
        bore_mm: [6],
        placements: turns(inlets),
        outlet: 'plenum',
      },
      {
        ...straight,
        points_mm: [
          [26, 0, 4.5],
          [40, 0, 4.5],
        ],
        inletDirection: [1, 0, 0],
        outletDirection: [1, 0, 0],
        bore_mm: [4],
        placements: turns(exits),
        inlet: 'plenum',
        outlet: 'rim',
      },
    ],
    plenum: A_RING,
  };
}
