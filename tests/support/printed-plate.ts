/** Plates with channels whose printing is known, and their samples. */
import { sampleDesign } from '../../src/design/index.ts';
import type { Channel, Design, PlateSamples, Plate, Section } from '../../src/design/index.ts';
import type { Process } from '../../src/brief/index.ts';

/** Common practice for a 0.4 mm nozzle, no source. */
export const PROCESS: Process = {
  lineWidth_mm: 0.4,
  layerHeight_mm: 0.2,
  overhangLimit_deg: 45,
  bridgeLimit_mm: 10,
  minimumWall_mm: 0.8,
  minimumFeature_mm: 0.8,
  holeShrinkage_mm: 0.2,
  printSpeed_mm_per_s: 60,
  travelSpeed_mm_per_s: 150,
  volumeRate_mm3_per_s: 12,
  retraction_s: 0.3,
  layerChange_s: 2,
  minimumLayer_s: 6,
  materialDensity_kg_per_m3: 1240,
  materialPrice_per_kg: 25,
  machineRate_per_h: 3,
  currency: 'EUR',
};

export function aPlateFor(over: Partial<Plate> = {}): Plate {
  return {
    outline: { kind: 'rectangle', width_mm: 40, height_mm: 40, cornerRadius_mm: 0 },
    thickness_mm: 20,
    rim_mm: 2,
    holes: [],
    build: 'flat',
    ...over,
  };
}

export function aChannelOf(
  points_mm: Channel['points_mm'],
  bore_mm: number,
  over: Partial<Channel> & { section?: Section } = {},
): Channel {
  return {
    points_mm,
    inletDirection: [0, 0, 1],
    outletDirection: [0, 0, 1],
    section: { kind: 'round' },
    bore_mm: [bore_mm],
    roll_deg: 0,
    pockets: [],
    placements: [{ x_mm: 0, y_mm: 0, turn_deg: 0, mirrored: false }],
    ...over,
  };
}

export function samplesOf(
  plate: Plate,
  channels: readonly Channel[],
  stations: number = 32,
): PlateSamples {
  const design: Design = { plate, channels };
  return sampleDesign(design, stations);
}

/** Placements on a square lattice about the origin. */
export function lattice(count: number, pitch_mm: number): Channel['placements'] {
  const half = ((count - 1) / 2) * pitch_mm;
  return Array.from({ length: count * count }, (_, i) => ({
    x_mm: (i % count) * pitch_mm - half,
    y_mm: Math.floor(i / count) * pitch_mm - half,
    turn_deg: 0,
    mirrored: false,
  }));
}
