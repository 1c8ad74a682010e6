/** The design file: a plate given explicitly, by hand or exported from a front. */
import {
  InputError,
  fault,
  headFault,
  isRecord,
  mountingHoles,
  readSchema,
} from '../brief/index.ts';
import type { Brief, Fault } from '../brief/index.ts';
import { designFaults } from '../design/index.ts';
import type { Build, Channel, Design } from '../design/index.ts';
import { DESIGN_FORMAT, DESIGN_VERSION, designFileSchema } from './design-schema.ts';
import type { ChannelInFile } from './design-schema.ts';
import { innerBrief } from './inner-brief.ts';
import { writeJson } from './json.ts';
import { readJson } from './json-text.ts';

export interface DesignFile {
  readonly name: string;
  readonly brief: Brief;
  readonly design: Design;
  /** Genes the design was decoded from, by name; null for one made by hand. */
  readonly genes: Readonly<Record<string, number>> | null;
}

export type DesignRead =
  | { readonly ok: true; readonly file: DesignFile }
  | { readonly ok: false; readonly faults: readonly Fault[] };

type Vector = readonly [number, number, number];

/** A direction of unit length; one that is so already keeps its bits. Null when it has no length. */
function unit([x, y, z]: Vector): Vector | null {
  const length = Math.sqrt(x * x + y * y + z * z);
  if (!(length > 1e-6) || !Number.isFinite(length)) return null;
  return Math.abs(length - 1) <= 1e-9 ? [x, y, z] : [x / length, y / length, z / length];
}

function channelOf(given: ChannelInFile, path: string, faults: Fault[]): Channel {
  const end = (name: 'inletDirection' | 'outletDirection'): Vector | null => {
    const written = given[name];
    if (written === null) return null;
    const direction = unit(written);
    if (direction !== null) return direction;
    const allowed = 'have a length greater than 0.000001';
    const remedy = 'Write [0, 0, 1] for straight through, or null for a free end.';
    faults.push(fault(`${path}.${name}`, `[${written.join(', ')}]`, allowed, remedy));
    return [0, 0, 1];
  };
  return {
    points_mm: given.points_mm,
    inletDirection: end('inletDirection'),
    outletDirection: end('outletDirection'),
    section: given.section,
    bore_mm: typeof given.bore_mm === 'number' ? [given.bore_mm] : given.bore_mm,
    roll_deg: given.roll_deg,
    pockets: given.pockets,
    placements: given.at,
    ...(given.teeth === undefined ? {} : { teeth: given.teeth }),
    ...(given.inlet === undefined ? {} : { inlet: given.inlet }),
    ...(given.outlet === undefined ? {} : { outlet: given.outlet }),
  };
}

/** The brief inside, with what the design states itself filled in where the brief leaves it out. */
function briefInside(
  given: Readonly<Record<string, unknown>>,
  thickness: number | undefined,
): unknown {
  const { plate, ...rest } = given;
  const filled =
    isRecord(plate) && thickness !== undefined && !('thickness_mm' in plate)
      ? { ...plate, thickness_mm: thickness }
      : plate;
  return { format: 'anfract-brief', version: 1, ...rest, plate: filled };
}

function thicknessOf(brief: Brief, given: number | undefined, faults: Fault[]): number {
  const range = brief.plate.thickness_mm;
  const [min, max] = typeof range === 'number' ? [range, range] : [range.min_mm, range.max_mm];
  if (given === undefined) {
    if (min < max) {
      const remedy = 'The brief leaves it open, so the design must say it.';
      faults.push(fault('thickness_mm', 'missing', `lie between ${min} and ${max}`, remedy));
    }
    return max;
  }
  if (given < min || given > max) {
    const allowed = min === max ? `be ${min}` : `lie between ${min} and ${max}`;
    const remedy = 'That is what brief.plate.thickness_mm asks for: change one of the two.';
    faults.push(fault('thickness_mm', String(given), allowed, remedy));
  }
  return given;
}

function buildOf(brief: Brief, given: Build | undefined, faults: Fault[]): Build {
  const asked = brief.plate.build;
  if (given !== undefined && asked !== 'any' && given !== asked) {
    const remedy = 'That is what brief.plate.build asks for: change one of the two.';
    faults.push(fault('build', `'${given}'`, `be '${asked}'`, remedy));
  }
  return given ?? (asked === 'any' ? 'flat' : asked);
}

/** Faults of the geometry, in the words of the file. */
function geometryFaults(design: Design): Fault[] {
  return designFaults(design).map(({ path, message }) => ({
    path: path.replaceAll('.placements[', '.at['),
    found: 'a shape that does not fit the plate',
    allowed: 'run from the inlet face to the outlet face within the bounds of the format',
    remedy: 'Mend the numbers named.',
    message: message.replaceAll('.placements[', '.at['),
  }));
}

/** Faults of the brief in a design file that has others too, so that all are told at once. */
function faultsInside(value: unknown): readonly Fault[] {
  if (!isRecord(value) || !isRecord(value['brief'])) return [];
  const thickness = value['thickness_mm'];
  const known = typeof thickness === 'number' ? thickness : undefined;
  const brief = innerBrief(briefInside(value['brief'], known));
  return 'format' in brief ? [] : brief;
}

/**
 * Checks a design file and turns it into a design. Left out: directions are [0, 0, 1], the section
 * is round, `at` is one placement at 0, 0, roll is 0, pockets are none.
 *
 * @param value parsed JSON.
 * @returns the design with its brief, or every fault found.
 */
export function readDesign(value: unknown): DesignRead {
  const head = headFault(value, DESIGN_FORMAT, DESIGN_VERSION);
  if (head !== null) return { ok: false, faults: [head] };
  const read = readSchema(designFileSchema, value);
  if (!read.ok) {
    const outside = read.faults.map((entry) => entry.fault);
    return { ok: false, faults: [...outside, ...faultsInside(value)] };
  }
  const given = read.value;
  const brief = innerBrief(briefInside(given.brief, given.thickness_mm));
  if (!('format' in brief)) return { ok: false, faults: brief };
  const faults: Fault[] = [];
  const { plate } = brief;
  const design: Design = {
    plate: {
      outline: plate.outline,
      thickness_mm: thicknessOf(brief, given.thickness_mm, faults),
      rim_mm: plate.rim_mm,
      holes: mountingHoles(plate.mounting),
      build: buildOf(brief, given.build, faults),
    },
    channels: given.channels.map((channel, i) => channelOf(channel, `channels[${i}]`, faults)),
    ...(given.plenum === undefined ? {} : { plenum: given.plenum }),
  };
  if (faults.length === 0) faults.push(...geometryFaults(design));
  if (faults.length > 0) return { ok: false, faults };
  return {
    ok: true,
    file: { name: given.name, brief, design, genes: given.genes ?? null },
  };
}

/**
 * Reads and checks the text of a design file.
 *
 * @param where name of the file, for messages.
 * @throws InputError with every fault found.
 */
export function readDesignFile(text: string, where = 'design file'): DesignFile {
  const read = readDesign(readJson(text, where, { strict: true }));
  if (!read.ok) throw new InputError(read.faults, where);
  return read.file;
}

function sameHoles(design: Design, brief: Brief): boolean {
  const asked = mountingHoles(brief.plate.mounting);
  const { holes } = design.plate;
  return (
    holes.length === asked.length &&
    holes.every(
      (hole, i) =>
        hole.x_mm === asked[i].x_mm &&
        hole.y_mm === asked[i].y_mm &&
        hole.diameter_mm === asked[i].diameter_mm,
    )
  );
}

/**
 * Writes a design with its brief. Reading it back gives the same design to the last bit (only -0
 * becomes 0), whatever its brief says of the plate: the plate's own data win.
 */
export function writeDesignFile(file: DesignFile): string {
  const { brief, design } = file;
  const plate = {
    ...brief.plate,
    outline: design.plate.outline,
    rim_mm: design.plate.rim_mm,
    ...(sameHoles(design, brief) ? {} : { mounting: { kind: 'holes', holes: design.plate.holes } }),
  };
  const data = {
    format: DESIGN_FORMAT,
    version: DESIGN_VERSION,
    name: file.name,
    brief: { ...brief, plate },
    thickness_mm: design.plate.thickness_mm,
    build: design.plate.build,
    channels: design.channels.map((channel) => ({
      points_mm: channel.points_mm,
      inlet: channel.inlet,
      outlet: channel.outlet,
      inletDirection: channel.inletDirection,
      outletDirection: channel.outletDirection,
      section: channel.section,
      bore_mm: channel.bore_mm,
      roll_deg: channel.roll_deg,
      pockets: channel.pockets,
      teeth: channel.teeth,
      at: channel.placements,
    })),
    plenum: design.plenum,
    genes: file.genes ?? undefined,
  };
  return writeJson(data, { negativeZero: 'zero' });
}
