/** A plate's channels as the flow sees them. */
import type { Brief } from '../../brief/index.ts';
import { END, endRise, outlineArea } from '../../design/index.ts';
import type { PlateSamples, Pocket, Section } from '../../design/index.ts';
import { metres } from '../../numeric/index.ts';
import {
  ROUND_F_RE,
  createDigests,
  digestChannels,
  faceInlet,
  pocketLoss,
  polygonFRe,
  ridgeLoss,
  slotFRe,
} from '../../physics/index.ts';
import type {
  Air,
  DigestConditions,
  DigestRoom,
  DuctFamily,
  PlateChannels,
} from '../../physics/index.ts';

/**
 * Digest of every shape of a plate, in its air and with its print.
 *
 * @param reuse digests no longer needed, whose memory may serve again.
 */
export function digestPlate(
  samples: PlateSamples,
  brief: Brief,
  air: Air,
  reuse?: DigestRoom,
): DigestRoom {
  const digests = createDigests(samples.shapeCount, samples.stations, reuse);
  digestChannels(digests, plateChannels(samples, brief, air));
  return digests;
}

/** A plate's channels as the flow sees them. */
export function plateChannels(samples: PlateSamples, brief: Brief, air: Air): PlateChannels {
  const { shapeCount, stations, sides } = samples;
  const face = {
    air,
    shrinkage: brief.process.holeShrinkage_mm,
    layer: brief.process.layerHeight_mm,
    buildAxis: samples.plate.build === 'flat' ? 2 : 1,
    ...faceInlet(openShare(samples)),
  } as const;
  // At the rim and in the plenum a channel begins alone in a wide wall.
  const alone = sides === null ? face : { ...face, ...faceInlet(0) };
  const families: DuctFamily[] = [];
  const conditions: DigestConditions[] = [];
  const pockets = new Float64Array(shapeCount);
  for (let m = 0; m < shapeCount; m += 1) {
    // Neighbours mostly share a section: its family is worked out once.
    const isSame = m > 0 && samples.sections[m] === samples.sections[m - 1];
    families.push(isSame ? families[m - 1] : ductFamily(samples.sections[m]));
    conditions.push(sides === null || sides.kind[2 * m] === END.face ? face : alone);
    const held = samples.pockets[m];
    if (held.length > 0) pockets[m] = pocketsLoss(held, samples.bore_mm[m * stations]);
  }
  return {
    arrays: {
      unit_m: metres(1),
      stations,
      tangent: samples.tangent,
      area: samples.area_mm2,
      perimeter: samples.perimeter_mm,
      bore: samples.bore_mm,
      roof: samples.roof,
      length: samples.length_mm,
      ...(sides === null ? {} : { inletRise: inletRises(samples) }),
      ...(samples.teeth === null
        ? {}
        : { teeth: { height: samples.teeth.height_mm, pitch: samples.teeth.pitch_mm } }),
    },
    shapes: shapeCount,
    families,
    pockets,
    conditions,
  };
}

function inletRises(samples: PlateSamples): Float64Array {
  return Float64Array.from({ length: samples.shapeCount }, (_, m) => endRise(samples, m, 0));
}

/** Open share of the inlet face, by the outline's whole area. */
function openShare(samples: PlateSamples): number {
  const { shapeOf, area_mm2, stations, sides } = samples;
  let open = 0;
  for (let i = 0; i < samples.channelCount; i += 1) {
    const shape = shapeOf[i];
    if (sides !== null && sides.kind[2 * shape] !== END.face) continue;
    open += area_mm2[shape * stations];
  }
  return Math.min(1, open / outlineArea(samples.plate.outline));
}

function pocketsLoss(pockets: readonly Pocket[], bore_mm: number): number {
  let sum = 0;
  for (const pocket of pockets) {
    sum += pocketLoss(pocket.length_mm / bore_mm, pocket.width_deg / 360);
    if (pocket.lip_mm !== undefined) sum += ridgeLoss(lipShare(pocket, bore_mm));
  }
  return sum;
}

/** Share of a round section that a pocket's lip takes: lip times half the window's arc. */
function lipShare({ lip_mm = 0, width_deg }: Pocket, bore_mm: number): number {
  return (2 * lip_mm * (width_deg / 360)) / bore_mm;
}

function ductFamily(section: Section): DuctFamily {
  switch (section.kind) {
    case 'round':
      return { kind: 'tangential', fRe: ROUND_F_RE };
    case 'teardrop':
      return { kind: 'roofed' };
    case 'slot':
      return { kind: 'slot', fRe: slotFRe(section.aspect) };
    case 'polygon':
      return { kind: 'tangential', fRe: polygonFRe(section.sides) };
    default: {
      const never: never = section;
      return never;
    }
  }
}
