/** Channels of the reference file as analytic ducts; the geometry is told in the file. */
import type { Duct } from '../../../src/flow/index.ts';

export interface Case {
  readonly geometry: string;
  readonly meanVelocity_m_s: number;
  readonly reynolds: number;
  readonly lossCoefficient: number;
  readonly relativeUncertainty: number;
  readonly steady: boolean;
}

/** Side of the square box around each bore [mm]. */
export const CASE_SIDE_MM = 8.09;

const RADIUS_MM = 2.5;

const wave = (z: number, length: number): number => Math.cos((Math.PI * z) / length);

/** x of the centreline over z [mm]. */
function centreline(geometry: string): (z: number) => number {
  switch (geometry) {
    case 'sbend':
      return (z) => 3 * (1 - wave(z, 20));
    case 'ubend':
      return (z) => 2.5 * (1 - wave(z, 10));
    case 'doubles40':
      return (z) => {
        if (z < 10) return 2.5 * (1 - wave(z, 10));
        return z < 30 ? 5 * wave(z - 10, 20) : -2.5 * (1 + wave(z - 30, 10));
      };
    default:
      return () => 0;
  }
}

export function caseDuct(geometry: string): Duct {
  const line = centreline(geometry);
  const thickness_mm = geometry === 'doubles40' ? 40 : 20;
  const steps = 400;
  const xs = Float64Array.from({ length: steps + 1 }, (_, i) => line((thickness_mm * i) / steps));
  const isRound = (x: number, y: number): boolean => x * x + y * y < RADIUS_MM * RADIUS_MM;
  const isBent = (x: number, y: number, z: number): boolean => {
    const step = thickness_mm / steps;
    const from = Math.max(0, Math.floor((z - 3.2) / step));
    const to = Math.min(steps, Math.ceil((z + 3.2) / step));
    let nearest = Infinity;
    for (let i = from; i < to; i++) {
      const dx = xs[i + 1] - xs[i];
      const ax = x - xs[i];
      const az = z - step * i;
      const s = Math.max(0, Math.min(1, (ax * dx + az * step) / (dx * dx + step * step)));
      nearest = Math.min(nearest, (ax - s * dx) ** 2 + (az - s * step) ** 2);
    }
    return nearest + y * y < RADIUS_MM * RADIUS_MM;
  };
  const square = 0.5 * 4.43;
  const inside: Readonly<Record<string, Duct['inside']>> = {
    straight: isRound,
    square: (x, y) => Math.abs(x) < square && Math.abs(y) < square,
    pocket: (x, y, z) =>
      isRound(x, y) || (x > 0 && x < 8.5 && Math.abs(y) < 1.77 && z > 7.5 && z < 12.5),
  };
  const low = Math.min(...xs) - 2.6;
  const high = geometry === 'pocket' ? 8.5 : Math.max(...xs) + 2.6;
  return {
    thickness_mm,
    bore_mm: geometry === 'square' ? 4.43 : 5,
    area_mm2: geometry === 'square' ? 4.43 * 4.43 : Math.PI * RADIUS_MM * RADIUS_MM,
    inlet_mm: [0, 0],
    outlet_mm: [line(thickness_mm), 0],
    bounds_mm: [low, high, -2.6, 2.6],
    inside: inside[geometry] ?? isBent,
  };
}
