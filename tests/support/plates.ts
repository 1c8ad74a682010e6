/** Builders for tests: small plates whose answers are easy to know. All invented. */
import { briefSchema } from '../../src/brief/schema.ts';
import type { Brief, BriefInput } from '../../src/brief/index.ts';
import type { Channel, Design, Placement, Plate, PlateSamples } from '../../src/design/index.ts';
import { sampleDesign } from '../../src/design/index.ts';

/** A round plate of 80 mm, 20 mm thick, built flat, without mounting holes. */
export function aPlate(changes: Partial<Plate> = {}): Plate {
  return {
    outline: { kind: 'round', diameter_mm: 80 },
    thickness_mm: 20,
    rim_mm: 3,
    holes: [],
    build: 'flat',
    ...changes,
  };
}

/** One standing at the plate's centre, as drawn. */
export function aPlacement(changes: Partial<Placement> = {}): Placement {
  return { x_mm: 0, y_mm: 0, turn_deg: 0, mirrored: false, ...changes };
}

/** A straight round hole of 5 mm through a plate of 20 mm, at the centre. */
export function aChannel(changes: Partial<Channel> = {}): Channel {
  return {
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
    placements: [aPlacement()],
    ...changes,
  };
}

/** A channel that swings to +x and back to -x on its way through 20 mm, ends normal to the faces. */
export function anSBend(changes: Partial<Channel> = {}): Channel {
  return aChannel({
    points_mm: [
      [0, 0, 0],
      [3, 0, 7],
      [-3, 0, 13],
      [0, 0, 20],
    ],
    ...changes,
  });
}

/** `aPlate` with the given channels; one straight hole when none are given. */
export function aDesign(
  changes: { plate?: Partial<Plate>; channels?: readonly Channel[] } = {},
): Design {
  return { plate: aPlate(changes.plate), channels: changes.channels ?? [aChannel()] };
}

/** A square grid of placements, count x count, about the centre. */
export function aGrid(count: number, pitch_mm: number): Placement[] {
  const placements: Placement[] = [];
  for (let row = 0; row < count; row++) {
    for (let column = 0; column < count; column++) {
      const x_mm = (column - (count - 1) / 2) * pitch_mm;
      placements.push(aPlacement({ x_mm, y_mm: (row - (count - 1) / 2) * pitch_mm }));
    }
  }
  return placements;
}

/** Samples of a design or of one channel in `aPlate`. */
export function samplesOf(subject: Design | Channel, stations = 32): PlateSamples {
  const design = 'plate' in subject ? subject : aDesign({ channels: [subject] });
  return sampleDesign(design, stations);
}

/** A brief with every default filled in: the plate above and 30 m3/h of room air. */
export function aBrief(changes: Partial<BriefInput> = {}): Brief {
  return briefSchema.parse({
    format: 'anfract-brief',
    version: 1,
    plate: { outline: { kind: 'round', diameter_mm: 80 }, thickness_mm: 20 },
    air: { supply: { kind: 'flow', flow_m3_per_h: 30 } },
    ...changes,
  });
}
