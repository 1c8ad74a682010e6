/**
 * One step of the lattice in plain typed arrays: links, streaming, collision.
 *
 * Incompressible equilibrium (He & Luo 1997, J. Stat. Phys. 88:927) to third order, with recursive
 * regularised collision: the non-equilibrium part is rebuilt from its stress alone,
 *
 *   a2 = u u + (1 - 1/tau) N,  N = sum c c f - rho/3 - u u, without trace,
 *   a3 = u u u + (1 - 1/tau) (u N + N u + N u)
 *
 * (Malaspinas 2015, arXiv:1505.06900; Coreixas et al. 2017, Phys. Rev. E 96:033306; weights of the
 * third order on D3Q19: Jacob, Malaspinas & Sagaut 2018, J. Turbul. 19:1051). Dropping the trace damps
 * sound. A subgrid viscosity (Smagorinsky 1963) keeps under-resolved shear layers stable:
 *
 *   tau = (tau0 + sqrt(tau0^2 + 18 sqrt2 C^2 (|N| - N0))) / 2,  N0 = R sqrt2 tau0 (tau0 - 1/2) / 9.
 *
 * It acts on the part of the shear alone that the cells do not resolve: N0 is the stress of a shear of
 * cell Reynolds number |S| / viscosity = R, and none is added below. So a flow that is well resolved is
 * left alone, and the bias goes as the grid is refined (own choice; without N0 a pipe at Re 330 came out
 * 2 % high on 15 cells).
 *
 * Populations are deviations from rest in single precision, each direction in one array.
 */
import type { Grid } from './grid.ts';
import { SPAN_FIELDS } from './grid.ts';
import { DIRECTIONS } from './lattice.ts';
import type { Links } from './links.ts';

/** What steps the populations of one grid. */
export interface Kernel {
  /** Populations as they left the last collision [19 x size]. */
  populations(): Float32Array;
  /** Constants of the links, to be set between steps. */
  readonly constant: Float32Array;
  /** Relaxation time of each layer z, to be set before a step. */
  readonly tau: Float32Array;
  step(): void;
}

export interface KernelSetup {
  readonly grid: Grid;
  readonly links: Links;
  /** Smagorinsky constant C; 0 for none. */
  readonly subgrid: number;
}

/** Cell Reynolds number of a shear that counts as resolved, R. */
const RESOLVED_SHEAR = 12;
/** The same as a stress over tau0 (tau0 - 1/2). */
export const RESOLVED = (RESOLVED_SHEAR * Math.SQRT2) / 9;

export function createPlainKernel({ grid, links, subgrid }: KernelSetup): Kernel {
  let source = new Float32Array(DIRECTIONS * grid.size);
  let target = new Float32Array(DIRECTIONS * grid.size);
  const tau = new Float32Array(grid.nz);
  const eddy = 18 * Math.SQRT2 * subgrid * subgrid;
  return {
    populations: () => source,
    constant: links.constant,
    tau,
    step() {
      applyLinks(links, source);
      collide(grid, source, target, tau, eddy);
      const held = source;
      source = target;
      target = held;
    },
  };
}

function applyLinks(
  { count, to, near, far, rest, scale, share, constant }: Links,
  f: Float32Array,
): void {
  for (let n = 0; n < count; n++) {
    const leaving = f[near[n]];
    const value = Math.fround(scale[n] * leaving + share[n] * f[far[n]] + constant[n]);
    f[rest[n]] += leaving - value;
    f[to[n]] = value;
  }
}

function collide(
  { size, spans }: Grid,
  f: Float32Array,
  out: Float32Array,
  tauOf: Float32Array,
  eddy: number,
): void {
  for (let s = 0; s < spans.length; s += SPAN_FIELDS) {
    const from = spans[s];
    const length = spans[s + 1];
    const layer = spans[s + 2];
    const left = spans[s + 3];
    const right = spans[s + 4];
    const front = spans[s + 5];
    const rear = spans[s + 6];
    const p1 = size + left + from;
    const p2 = 2 * size + right + from;
    const p3 = 3 * size + front + from;
    const p4 = 4 * size + rear + from;
    const p5 = 5 * size - 1 + from;
    const p6 = 6 * size + 1 + from;
    const p7 = 7 * size + spans[s + 7] + from;
    const p8 = 8 * size + spans[s + 8] + from;
    const p9 = 9 * size + spans[s + 9] + from;
    const p10 = 10 * size + spans[s + 10] + from;
    const p11 = 11 * size + left - 1 + from;
    const p12 = 12 * size + right + 1 + from;
    const p13 = 13 * size + left + 1 + from;
    const p14 = 14 * size + right - 1 + from;
    const p15 = 15 * size + front - 1 + from;
    const p16 = 16 * size + rear + 1 + from;
    const p17 = 17 * size + front + 1 + from;
    const p18 = 18 * size + rear - 1 + from;
    for (let n = 0; n < length; n++) {
      const f0 = f[from + n];
      const f1 = f[p1 + n];
      const f2 = f[p2 + n];
      const f3 = f[p3 + n];
      const f4 = f[p4 + n];
      const f5 = f[p5 + n];
      const f6 = f[p6 + n];
      const f7 = f[p7 + n];
      const f8 = f[p8 + n];
      const f9 = f[p9 + n];
      const f10 = f[p10 + n];
      const f11 = f[p11 + n];
      const f12 = f[p12 + n];
      const f13 = f[p13 + n];
      const f14 = f[p14 + n];
      const f15 = f[p15 + n];
      const f16 = f[p16 + n];
      const f17 = f[p17 + n];
      const f18 = f[p18 + n];
      // Pressure (as density), momentum and stress.
      const s78 = f7 + f8;
      const s90 = f9 + f10;
      const sxz = f11 + f12;
      const szx = f13 + f14;
      const syz = f15 + f16;
      const szy = f17 + f18;
      const axis1 = f1 + f2;
      const axis3 = f3 + f4;
      const axis5 = f5 + f6;
      const xy = s78 + s90;
      const xz = sxz + szx;
      const yz = syz + szy;
      const rho = f0 + axis1 + axis3 + axis5 + xy + xz + yz;
      const u = f1 - f2 + (f7 - f8) + (f9 - f10) + (f11 - f12) + (f13 - f14);
      const v = f3 - f4 + (f7 - f8) - (f9 - f10) + (f15 - f16) + (f17 - f18);
      const w = f5 - f6 + (f11 - f12) - (f13 - f14) + (f15 - f16) - (f17 - f18);
      const uu = u * u;
      const vv = v * v;
      const ww = w * w;
      let nxx = axis1 + xy + xz - uu;
      let nyy = axis3 + xy + yz - vv;
      let nzz = axis5 + xz + yz - ww;
      const third = (nxx + nyy + nzz) / 3;
      nxx -= third;
      nyy -= third;
      nzz -= third;
      const nxy = s78 - s90 - u * v;
      const nxz = sxz - szx - u * w;
      const nyz = syz - szy - v * w;
      const norm = nxx * nxx + nyy * nyy + nzz * nzz + 2 * (nxy * nxy + nxz * nxz + nyz * nyz);
      const tau0 = tauOf[layer + n];
      const tau =
        0.5 *
        (tau0 +
          Math.sqrt(
            tau0 * tau0 + eddy * Math.max(0, Math.sqrt(norm) - RESOLVED * tau0 * (tau0 - 0.5)),
          ));
      const keep = 1 - 1 / tau;
      const kxx = keep * nxx;
      const kyy = keep * nyy;
      const kzz = keep * nzz;
      const kxy = keep * nxy;
      const kxz = keep * nxz;
      const kyz = keep * nyz;
      const axx = uu + kxx;
      const ayy = vv + kyy;
      const azz = ww + kzz;
      const axy = u * v + kxy;
      const axz = u * w + kxz;
      const ayz = v * w + kyz;
      const txxy = uu * v + 2 * u * kxy + v * kxx;
      const txyy = vv * u + 2 * v * kxy + u * kyy;
      const txxz = uu * w + 2 * u * kxz + w * kxx;
      const txzz = ww * u + 2 * w * kxz + u * kzz;
      const tyyz = vv * w + 2 * v * kyz + w * kyy;
      const tyzz = ww * v + 2 * w * kyz + v * kzz;
      const e = rho - 1.5 * (axx + ayy + azz);
      out[from + n] = e / 3;
      const e18 = e / 18;
      const evenX = e18 + 0.25 * axx;
      const evenY = e18 + 0.25 * ayy;
      const evenZ = e18 + 0.25 * azz;
      const oddX = u / 6 - 0.5 * (txyy + txzz);
      const oddY = v / 6 - 0.5 * (txxy + tyzz);
      const oddZ = w / 6 - 0.5 * (txxz + tyyz);
      const at = from + n;
      out[size + at] = evenX + oddX;
      out[2 * size + at] = evenX - oddX;
      out[3 * size + at] = evenY + oddY;
      out[4 * size + at] = evenY - oddY;
      out[5 * size + at] = evenZ + oddZ;
      out[6 * size + at] = evenZ - oddZ;
      const e36 = 0.5 * e18;
      const u12 = u / 12;
      const v12 = v / 12;
      const w12 = w / 12;
      const evenXY = e36 + 0.125 * (axx + ayy);
      const ox = u12 + 0.25 * txyy;
      const oy = v12 + 0.25 * txxy;
      out[7 * size + at] = evenXY + 0.25 * axy + (ox + oy);
      out[8 * size + at] = evenXY + 0.25 * axy - (ox + oy);
      out[9 * size + at] = evenXY - 0.25 * axy + (ox - oy);
      out[10 * size + at] = evenXY - 0.25 * axy - (ox - oy);
      const evenXZ = e36 + 0.125 * (axx + azz);
      const px = u12 + 0.25 * txzz;
      const pz = w12 + 0.25 * txxz;
      out[11 * size + at] = evenXZ + 0.25 * axz + (px + pz);
      out[12 * size + at] = evenXZ + 0.25 * axz - (px + pz);
      out[13 * size + at] = evenXZ - 0.25 * axz + (px - pz);
      out[14 * size + at] = evenXZ - 0.25 * axz - (px - pz);
      const evenYZ = e36 + 0.125 * (ayy + azz);
      const qy = v12 + 0.25 * tyzz;
      const qz = w12 + 0.25 * tyyz;
      out[15 * size + at] = evenYZ + 0.25 * ayz + (qy + qz);
      out[16 * size + at] = evenYZ + 0.25 * ayz - (qy + qz);
      out[17 * size + at] = evenYZ - 0.25 * ayz + (qy - qz);
      out[18 * size + at] = evenYZ - 0.25 * ayz - (qy - qz);
    }
  }
}
