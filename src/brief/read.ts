/** Reads and checks a brief: the door through which every brief comes in. */
import { AIR_CHECKS } from './checks-air.ts';
import { CORRECTION_CHECKS } from './checks-correction.ts';
import { DUST_CHECKS } from './checks-dust.ts';
import { GOAL_CHECKS, measureNames } from './checks-goals.ts';
import { HEAT_CHECKS } from './checks-heat.ts';
import { PLATE_CHECKS } from './checks-plate.ts';
import { ROUTE_CHECKS } from './checks-routes.ts';
import { STRENGTH_CHECKS } from './checks-strength.ts';
import { SIDE_CHECKS } from './checks-side.ts';
import { SOUND_CHECKS } from './checks-sound.ts';
import { withoutComments } from './comments.ts';
import type { Fault, Place } from './faults.ts';
import { headFault, readSchema } from './read-schema.ts';
import type { SchemaFault } from './read-schema.ts';
import { isRecord } from './schema-node.ts';
import { BRIEF_FORMAT, BRIEF_VERSION, briefSchema } from './schema.ts';
import type { Brief, BriefInput } from './schema.ts';

export type BriefRead =
  | { readonly ok: true; readonly brief: Brief }
  | { readonly ok: false; readonly faults: readonly Fault[] };

export interface ReadBriefOptions {
  /** Ids of all measures; when given, objectives and limits must name one of them. */
  readonly measures?: readonly string[];
}

/** Sound values for the parts that have no default, to stand in for faulty ones. */
const STAND_IN: Pick<BriefInput, 'format' | 'version' | 'plate' | 'air' | 'heat'> = {
  format: BRIEF_FORMAT,
  version: BRIEF_VERSION,
  plate: { outline: { kind: 'round', diameter_mm: 80 }, thickness_mm: 10 },
  air: { supply: { kind: 'flow', flow_m3_per_h: 20 } },
  heat: { source: { kind: 'load', heat_W: 1 }, material: 'pla' },
};

/** Whether a fault at `place` spoils the part named `reads`. */
function spoils(place: Place, reads: string): boolean {
  return reads.split('.').every((step, i) => place.length <= i || place[i] === step);
}

/**
 * The brief with every faulty part (two keys deep) replaced by its default or a stand-in, so that
 * the checks of the sound parts can still run.
 */
function mended(value: unknown, faults: readonly SchemaFault[]): Brief | null {
  if (!isRecord(value)) return null;
  const places = faults.flatMap((entry) => entry.places);
  const sections = Object.keys(briefSchema.shape).flatMap((section) => {
    const base: unknown = Object.entries(STAND_IN).find(([key]) => key === section)?.[1];
    const given = value[section];
    if (!isRecord(given)) return base === undefined ? [] : [[section, base] as const];
    const sound = Object.entries(given).filter(
      ([key]) => !places.some((place) => spoils(place, `${section}.${key}`)),
    );
    const parts = { ...(isRecord(base) ? base : {}), ...Object.fromEntries(sound) };
    return [[section, parts] as const];
  });
  const parsed = briefSchema.safeParse(Object.fromEntries(sections));
  return parsed.success ? parsed.data : null;
}

function freeze<T>(value: T): T {
  if (typeof value === 'object' && value !== null) {
    for (const entry of Object.values(value)) freeze(entry);
    Object.freeze(value);
  }
  return value;
}

/**
 * Checks a brief, fills in its defaults and freezes it.
 *
 * Keys that begin with "//" are comments. All faults are reported at once: those of single values,
 * unknown keys with the nearest valid name, and contradictions between sound values.
 *
 * @param value parsed JSON, or a value made by code.
 * @param options see `ReadBriefOptions`.
 * @example readBrief({ format: 'anfract-brief', version: 1 }).ok // false
 */
export function readBrief(value: unknown, options: ReadBriefOptions = {}): BriefRead {
  const head = headFault(value, BRIEF_FORMAT, BRIEF_VERSION);
  if (head !== null) return { ok: false, faults: [head] };
  const read = readSchema(briefSchema, value);
  const spoiled = read.ok ? [] : read.faults;
  // A value nested too deeply to be read cannot be mended either.
  const unreadable = spoiled.some((entry) => entry.places.some((place) => place.length === 0));
  const brief = read.ok ? read.value : unreadable ? null : mended(withoutComments(value), spoiled);
  const faults = spoiled.map((entry) => entry.fault);
  if (brief !== null) {
    const places = spoiled.flatMap((entry) => entry.places);
    const checks = [
      ...PLATE_CHECKS,
      ...AIR_CHECKS,
      ...GOAL_CHECKS,
      ...ROUTE_CHECKS,
      ...STRENGTH_CHECKS,
      ...HEAT_CHECKS,
      ...SIDE_CHECKS,
      ...SOUND_CHECKS,
      ...CORRECTION_CHECKS,
      ...DUST_CHECKS,
      ...(options.measures === undefined ? [] : [measureNames(options.measures)]),
    ];
    for (const check of checks) {
      const sound = !check.reads.some((part) => places.some((place) => spoils(place, part)));
      if (sound) faults.push(...check.run(brief));
    }
  }
  if (faults.length > 0 || !read.ok) return { ok: false, faults };
  return { ok: true, brief: freeze(read.value) };
}
