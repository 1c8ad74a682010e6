import { describe, expect, it } from 'vitest';
import { flexuralRigidity, pushPlate } from '../../../src/physics/index.ts';
import type { PlateOutline, PlateStiffness, PushedPlate } from '../../../src/physics/index.ts';
import { bendingStress } from '../../../src/physics/index.ts';

const NU = 0.3;

/** A solid plate; shear is made negligible where thin-plate results are compared. */
function solid(modulus_Pa: number, thickness_m: number, shear_Pa = 1e18): PlateStiffness {
  const d = flexuralRigidity(modulus_Pa, thickness_m, NU);
  return { thickness_m, rigidityX_Nm: d, rigidityY_Nm: d, poisson: NU, shear_Pa };
}

function push(
  outline: PlateOutline,
  plate: PlateStiffness,
  support: 'simple' | 'clamped',
  pad_m = 1e-6,
  load_N = 50,
): PushedPlate {
  return pushPlate(outline, plate, { load_N, pad_m, support });
}

const ROUND: PlateOutline = { kind: 'round', radius_m: 0.06 };
const PLATE = solid(2.3e9, 0.004);

describe('round plates against closed forms (Timoshenko & Woinowsky-Krieger 1959, ch. 3)', () => {
  it('a = 60 mm, t = 4 mm, E = 2.3 GPa, 50 N: 0.674 mm in the limit of a point', () => {
    // w = W a^2 (3 + nu) / [16 pi D (1 + nu)]
    expect(1000 * push(ROUND, PLATE, 'simple').deflection_m).toBeCloseTo(0.674, 3);
    // w = W a^2 / (16 pi D)
    expect(1000 * push(ROUND, PLATE, 'clamped').deflection_m).toBeCloseTo(0.2655, 3);
  });

  it('... and 5.96 MPa on a pad of 6 mm radius', () => {
    // s = (3 W / 2 pi t^2) [(1 + nu) ln(a / r) + 1]; the exact form takes 0.04 % off.
    const { momentX_N, momentY_N } = push(ROUND, PLATE, 'simple', 0.006);
    expect(bendingStress(momentX_N, 0.004) / 1e6).toBeCloseTo(5.96, 2);
    expect(momentY_N).toBe(momentX_N);
  });

  it('a pad as wide as the plate is an even load', () => {
    const even = 50 / (Math.PI * 0.06 * 0.06);
    const d = PLATE.rigidityX_Nm;
    const a2 = 0.06 * 0.06;
    const simple = push(ROUND, PLATE, 'simple', 0.06);
    expect(simple.deflection_m).toBeCloseTo((even * a2 * a2 * 5.3) / (64 * d * 1.3), 12);
    // s = 3 (3 + nu) q a^2 / (8 t^2)
    expect(bendingStress(simple.momentX_N, 0.004)).toBeCloseTo((3 * 3.3 * even * a2) / 1.28e-4, 3);
    const clamped = push(ROUND, PLATE, 'clamped', 0.06);
    expect(clamped.deflection_m).toBeCloseTo((even * a2 * a2) / (64 * d), 12);
    // At the edge: s = 3 q a^2 / (4 t^2)
    expect(bendingStress(clamped.momentX_N, 0.004)).toBeCloseTo((3 * even * a2) / 6.4e-5, 3);
  });

  it('perforated at an efficiency of 0.3, triangular: about 2.3 mm', () => {
    const e = 2.3e9 * 0.2673911;
    const d = flexuralRigidity(e, 0.004, 0.3834789);
    const plate = { ...PLATE, rigidityX_Nm: d, rigidityY_Nm: d, poisson: 0.3834789 };
    expect(1000 * push(ROUND, plate, 'simple').deflection_m).toBeCloseTo(2.28, 1);
  });

  it('shear: the load over the girth, summed from the pad outwards', () => {
    const shear = 0.9e9;
    const thick = solid(2.3e9, 0.02, shear);
    let sum = 0;
    const n = 20000;
    for (let i = 0; i < n; i++) {
      const r = ((i + 0.5) / n) * 0.06;
      const line = r < 0.01 ? (50 * r) / (2 * Math.PI * 1e-4) : 50 / (2 * Math.PI * r);
      // Parabolic over the thickness: 6 / 5.
      sum += ((1.2 * line) / (shear * 0.02)) * (0.06 / n);
    }
    expect(push(ROUND, thick, 'simple', 0.01).shear_m).toBeCloseTo(sum, 12);
  });
});

/** Middle of a simply supported plate under a point load: Navier's double series. */
function navier(a: number, b: number, dx: number, dy: number): number {
  const h = Math.sqrt(dx * dy);
  let sum = 0;
  for (let m = 1; m < 400; m += 2) {
    for (let n = 1; n < 400; n += 2) {
      const x = (m / a) ** 2;
      const y = (n / b) ** 2;
      sum += 1 / (dx * x * x + 2 * h * x * y + dy * y * y);
    }
  }
  return (4 * sum) / (Math.PI ** 4 * a * b);
}

describe('rectangles', () => {
  it('simply supported: within 0.6 % of the series of Navier', () => {
    for (const ratio of [1, 1.1, 1.3, 1.5, 2, 3]) {
      const outline = { kind: 'rectangle', width_m: 0.1, height_m: 0.1 * ratio } as const;
      const exact = 50 * navier(0.1, 0.1 * ratio, PLATE.rigidityX_Nm, PLATE.rigidityX_Nm);
      const found = push(outline, PLATE, 'simple').deflection_m;
      expect(Math.abs(found / exact - 1)).toBeLessThan(0.006);
    }
  });

  it('orthotropic: within 1.5 % of the series, whichever way is the stiff one', () => {
    for (const [x, y] of [
      [1, 0.2],
      [0.05, 1],
      [1, 0.002],
    ]) {
      const d = PLATE.rigidityX_Nm;
      const plate = { ...PLATE, rigidityX_Nm: x * d, rigidityY_Nm: y * d };
      for (const height_m of [0.08, 0.1, 0.15]) {
        const outline = { kind: 'rectangle', width_m: 0.1, height_m } as const;
        const exact = 50 * navier(0.1, height_m, x * d, y * d);
        const found = push(outline, plate, 'simple').deflection_m;
        expect(Math.abs(found / exact - 1)).toBeLessThan(0.015);
      }
    }
  });

  it('clamped: at and at most 2 % above a Ritz sum of polynomials, which comes from below', () => {
    // 8 x 8 terms; 16 x 16 give 0.00560, 0.00690, 0.00719 at ratios 1, 1.4, 2.
    for (const ratio of [1, 1.4, 2]) {
      const outline = { kind: 'rectangle', width_m: 0.1, height_m: 0.1 * ratio } as const;
      const exact = (50 * ritzClamped(ratio) * 0.01) / PLATE.rigidityX_Nm;
      const found = push(outline, PLATE, 'clamped').deflection_m;
      expect(found / exact).toBeGreaterThan(1);
      expect(found / exact).toBeLessThan(1.02);
    }
  });

  it('moments of a square and a strip: Roark, from memory', () => {
    // Side 100 mm, r = 6 mm: (3 W / 2 pi t^2) [1.3 ln(2 b / pi r) + 0.435].
    const square = push({ kind: 'rectangle', width_m: 0.1, height_m: 0.1 }, PLATE, 'simple', 0.006);
    const factor = 1.3 * Math.log(200 / (6 * Math.PI)) + 0.435;
    expect(square.momentX_N).toBeCloseTo((50 / (4 * Math.PI)) * factor, 9);
  });

  it('a square carries between its inscribed and its circumscribed circle', () => {
    for (const support of ['simple', 'clamped'] as const) {
      const square = push({ kind: 'rectangle', width_m: 0.1, height_m: 0.1 }, PLATE, support);
      const inside = push({ kind: 'round', radius_m: 0.05 }, PLATE, support);
      const about = push({ kind: 'round', radius_m: 0.0708 }, PLATE, support);
      expect(square.deflection_m).toBeLessThan(about.deflection_m);
      // The corners are held down, which a circle's edge is not: simply supported it may be stiffer.
      if (support === 'clamped') {
        expect(square.deflection_m).toBeGreaterThan(inside.deflection_m);
      }
    }
  });
});

describe('round and orthotropic', () => {
  it('lies between the plates of its two rigidities, and turns with them', () => {
    const d = PLATE.rigidityX_Nm;
    const alongX = { ...PLATE, rigidityY_Nm: 0.1 * d };
    const alongY = { ...PLATE, rigidityX_Nm: 0.1 * d };
    for (const support of ['simple', 'clamped'] as const) {
      const x = push(ROUND, alongX, support, 0.006);
      const y = push(ROUND, alongY, support, 0.006);
      expect(x.deflection_m).toBeCloseTo(y.deflection_m, 9);
      expect(x.momentX_N).toBeCloseTo(y.momentY_N, 9);
      expect(x.momentX_N).toBeGreaterThan(x.momentY_N);
      const stiff = push(ROUND, PLATE, support, 0.006).deflection_m;
      expect(x.deflection_m).toBeGreaterThan(stiff);
      expect(x.deflection_m).toBeLessThan(10 * stiff);
    }
  });
});

/** c in w = c W b^2 / D for a clamped rectangle b x ratio b, point load at the middle: Ritz's method. */
function ritzClamped(ratio: number): number {
  const terms = 8;
  // Basis (1 - x^2)^2 x^2i on [-1, 1]; integrals of products of its derivatives by Simpson's rule.
  const points = 2001;
  const value = (i: number, d: number, x: number): number => {
    const poly = (c: readonly (readonly [number, number])[]): number => {
      let sum = 0;
      for (const [factor, power] of c) {
        let f = factor;
        for (let k = 0; k < d; k++) f *= power - k;
        if (f !== 0) sum += f * x ** (power - d);
      }
      return sum;
    };
    return poly([
      [1, 2 * i],
      [-2, 2 * i + 2],
      [1, 2 * i + 4],
    ]);
  };
  const integral = (i: number, j: number, di: number, dj: number): number => {
    let sum = 0;
    for (let p = 0; p < points; p++) {
      const x = -1 + (2 * p) / (points - 1);
      const weight = p === 0 || p === points - 1 ? 1 : p % 2 === 1 ? 4 : 2;
      sum += weight * value(i, di, x) * value(j, dj, x);
    }
    return (sum * 2) / (3 * (points - 1));
  };
  const table = (di: number, dj: number): number[][] =>
    Array.from({ length: terms }, (_, i) =>
      Array.from({ length: terms }, (_unused, j) => integral(i, j, di, dj)),
    );
  const [mass, slope, bend] = [table(0, 0), table(1, 1), table(2, 2)];
  const size = terms * terms;
  // Half sides 1/2 and ratio/2 of a plate with b = 1, D = 1, load 1.
  const [hx, hy] = [0.5, 0.5 * ratio];
  const matrix: number[][] = [];
  for (let r = 0; r < size; r++) {
    const [i, j] = [Math.floor(r / terms), r % terms];
    const row: number[] = [];
    for (let c = 0; c < size; c++) {
      const [k, l] = [Math.floor(c / terms), c % terms];
      // Clamped: the energy is that of the squared Laplacian.
      row.push(
        hx *
          hy *
          ((bend[i][k] * mass[j][l]) / hx ** 4 +
            (mass[i][k] * bend[j][l]) / hy ** 4 +
            (2 * slope[i][k] * slope[j][l]) / (hx * hx * hy * hy)),
      );
    }
    // The load works on the term without powers alone.
    row.push(r === 0 ? 1 : 0);
    matrix.push(row);
  }
  for (let p = 0; p < size; p++) {
    let best = p;
    for (let r = p + 1; r < size; r++) {
      if (Math.abs(matrix[r][p]) > Math.abs(matrix[best][p])) best = r;
    }
    [matrix[p], matrix[best]] = [matrix[best], matrix[p]];
    for (let r = 0; r < size; r++) {
      if (r === p) continue;
      const f = matrix[r][p] / matrix[p][p];
      for (let c = p; c <= size; c++) matrix[r][c] -= f * matrix[p][c];
    }
  }
  return matrix[0][size] / matrix[0][0];
}
