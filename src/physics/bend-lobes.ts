/** Curvature of a channel: the relaxed curvature behind the Dean number, and its bends one by one. */
import type { ChannelDigests, StationArrays } from './channel-digest.ts';
import { bendTerms } from './bends.ts';
import { inverseLag } from './curved.ts';
import {
  LOBE_FIELDS,
  L_BASE,
  L_REYNOLDS,
  L_SLOPE,
  MAX_LOBES,
  PANEL_FIELDS,
  P_BEND,
  P_LOBE,
  SHAPE_FIELDS,
  S_LOBES,
  S_REYNOLDS,
} from './digest-layout.ts';

/** Curvature times D_h from which a stretch starts to count as a bend, and from which it counts in full. */
const BEND_FROM = 0.05;
const BEND_FULL = 0.15;
/** Cosine of the angle by which the direction of bending may drift within one bend (60 degrees). */
const SAME_BEND = 0.5;

/** Bend being gathered: turn [rad], integral of curvature^2, direction sum x y z, D_h sum, 1/A^2 sum, weight. */
const run = new Float64Array(8);
const terms = new Float64Array(2);

/**
 * Fills the bend fields of a shape's panels and its lobes.
 *
 * Secondary flow lags behind the curvature: dc/ds = (k - c)/lag with c carried along without twist,
 * so that an S cancels, a U adds up and an out-of-plane turn mixes. A lobe is a stretch of
 * curvature above 0.05/D_h whose direction stays within 60 degrees; it ends at half a turn. From
 * 0.05 to 0.15 its curvature counts with a rising weight, so that no bend appears with a jump.
 * 1/R of a lobe is int k^2 ds/int k ds.
 */
export function digestBends(
  digests: ChannelDigests,
  index: number,
  arrays: StationArrays,
  density_kg_per_m3: number,
): void {
  const { panels, panel, shape, stations, scratch } = digests;
  const { tangent, curvature } = arrays;
  const { diameter, area } = scratch;
  const perMetre = 1 / arrays.unit_m;
  const step = (arrays.length[index] * arrays.unit_m) / (stations - 1);
  let cx = 0;
  let cy = 0;
  let cz = 0;
  let lobes = 0;
  let open = false;
  let station = 0;
  let last = 0;
  let before = 0;
  for (let p = 0; p < panels; p += 1) {
    const first = last;
    last = Math.round(((p + 1) * (stations - 1)) / panels);
    const middle = (first + last) >> 1;
    const at = PANEL_FIELDS * (index * panels + p);
    let bend = p === 0 ? 0 : 0.5 * before;
    for (; station <= last; station += 1) {
      const t = 3 * (index * stations + station);
      const D_h = diameter[station];
      const kx = curvature[t] * perMetre;
      const ky = curvature[t + 1] * perMetre;
      const kz = curvature[t + 2] * perMetre;
      const k = Math.sqrt(kx * kx + ky * ky + kz * kz);
      if (station > 0) {
        const tx = tangent[t];
        const ty = tangent[t + 1];
        const tz = tangent[t + 2];
        const across = cx * tx + cy * ty + cz * tz;
        if (across !== 0) {
          const dot = tx * tangent[t - 3] + ty * tangent[t - 2] + tz * tangent[t - 1];
          const turn = across / (1 + dot);
          cx -= turn * (tx + tangent[t - 3]);
          cy -= turn * (ty + tangent[t - 2]);
          cz -= turn * (tz + tangent[t - 1]);
        }
        const pull = step * inverseLag(k, D_h);
        const keep = 1 / (1 + pull);
        cx = (cx + pull * kx) * keep;
        cy = (cy + pull * ky) * keep;
        cz = (cz + pull * kz) * keep;
      }
      before = 0.5 * D_h * Math.sqrt(cx * cx + cy * cy + cz * cz);
      bend += station === last ? 0.5 * before : before;
      const strength = k * D_h;
      if (strength > BEND_FROM) {
        const ds = station === 0 || station === stations - 1 ? 0.5 * step : step;
        const weight = Math.min(1, (strength - BEND_FROM) / (BEND_FULL - BEND_FROM)) * ds;
        const along = kx * run[2] + ky * run[3] + kz * run[4];
        const size = run[2] * run[2] + run[3] * run[3] + run[4] * run[4];
        const strays = along < 0 || along * along < SAME_BEND * SAME_BEND * size * k * k;
        if (open && (strays || run[0] > Math.PI)) {
          lobes = closeLobe(digests, index, lobes, density_kg_per_m3);
          open = false;
        }
        if (!open) run.fill(0);
        open = true;
        run[0] += weight * k;
        run[1] += weight * k * k;
        run[2] += weight * kx;
        run[3] += weight * ky;
        run[4] += weight * kz;
        run[5] += weight * D_h;
        run[6] += weight / (area[station] * area[station]);
        run[7] += weight;
      } else if (open) {
        lobes = closeLobe(digests, index, lobes, density_kg_per_m3);
        open = false;
      }
      if (station === middle) panel[at + P_LOBE] = Math.min(lobes - (open ? 0 : 1), MAX_LOBES - 1);
    }
    panel[at + P_BEND] = Math.sqrt(bend / (last - first));
  }
  if (open) lobes = closeLobe(digests, index, lobes, density_kg_per_m3);
  shape[SHAPE_FIELDS * index + S_LOBES] = Math.min(lobes, MAX_LOBES);
}

/** Writes the gathered bend behind the `count` closed ones and returns the new count. */
function closeLobe(
  digests: ChannelDigests,
  index: number,
  count: number,
  density_kg_per_m3: number,
): number {
  const { lobe, shape } = digests;
  const place = Math.min(count, MAX_LOBES - 1);
  const at = LOBE_FIELDS * (index * MAX_LOBES + place);
  const D_h = run[5] / run[7];
  bendTerms(Math.min(run[0], Math.PI), run[0] / (run[1] * D_h), terms);
  const q = (0.5 * density_kg_per_m3 * run[6]) / run[7];
  const again = count >= MAX_LOBES;
  lobe[at + L_BASE] = terms[0] * q + (again ? lobe[at + L_BASE] : 0);
  lobe[at + L_SLOPE] = terms[1] * q + (again ? lobe[at + L_SLOPE] : 0);
  lobe[at + L_REYNOLDS] = shape[SHAPE_FIELDS * index + S_REYNOLDS];
  return count + 1;
}
