/** Curvature of a channel: the relaxed curvature behind the Dean number, and its bends one by one. */
import type { ChannelDigests, DigestRoom, StationArrays } from './channel-digest.ts';
import { bendTermsFast } from './bends.ts';
import { DIGEST } from './digest-layout.ts';

const { LOBE_FIELDS, MAX_LOBES, PANEL_FIELDS, SHAPE_FIELDS } = DIGEST;
const { P_BEFORE, P_BEND, P_LOBE } = DIGEST;
const { S_LOBES, S_REYNOLDS } = DIGEST;
const { L_BASE, L_REYNOLDS, L_SLOPE } = DIGEST;

/** Curvature times D_h from which a stretch starts to count as a bend, and from which it counts in full. */
const BEND_FROM = 0.05;
const BEND_FULL = 0.15;
const FULL_SLOPE = 1 / (BEND_FULL - BEND_FROM);
/** Cosine of the angle by which the direction of bending may drift within one bend (60 degrees). */
const SAME_BEND = 0.5;

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
  digests: DigestRoom,
  index: number,
  arrays: StationArrays,
  density_kg_per_m3: number,
): void {
  const { panels, panel, shape, stations, scratch } = digests;
  const { tangent } = arrays;
  const { diameter, inverseDiameter, area, progress } = scratch;
  const step = (arrays.length[index] * arrays.unit_m) / (stations - 1);
  const inverseStep = 1 / step;
  const half = 0.5 * density_kg_per_m3;
  // Relaxed curvature and its half D_h-fold, and the bend being gathered: all in locals, since this
  // loop runs once per station of every design (experiments/bench/flow.ts).
  let cx = 0;
  let cy = 0;
  let cz = 0;
  let before = 0;
  let lobes = 0;
  let width = 0;
  let turn = 0;
  let square = 0;
  let dx = 0;
  let dy = 0;
  let dz = 0;
  let sizes = 0;
  let areas = 0;
  let opened = 0;
  let station = 1;
  let last = 0;
  let at = PANEL_FIELDS * index * panels;
  for (let p = 0; p < panels; p += 1, at += PANEL_FIELDS) {
    const first = last;
    last = Math.round(((p + 1) * (stations - 1)) / panels);
    let bend = before * (progress[2 * first + 1] - progress[2 * first]);
    for (; station <= last; station += 1) {
      const t = 3 * (index * stations + station);
      const D_h = diameter[station];
      const inverse = inverseDiameter[station];
      const tx = tangent[t];
      const ty = tangent[t + 1];
      const tz = tangent[t + 2];
      const ux = tangent[t - 3];
      const uy = tangent[t - 2];
      const uz = tangent[t - 1];
      // Mean curvature of the interval from its turn, so that a kink between two stations counts in
      // full: chord to angle and 1/(1 + dot) by their series in 1 - dot.
      const gap = 1 - (tx * ux + ty * uy + tz * uz);
      const perStep = (1 + gap * (1 / 12)) * inverseStep;
      const kx = (tx - ux) * perStep;
      const ky = (ty - uy) * perStep;
      const kz = (tz - uz) * perStep;
      const k = Math.sqrt(kx * kx + ky * ky + kz * kz);
      const across = (cx * tx + cy * ty + cz * tz) * 0.5 * (1 + gap * (0.5 + 0.25 * gap));
      // `inverseLag` by the ready 1/D_h; middle rule, half the pull before and half after.
      const pull = 0.5 * step * Math.max(inverse / 3, Math.sqrt(k * inverse));
      const keep = 1 / (1 + pull);
      const fade = Math.max(0, 1 - pull) * keep;
      const gain = Math.min(1, 2 * pull * keep);
      cx = fade * (cx - across * (tx + ux)) + gain * kx;
      cy = fade * (cy - across * (ty + uy)) + gain * ky;
      cz = fade * (cz - across * (tz + uz)) + gain * kz;
      before = Math.sqrt(0.5 * D_h * Math.sqrt(cx * cx + cy * cy + cz * cz));
      // Weighted as the developing loss grows, with the root of the arc length: secondary flow that
      // sets in late in the first panel has little friction left to raise.
      const until = station === last ? 2 * station : 2 * station + 1;
      bend += before * (progress[until] - progress[2 * station - 1]);
      const strength = k * D_h;
      const bends = strength > BEND_FROM;
      if (width > 0) {
        const along = kx * dx + ky * dy + kz * dz;
        const size = (dx * dx + dy * dy + dz * dz) * k * k;
        const strays = along < 0 || along * along < SAME_BEND * SAME_BEND * size;
        if (!bends || strays || turn > Math.PI) {
          closeLobe(digests, index, lobes, turn, turn / square, sizes / width, half, areas / width);
          lobes += 1;
          width = 0;
        }
      }
      if (bends) {
        if (width === 0) {
          turn = square = dx = dy = dz = sizes = areas = 0;
          opened = station - 1;
        }
        const weight = Math.min(1, (strength - BEND_FROM) * FULL_SLOPE) * step;
        width += weight;
        turn += weight * k;
        square += weight * k * k;
        dx += weight * kx;
        dy += weight * ky;
        dz += weight * kz;
        sizes += weight * D_h;
        areas += weight * area[station];
      }
    }
    panel[at + P_LOBE] = Math.min(width > 0 ? lobes : lobes - 1, MAX_LOBES - 1);
    panel[at + P_BEFORE] = Math.max(0, opened - first) / (last - first);
    panel[at + P_BEND] = bend / (progress[2 * last] - progress[2 * first]);
  }
  if (width > 0) {
    closeLobe(digests, index, lobes, turn, turn / square, sizes / width, half, areas / width);
    lobes += 1;
  }
  shape[SHAPE_FIELDS * index + S_LOBES] = Math.min(lobes, MAX_LOBES);
}

/** Writes a bend of some turn, radius [m], D_h [m] and area [m2] behind the `count` earlier ones. */
function closeLobe(
  digests: ChannelDigests,
  index: number,
  count: number,
  turn_rad: number,
  radius_m: number,
  D_h_m: number,
  halfDensity: number,
  area_m2: number,
): void {
  const { lobe, shape } = digests;
  const place = Math.min(count, MAX_LOBES - 1);
  const at = LOBE_FIELDS * (index * MAX_LOBES + place);
  bendTermsFast(Math.min(turn_rad, Math.PI), radius_m / D_h_m, terms);
  const q = halfDensity / (area_m2 * area_m2);
  const shared = count >= MAX_LOBES;
  lobe[at + L_BASE] = terms[0] * q + (shared ? lobe[at + L_BASE] : 0);
  lobe[at + L_SLOPE] = terms[1] * q + (shared ? lobe[at + L_SLOPE] : 0);
  lobe[at + L_REYNOLDS] = shape[SHAPE_FIELDS * index + S_REYNOLDS];
}
