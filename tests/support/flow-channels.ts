/** Channels whose pressure drop is asked for alone, without a brief. */
import { sampleDesign } from '../../src/design/index.ts';
import type { Channel, PlateSamples } from '../../src/design/index.ts';
import {
  channelPressure,
  createDigests,
  digestChannel,
  faceInlet,
  polygonFRe,
  slotFRe,
} from '../../src/physics/index.ts';
import type { Air, ChannelDigests, DuctFamily, StationArrays } from '../../src/physics/index.ts';

/** Air of the given density and kinematic viscosity; other properties those of 20 C. */
export function airOf(density_kg_per_m3: number, nu_m2_per_s: number): Air {
  return {
    temperature_K: 293.15,
    pressure_Pa: 101325,
    density_kg_per_m3,
    viscosity_Pa_s: density_kg_per_m3 * nu_m2_per_s,
    kinematicViscosity_m2_per_s: nu_m2_per_s,
    conductivity_W_per_m_K: 0.0257,
    specificHeat_J_per_kg_K: 1006,
    prandtl: 0.709,
    soundSpeed_m_per_s: 343.2,
    meanFreePath_m: 66e-9,
  };
}

export const ROOM_AIR = airOf(1.2041, 1.506e-5);

/** A channel along points, normal to both faces, round 5 mm unless told otherwise. */
export function aRoute(
  points_mm: readonly (readonly [number, number, number])[],
  over: Partial<Channel> = {},
): Channel {
  return {
    points_mm,
    inletDirection: [0, 0, 1],
    outletDirection: [0, 0, 1],
    section: { kind: 'round' },
    bore_mm: [5],
    roll_deg: 0,
    pockets: [],
    placements: [{ x_mm: 0, y_mm: 0, turn_deg: 0, mirrored: false }],
    ...over,
  };
}

/** A route x(z), y = 0, through `count` points. */
export function routeAlong(
  x: (z: number) => number,
  thickness_mm: number,
  over: Partial<Channel> = {},
  count = 41,
): Channel {
  const points = Array.from({ length: count }, (_, i): [number, number, number] => {
    const z = (thickness_mm * i) / (count - 1);
    return [x(z), 0, z];
  });
  return aRoute(points, over);
}

export function samplesOf(channels: readonly Channel[], stations = 32): PlateSamples {
  const last = channels[0].points_mm.at(-1);
  return sampleDesign(
    {
      plate: {
        outline: { kind: 'rectangle', width_mm: 400, height_mm: 400, cornerRadius_mm: 0 },
        thickness_mm: last ? last[2] : 20,
        rim_mm: 0,
        holes: [],
        build: 'flat',
      },
      channels,
    },
    stations,
  );
}

export function arraysOf(samples: PlateSamples): StationArrays {
  return {
    unit_m: 1e-3,
    stations: samples.stations,
    tangent: samples.tangent,
    area: samples.area_mm2,
    perimeter: samples.perimeter_mm,
    bore: samples.bore_mm,
    roof: samples.roof,
    length: samples.length_mm,
  };
}

export interface Surroundings {
  readonly air?: Air;
  readonly openShare?: number;
  readonly shrinkage_mm?: number;
  readonly layer_mm?: number;
  readonly pockets?: number;
}

export function familyOf(channel: Channel): DuctFamily {
  const { section } = channel;
  if (section.kind === 'slot') return { kind: 'slot', fRe: slotFRe(section.aspect) };
  if (section.kind === 'teardrop') return { kind: 'roofed' };
  const fRe = section.kind === 'polygon' ? polygonFRe(section.sides) : 64;
  return { kind: 'tangential', fRe };
}

export function digestOf(
  channels: readonly Channel[],
  around: Surroundings = {},
  stations = 32,
): { digests: ChannelDigests; samples: PlateSamples } {
  const samples = samplesOf(channels, stations);
  const digests = createDigests(samples.shapeCount, stations);
  for (let m = 0; m < samples.shapeCount; m += 1) {
    digestChannel(
      digests,
      m,
      arraysOf(samples),
      familyOf(channels[samples.channelOfShape[m]]),
      around.pockets ?? 0,
      {
        air: around.air ?? ROOM_AIR,
        shrinkage: around.shrinkage_mm ?? 0,
        layer: around.layer_mm ?? 0,
        buildAxis: 2,
        ...faceInlet(around.openShare ?? 0),
      },
    );
  }
  return { digests, samples };
}

/** Pressure drop [Pa] of a channel at a bulk velocity through its inlet port. */
export function dropAt(
  channel: Channel,
  velocity_m_per_s: number,
  around: Surroundings = {},
  stations = 32,
): number {
  const { digests, samples } = digestOf([channel], around, stations);
  const out = new Float64Array(2);
  channelPressure(digests, 0, velocity_m_per_s * samples.area_mm2[0] * 1e-6, out);
  return out[0];
}
