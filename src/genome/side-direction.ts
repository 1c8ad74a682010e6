/** Air in at the rim: the same plate turned over. */
import type { Brief } from '../brief/index.ts';
import type { Channel, Design } from '../design/index.ts';
import { sideRouteOf } from './side-genes.ts';

type Point = readonly [number, number, number];

function flip(direction: Point | null): Point | null {
  return direction && [-direction[0], -direction[1], direction[2]];
}

/**
 * The same plate with the air turned round, for a brief that lets it in at the rim: drawn from the
 * far face, heights from the outlet face.
 */
export function turnedRound(brief: Brief, design: Design): Design {
  if (sideRouteOf(brief).direction === 'outward') return design;
  const { thickness_mm } = design.plate;
  const channels = design.channels.map((channel): Channel => {
    const { inlet, outlet, ...rest } = channel;
    return {
      ...rest,
      points_mm: channel.points_mm.toReversed().map(([x, y, z]): Point => [x, y, thickness_mm - z]),
      inletDirection: flip(channel.outletDirection),
      outletDirection: flip(channel.inletDirection),
      bore_mm: channel.bore_mm.toReversed(),
      // Where a channel starts along x its first axis lies across, where it starts upright along x.
      roll_deg: channel.roll_deg - 90,
      inlet: outlet ?? 'face',
      outlet: inlet ?? 'face',
    };
  });
  return { ...design, channels };
}
