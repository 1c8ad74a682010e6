/**
 * Plates under a push at their middle: deflection and bending moment.
 *
 * Thin-plate theory of Kirchhoff with a term for shear. Orthotropic plates, whose stiffness along x
 * and y differs, are mapped to an isotropic one: with y' = k y, k = (D_x / D_y)^(1/4), and the
 * twisting stiffness taken as sqrt(D_x D_y), the equation of the plate is that of an isotropic plate
 * of rigidity D_x under k times the load (Huber 1923; Timoshenko & Woinowsky-Krieger 1959, ch. 11).
 */
import { log, pow } from '../numeric/index.ts';

export type PlateSupport = 'simple' | 'clamped';

/** Outline of a plate that rests on its whole edge [m]. */
export type PlateOutline =
  | { readonly kind: 'round'; readonly radius_m: number }
  | { readonly kind: 'rectangle'; readonly width_m: number; readonly height_m: number };

/** A push on a mapped plate: its pad, and the pad by which it stresses the plate. */
interface MappedPush {
  readonly load_N: number;
  readonly pad_m: number;
  readonly stressPad_m: number;
  readonly support: PlateSupport;
}

/** A push spread evenly over a round pad in the middle of a plate. */
export interface Push {
  readonly load_N: number;
  readonly pad_m: number;
  readonly support: PlateSupport;
}

/** Stiffness of a plate along x and y. */
export interface PlateStiffness {
  readonly thickness_m: number;
  /** Flexural rigidity [N m]. */
  readonly rigidityX_Nm: number;
  readonly rigidityY_Nm: number;
  readonly poisson: number;
  /** Shear modulus of the wall across the plate, holes taken off [Pa]. */
  readonly shear_Pa: number;
}

export interface PushedPlate {
  /** At the middle, shear included [m]. */
  readonly deflection_m: number;
  /** The part of it that is due to shear [m]. */
  readonly shear_m: number;
  /** Greatest bending moments per length along x and y, at the middle or a clamped edge [N]. */
  readonly momentX_N: number;
  readonly momentY_N: number;
}

/**
 * Flexural rigidity of a solid plate [N m].
 *
 *   D = E t^3 / [12 (1 - nu^2)]
 *
 * @example flexuralRigidity(2.3e9, 0.004, 0.3) // 13.4798535
 * Source: Timoshenko & Woinowsky-Krieger 1959, ch. 2.
 */
export function flexuralRigidity(modulus_Pa: number, thickness_m: number, poisson: number): number {
  const t = thickness_m;
  return (modulus_Pa * t * t * t) / (12 * (1 - poisson * poisson));
}

/** Coefficients of rectangles at these ratios of the sides, the last one for a long strip. */
const RATIOS = [1, 1.2, 1.4, 1.6, 1.8, 2, 3] as const;
/**
 * w = c W b^2 / D. Timoshenko & Woinowsky-Krieger 1959, tables 23 and 37, from memory; simply supported
 * ones checked against the series of Navier, clamped ones by the method of Ritz.
 */
const SAG = {
  simple: [0.0116, 0.01353, 0.01484, 0.0157, 0.0162, 0.01651, 0.01695],
  clamped: [0.0056, 0.00647, 0.00691, 0.00712, 0.0072, 0.00722, 0.00725],
} as const;
/** m = W / (4 pi) [(1 + nu) ln(2 b / (pi r)) + c] at the middle. Roark, table of flat plates, from memory. */
const MIDDLE = {
  simple: [0.435, 0.65, 0.789, 0.875, 0.927, 0.958, 1],
  clamped: [-0.238, -0.078, 0.011, 0.053, 0.068, 0.067, 0.067],
} as const;
/** m = c W at the middle of a long clamped edge, a sixth of Roark's stress factor; from memory. */
const EDGE = [0.1257, 0.149, 0.1604, 0.1651, 0.1667, 0.1673, 0.168] as const;

function atRatio(row: readonly number[], ratio: number): number {
  for (let i = 1; i < RATIOS.length; i++) {
    if (ratio >= RATIOS[i]) continue;
    // Straight in 1 / ratio: within 0.3 % of the series.
    const share = (1 / RATIOS[i - 1] - 1 / ratio) / (1 / RATIOS[i - 1] - 1 / RATIOS[i]);
    return row[i - 1] + share * (row[i] - row[i - 1]);
  }
  return row[row.length - 1];
}

/**
 * Radius by which a push bends a thick plate [m]: a small pad acts as a wider one.
 *
 *   r' = sqrt(1.6 r^2 + t^2) - 0.675 t when r < t / 2, else r
 *
 * @example equivalentPad(0.006, 0.004) // 0.006
 * @example equivalentPad(0, 0.01) // 0.00325
 * Source: Westergaard 1926, as given by Roark; from memory.
 */
export function equivalentPad(pad_m: number, thickness_m: number): number {
  const t = thickness_m;
  return pad_m < 0.5 * t ? Math.sqrt(1.6 * pad_m * pad_m + t * t) - 0.675 * t : pad_m;
}

/**
 * Deflection and greatest moments of a plate pushed at its middle.
 *
 * Round, isotropic: exact (Timoshenko & Woinowsky-Krieger 1959, ch. 3; Roark, from memory, checked in
 * the limits of a point and of an even load). Rectangles: tables for a point load, corners held down.
 * Round and orthotropic: between circle and long strip as a rectangle is between square and strip (own
 * interpolation). Shear: 1.2 W [ln(a / r) + 1/2] / (2 pi G t), a radius of the plate or of a circle of
 * the rectangle's area. Holds for deflections up to about half the thickness; beyond, the plate is
 * stiffer than this.
 */
export function pushPlate(outline: PlateOutline, plate: PlateStiffness, push: Push): PushedPlate {
  const { thickness_m: t, rigidityX_Nm: dx, rigidityY_Nm: dy } = plate;
  const k = dx === dy ? 1 : pow(dx / dy, 0.25);
  // The map stretches the pad along y only: a round one of the same area stands for it.
  const load: MappedPush = {
    load_N: k * push.load_N,
    pad_m: Math.sqrt(k) * push.pad_m,
    stressPad_m: Math.sqrt(k) * equivalentPad(push.pad_m, t),
    support: push.support,
  };
  const mapped =
    outline.kind === 'round'
      ? bendRound(outline.radius_m, k, plate, load)
      : bendRectangle(outline.width_m, k * outline.height_m, plate, load);
  const radius =
    outline.kind === 'round'
      ? outline.radius_m
      : Math.sqrt((outline.width_m * outline.height_m) / Math.PI);
  const pad = Math.min(radius, equivalentPad(push.pad_m, t));
  const shear_m =
    ((1.2 * push.load_N) / (2 * Math.PI * plate.shear_Pa * t)) * (log(radius / pad) + 0.5);
  return {
    deflection_m: mapped.deflection_m + shear_m,
    shear_m,
    // Curvatures along the mapped axes are alike, so moments go with sqrt(D_y / D_x).
    momentX_N: mapped.moment_N,
    momentY_N: mapped.moment_N / (k * k),
  };
}

interface Mapped {
  readonly deflection_m: number;
  readonly moment_N: number;
}

/** A disc of radius a that the map stretches k-fold along y. */
function bendRound(a: number, k: number, plate: PlateStiffness, push: MappedPush): Mapped {
  const { rigidityX_Nm: d, poisson: nu } = plate;
  if (k !== 1) return bendStretched(a, k, plate, push);
  const { load_N: w } = push;
  const r = Math.min(a, push.pad_m);
  const spread = r > 0 ? r * r * log(a / r) : 0;
  const pad = Math.min(a, push.stressPad_m);
  const far = log(a / pad);
  const even = (pad * pad) / (4 * a * a);
  if (push.support === 'simple') {
    const sag = ((3 + nu) * a * a - 0.25 * (7 + 3 * nu) * r * r) / (1 + nu) - spread;
    return {
      deflection_m: (w * sag) / (16 * Math.PI * d),
      moment_N: (w / (4 * Math.PI)) * ((1 + nu) * far + 1 - (1 - nu) * even),
    };
  }
  const middle = (1 + nu) * (far + even);
  return {
    deflection_m: (w * (4 * a * a - 4 * spread - 3 * r * r)) / (64 * Math.PI * d),
    moment_N: (w / (4 * Math.PI)) * Math.max(middle, 1 - 2 * even),
  };
}

/** Between the disc and a strip as wide, by the map's stretch. */
function bendStretched(a: number, k: number, plate: PlateStiffness, push: MappedPush): Mapped {
  // The narrow way of the mapped ellipse.
  const narrow = Math.min(a, k * a);
  const ratio = Math.max(k, 1 / k);
  const disc = bendRound(narrow, 1, plate, push);
  const strip = bendBox(2 * narrow, RATIOS[RATIOS.length - 1], plate, push);
  const row = SAG[push.support];
  const share = (atRatio(row, ratio) - row[0]) / (row[row.length - 1] - row[0]);
  return {
    deflection_m: disc.deflection_m + share * (strip.deflection_m - disc.deflection_m),
    moment_N: disc.moment_N + share * (strip.moment_N - disc.moment_N),
  };
}

function bendRectangle(
  width: number,
  height: number,
  plate: PlateStiffness,
  push: MappedPush,
): Mapped {
  const narrow = Math.min(width, height);
  return bendBox(narrow, Math.max(width, height) / narrow, plate, push);
}

/** An isotropic rectangle of short side b. */
function bendBox(b: number, ratio: number, plate: PlateStiffness, push: MappedPush): Mapped {
  const { poisson: nu, rigidityX_Nm: d } = plate;
  const { load_N: w, support } = push;
  const pad = Math.min(0.5 * b, push.stressPad_m);
  const far = log((2 * b) / (Math.PI * pad));
  const middle = (w / (4 * Math.PI)) * ((1 + nu) * far + atRatio(MIDDLE[support], ratio));
  const edge = support === 'clamped' ? atRatio(EDGE, ratio) * w : 0;
  return {
    deflection_m: (atRatio(SAG[support], ratio) * w * b * b) / d,
    moment_N: Math.max(middle, edge, w / (4 * Math.PI)),
  };
}

/**
 * Largest stress of a bending moment per length [Pa].
 *
 *   s = 6 m / t^2
 *
 * @example bendingStress(1, 0.001) // 6000000
 */
export function bendingStress(moment_N: number, thickness_m: number): number {
  return (6 * moment_N) / (thickness_m * thickness_m);
}
