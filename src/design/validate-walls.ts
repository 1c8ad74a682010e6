/** Sanity of what stands on a channel's wall: stirring teeth and pockets' lips. */
import type { Channel } from './model.ts';
import { HIGHEST_TOOTH } from './teeth.ts';
import type { Report } from './validate-side.ts';

/** Bounds of the design file [mm]. */
const HEIGHT = { min: 0.05, max: 20 } as const;
const PITCH = { min: 0.2, max: 200 } as const;
/** Least distance from tooth to tooth over their height: one flank at 45 degrees and a steep one. */
const LEAST_PITCH = 1.25;

/** A lip is no higher than this share of the least bore. */
export const HIGHEST_LIP = 0.3;

/** Reports lips that are higher than their pocket is deep, or than the bore allows. */
export function lipFaults(channel: Channel, path: string, report: Report): void {
  const most = HIGHEST_LIP * Math.min(...channel.bore_mm);
  channel.pockets.forEach(({ lip_mm: lip, depth_mm: depth }, i) => {
    if (lip === undefined) return;
    if (lip >= 0 && lip <= depth && lip <= most) return;
    const allowed = `lie between 0 and ${Math.min(depth, most)}: the pocket's depth, ${HIGHEST_LIP} of the bore`;
    report(`${path}.pockets[${i}].lip_mm`, String(lip), allowed, 'Use a lower lip.');
  });
}

/** Reports teeth that are out of range, or stand where they cannot. */
export function toothFaults(channel: Channel, path: string, report: Report): void {
  const { teeth } = channel;
  if (teeth === undefined) return;
  const { height_mm: height, pitch_mm: pitch } = teeth;
  for (const [name, value, { min, max }] of [
    ['height_mm', height, HEIGHT],
    ['pitch_mm', pitch, PITCH],
  ] as const) {
    if (!(value >= min && value <= max)) {
      report(`${path}.${name}`, String(value), `lie between ${min} and ${max}`, '');
    }
  }
  const bore = Math.min(...channel.bore_mm);
  if (height > HIGHEST_TOOTH * bore) {
    const allowed = `be at most ${HIGHEST_TOOTH} of the least bore, ${bore} mm`;
    report(`${path}.height_mm`, String(height), allowed, 'Use lower teeth or a wider bore.');
  }
  if (pitch < LEAST_PITCH * height) {
    const allowed = `be at least ${LEAST_PITCH} times the height, ${height} mm`;
    report(`${path}.pitch_mm`, String(pitch), allowed, 'Set the teeth further apart.');
  }
  if (channel.section.kind === 'slot') {
    const remedy = 'Use a round, teardrop or polygonal section.';
    report(path, 'teeth in a slot', 'stand in a channel about as wide as high', remedy);
  }
  if (channel.pockets.length > 0) {
    report(path, 'teeth beside pockets', 'be the only thing on the wall', 'Drop one of the two.');
  }
  if ((channel.inlet ?? 'face') !== 'face' || (channel.outlet ?? 'face') !== 'face') {
    const remedy = 'Leave the teeth out.';
    report(path, 'teeth in a side channel', 'stand in a channel from face to face', remedy);
  }
}
