/** Port lattices: where the channels of a plate begin. */
import { PI, asin, cos, cosDeg, sin, sinDeg } from './angles.ts';

export type LatticeKind = 'square' | 'hexagonal' | 'rings';

export interface Lattice {
  readonly kind: LatticeKind;
  /** Distance between neighbours of a row (square, hexagonal) or between rings [mm]. */
  readonly pitch_mm: number;
  /**
   * Distance between rows [mm]; square default: the pitch, hexagonal: pitch * sqrt(3) / 2.
   * For rings: least distance of neighbours on a ring, default the pitch.
   */
  readonly rowPitch_mm?: number;
  /** Shift of every other row (square) or of each ring against the last, in steps of a row [0..1]. */
  readonly stagger: number;
  /** Turn of the whole lattice about the origin [deg]. */
  readonly rotation_deg: number;
}

export interface Port {
  readonly x_mm: number;
  readonly y_mm: number;
  /** Distance from the origin [mm]. */
  readonly distance_mm: number;
  /** Row and place in it, counted from the centre; for rings: ring and place on the ring. */
  readonly row: number;
  readonly column: number;
}

/** Most ports a lattice will lay out; far more than a plate may hold. */
const MOST_PORTS = 20000;

/**
 * All ports of a lattice within a circle about the origin, from the centre outwards (ties: by row,
 * then column). One port stands at the origin.
 *
 * The caller keeps those that fit its plate.
 *
 * @param radius_mm greatest distance of a port's centre from the origin.
 * @throws RangeError when that would be more than 20000 ports.
 * @example layPorts({ kind: 'hexagonal', pitch_mm: 10, stagger: 0, rotation_deg: 0 }, 10.5).length // 7
 * @example layPorts({ kind: 'square', pitch_mm: 10, stagger: 0, rotation_deg: 0 }, 10.5).length // 5
 */
export function layPorts(lattice: Lattice, radius_mm: number): Port[] {
  const { kind, pitch_mm } = lattice;
  const rowPitch_mm =
    lattice.rowPitch_mm ?? (kind === 'hexagonal' ? 0.5 * Math.sqrt(3) * pitch_mm : pitch_mm);
  const expected = (PI * radius_mm * radius_mm) / (pitch_mm * rowPitch_mm);
  if (!(expected <= MOST_PORTS)) {
    throw new RangeError(
      `A lattice of pitch ${pitch_mm} mm within ${radius_mm} mm has more than ${MOST_PORTS} ports.`,
    );
  }
  const found =
    kind === 'rings'
      ? layRings(lattice, rowPitch_mm, radius_mm)
      : layRows(lattice, rowPitch_mm, radius_mm);
  return byDistance(found);
}

/**
 * Ports from the centre outwards. Distances of symmetric ports differ by rounding; to the micrometre
 * they are the same. Ports are laid row by row, so their index breaks ties; distance and index in
 * one number sort without a comparator, twice as fast.
 */
function byDistance(ports: readonly Port[]): Port[] {
  const keys = new Float64Array(ports.length);
  for (let i = 0; i < keys.length; i++) {
    keys[i] = Math.round(1e3 * ports[i].distance_mm) * KEY_SHIFT + i;
  }
  keys.sort();
  const sorted: Port[] = [];
  for (let i = 0; i < keys.length; i++) sorted.push(ports[keys[i] % KEY_SHIFT]);
  return sorted;
}

/** More than there can be ports, and a power of two. */
const KEY_SHIFT = 65536;

function layRows(lattice: Lattice, rowPitch_mm: number, radius_mm: number): Port[] {
  const { pitch_mm } = lattice;
  const shift = lattice.kind === 'hexagonal' ? 0.5 : lattice.stagger;
  const c = cosDeg(lattice.rotation_deg);
  const s = sinDeg(lattice.rotation_deg);
  const rows = Math.floor(radius_mm / rowPitch_mm);
  const ports: Port[] = [];
  const limit = radius_mm * radius_mm * (1 + 1e-12);
  for (let row = -rows; row <= rows; row++) {
    const y = row * rowPitch_mm;
    const start = row % 2 === 0 ? 0 : shift;
    const half = Math.sqrt(Math.max(0, limit - y * y)) / pitch_mm;
    for (let column = Math.ceil(-half - start); column <= Math.floor(half - start); column++) {
      const x = (column + start) * pitch_mm;
      ports.push({
        x_mm: c * x - s * y,
        y_mm: s * x + c * y,
        distance_mm: Math.sqrt(x * x + y * y),
        row,
        column,
      });
    }
  }
  return ports;
}

function layRings(lattice: Lattice, leastStep_mm: number, radius_mm: number): Port[] {
  const ports: Port[] = [{ x_mm: 0, y_mm: 0, distance_mm: 0, row: 0, column: 0 }];
  const rings = Math.floor(radius_mm / lattice.pitch_mm + 1e-12);
  for (let ring = 1; ring <= rings; ring++) {
    const r = ring * lattice.pitch_mm;
    // Most ports whose neighbours are a chord of at least one step apart.
    const chord = leastStep_mm / (2 * r);
    const count = chord >= 1 ? 1 : Math.max(1, Math.floor(PI / asin(chord) + 1e-9));
    const turn = (2 * PI * (lattice.stagger * ring)) / count;
    const c = cosDeg(lattice.rotation_deg);
    const s = sinDeg(lattice.rotation_deg);
    for (let i = 0; i < count; i++) {
      const angle = (2 * PI * i) / count + turn;
      const x = r * cos(angle);
      const y = r * sin(angle);
      ports.push({
        x_mm: c * x - s * y,
        y_mm: s * x + c * y,
        distance_mm: r,
        row: ring,
        column: i,
      });
    }
  }
  return ports;
}
