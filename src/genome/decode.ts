/** From traits to an explicit design. */
import type { Brief } from '../brief/index.ts';
import { normalTurn, outerSides, plateOf } from '../design/index.ts';
import type { Channel, Design, Placement, Pocket } from '../design/index.ts';
import { boreRange } from './genes.ts';
import { GRADES, gradeScale, gradingOf, pitches, sectionOf } from './pitch.ts';
import { ribbed } from './ribs.ts';
import type { Ribbed } from './ribs.ts';
import { standChannels } from './ports.ts';
import type { Stand } from './ports.ts';
import type { Traits } from './traits.ts';
import { lipOf, teethFor, turnedSide } from './wall-genes.ts';

export type Decoded =
  | { readonly ok: true; readonly design: Design }
  | { readonly ok: false; readonly reason: string };

/**
 * The design that traits describe. Channels that are alike but for mirror, turn and place become
 * one channel with several placements.
 */
export function designOf(brief: Brief, traits: Traits): Decoded {
  const plate = plateOf(brief, traits.thickness_mm, traits.build);
  const { maxChannels } = brief.routes;
  const stands = standChannels(traits, plate, brief.process.minimumWall_mm, maxChannels);
  if (stands === null) {
    const { along_mm } = pitches(traits);
    return {
      ok: false,
      reason: `A pitch of ${along_mm} mm is too fine for this plate; use wider bores or ligaments.`,
    };
  }
  if (stands.length === 0) {
    return {
      ok: false,
      reason:
        `No channel of bore ${traits.bore_mm} mm fits between rim and mounting holes; ` +
        'use smaller bores, shorter slots, less lean or a narrower rim.',
    };
  }
  const groups = new Map<number, Stand[]>();
  for (const stand of stands) {
    const key = (stand.slot * GRADES + stand.grade) * 4 + stand.step;
    const group = groups.get(key);
    if (group) group.push(stand);
    else groups.set(key, [stand]);
  }
  const slots: Ribbed[] = [];
  let count = 0;
  for (const group of groups.values()) {
    const each = ribbed(brief, plate, channelOf(brief, traits, group));
    count += each.channel.placements.length;
    slots.push(each);
  }
  const channels =
    count <= maxChannels
      ? slots.map(({ channel }) => channel)
      : slots.flatMap((each) => fewer(each, maxChannels / count));
  if (channels.length > 0) return { ok: true, design: { plate, channels } };
  return {
    ok: false,
    reason: `Ribs break one slot into more than routes.maxChannels, ${maxChannels}; allow more or use shorter slots.`,
  };
}

/**
 * Leaves out the outermost slots, ribs and all, down to a share of them: a rib makes two channels of
 * one, and no more than `maxChannels` may stand.
 */
function fewer({ channel, parts }: Ribbed, share: number): Channel[] {
  const slots = Math.floor((share * channel.placements.length) / parts + 1e-9);
  if (slots === 0) return [];
  return [{ ...channel, placements: channel.placements.slice(0, slots * parts) }];
}

function channelOf(brief: Brief, traits: Traits, group: readonly Stand[]): Channel {
  const [stand] = group;
  const end = endDirection(traits);
  const channel: Channel = {
    points_mm: stand.route,
    inletDirection: end,
    outletDirection: end,
    section: sectionOf(traits),
    bore_mm: boresOf(brief, traits, stand.grade),
    roll_deg: traits.section === 'slot' || traits.section === 'polygon' ? traits.roll_deg : 0,
    pockets: [],
    placements: group.map((each): Placement => ({
      x_mm: each.x_mm,
      y_mm: each.y_mm,
      turn_deg: normalTurn(each.turn_deg),
      mirrored: each.mirrored,
    })),
  };
  if (traits.pockets > 0) return { ...channel, pockets: pocketsOf(traits, channel) };
  const teeth = traits.toothHeight_mm > 0 ? teethFor(brief, traits, channel) : undefined;
  return teeth === undefined ? channel : { ...channel, teeth };
}

function endDirection(traits: Traits): [number, number, number] {
  const { leanX_mm: x, leanY_mm: y, thickness_mm: z } = traits;
  if (!traits.endsAlongLean || (x === 0 && y === 0)) return [0, 0, 1];
  const length = Math.sqrt(x * x + y * y + z * z);
  return [x / length, y / length, z / length];
}

/** Bores at inlet, middle and outlet, kept within the brief's span. */
function boresOf(brief: Brief, traits: Traits, grade: number): number[] {
  const [least, largest] = boreRange(brief);
  const scale = traits.bore_mm * (gradingOf(traits) === 0 ? 1 : gradeScale(traits, grade));
  const within = (share: number): number => Math.min(largest, Math.max(least, share * scale));
  const bores = [within(traits.inletBore), within(traits.middleBore), within(traits.outletBore)];
  return bores[0] === bores[1] && bores[1] === bores[2] ? [bores[0]] : bores;
}

/**
 * Pockets at the bends, first to last, on their outer side; spread evenly over a channel that has
 * fewer bends than pockets. The mouth always lies within the channel.
 */
function pocketsOf(traits: Traits, channel: Channel): Pocket[] {
  const points = channel.points_mm;
  const along = [0];
  for (let i = 1; i < points.length; i++) {
    const dx = points[i][0] - points[i - 1][0];
    const dy = points[i][1] - points[i - 1][1];
    const dz = points[i][2] - points[i - 1][2];
    along.push(along[i - 1] + Math.sqrt(dx * dx + dy * dy + dz * dz));
  }
  const length = along[along.length - 1];
  const bends = points.length - 2;
  const count = traits.pockets;
  const at: number[] = [];
  for (let p = 0; p < count; p++) {
    const apex = bends >= count ? along[p + 1] / length : (p + 1) / (count + 1);
    at.push(apex);
  }
  const sides = outerSides(channel, at);
  const room = Math.min(0.5, (0.5 * traits.pocketLength_mm) / length);
  return at.map((apex, p) => ({
    at: Math.min(1 - room, Math.max(room, apex + traits.pocketShift)),
    length_mm: traits.pocketLength_mm,
    depth_mm: traits.pocketDepth_mm,
    width_deg: traits.pocketWidth_deg,
    side_deg: turnedSide(sides[p], traits.pocketTurn_deg),
    ...lipOf(traits, channel),
  }));
}
