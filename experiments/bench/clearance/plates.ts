/** Plates for the clearance bench and tests: single channels, pairs, tangles, lattices. */
import { createStream } from '../../../src/numeric/index.ts';
import type { RandomStream } from '../../../src/numeric/index.ts';
import type { Channel, Design, Placement, Plate, Section } from '../../../src/design/index.ts';

export type Point = readonly [number, number, number];

export const ROUND: Section = { kind: 'round' };

/** A placement at (x, y), neither turned nor mirrored unless told. */
export function at(x_mm: number, y_mm: number, turn_deg = 0, mirrored = false): Placement {
  return { x_mm, y_mm, turn_deg, mirrored };
}

export function aWidePlate(change: Partial<Plate> = {}): Plate {
  return {
    outline: { kind: 'rectangle', width_mm: 200, height_mm: 200, cornerRadius_mm: 0 },
    thickness_mm: 20,
    rim_mm: 0,
    holes: [],
    build: 'flat',
    ...change,
  };
}

/** A channel through points; its ends run along the chord for two points, else square to the faces. */
export function aChannel(points_mm: readonly Point[], change: Partial<Channel> = {}): Channel {
  const straight = points_mm.length === 2;
  return {
    points_mm,
    inletDirection: straight ? null : [0, 0, 1],
    outletDirection: straight ? null : [0, 0, 1],
    section: ROUND,
    bore_mm: [5],
    roll_deg: 0,
    pockets: [],
    placements: [at(0, 0)],
    ...change,
  };
}

export function aDesign(channels: readonly Channel[], plate: Partial<Plate> = {}): Design {
  return { plate: aWidePlate(plate), channels };
}

export function uniform(random: RandomStream, low: number, high: number): number {
  return low + (high - low) * random.next();
}

const SECTIONS: readonly Section[] = [
  ROUND,
  { kind: 'teardrop' },
  { kind: 'slot', aspect: 1.8 },
  { kind: 'polygon', sides: 4 },
];

/** Channels all different on a square lattice, each wandering sideways by up to `wander_mm`. */
export function aTangle(
  seed: string,
  count: number,
  wander_mm: number,
  pitch_mm = 10,
  mixed = false,
): Design {
  const random = createStream(seed);
  const side = Math.ceil(Math.sqrt(count));
  const channels: Channel[] = [];
  for (let i = 0; i < count; i++) {
    const x = pitch_mm * ((i % side) - 0.5 * (side - 1));
    const y = pitch_mm * (Math.trunc(i / side) - 0.5 * (side - 1));
    const off = (): number => uniform(random, -wander_mm, wander_mm);
    const points: Point[] = [
      [0, 0, 0],
      [off(), off(), 5],
      [off(), off(), 10],
      [off(), off(), 15],
      [0.5 * off(), 0.5 * off(), 20],
    ];
    channels.push(
      aChannel(points, {
        section: mixed ? SECTIONS[i % SECTIONS.length] : ROUND,
        bore_mm: [uniform(random, 3, 4), uniform(random, 2.5, 3.5), uniform(random, 3, 4)],
        roll_deg: mixed ? uniform(random, 0, 180) : 0,
        placements: [at(x, y)],
      }),
    );
  }
  return aDesign(channels);
}

/** One S-bend on a square lattice. */
export function aLattice(count: number, pitch_mm = 8): Design {
  const side = Math.ceil(Math.sqrt(count));
  const placements: Placement[] = [];
  for (let i = 0; i < count; i++) {
    placements.push(
      at(
        pitch_mm * ((i % side) - 0.5 * (side - 1)),
        pitch_mm * (Math.trunc(i / side) - 0.5 * (side - 1)),
      ),
    );
  }
  const points: Point[] = [
    [0, 0, 0],
    [3, 1, 7],
    [5, 2, 13],
    [8, 2, 20],
  ];
  return aDesign([aChannel(points, { bore_mm: [4], placements })]);
}
