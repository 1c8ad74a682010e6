/** A quick estimate of the light that the walls of a channel pass on: a few zones along it. */
import type { PlateSamples } from '../../design/index.ts';
import {
  bouncedShare,
  createZones,
  discOverlap,
  openingToWall,
  ringToOpening,
} from '../../physics/index.ts';
import type { WallOptics } from './diffuse-rays.ts';

/** Zones along a channel. */
const ZONES = 12;
/** Both ports and the middle of each zone. */
const NODES = ZONES + 2;
/** Mean mirror share over a half space of diffuse light, refractive index 1.5 (Fresnel; from memory). */
const MEAN_MIRROR = 0.092;

const zones = createZones(ZONES);
const node = new Float64Array(3 * NODES);
/** Diameter at each node, and unfolded distance from the inlet: sum of step over diameter. */
const width = new Float64Array(NODES);
/** Station next to each node. */
const station = new Int32Array(NODES);
const unfolded = new Float64Array(NODES);
/** Share of the view from node to node that bends leave, and the node that hides the rest. */
const clear = new Float64Array(NODES * NODES);
const hider = new Int8Array(NODES * NODES);

/**
 * Share of the light entering a channel that leaves after one bounce or more: heuristic.
 *
 * The channel is unfolded into a straight round tube, distances counted in local bores, and cut into
 * rings that exchange light by exact view factors. What two rings see of each other shrinks with how
 * far the centreline between them strays from their chord, as two discs overlap; the view that is lost
 * goes to where it strays most, the outer wall of the bend.
 */
export function bouncedEstimate(samples: PlateSamples, shape: number, optics: WallOptics): number {
  loadNodes(samples, shape);
  viewNodes(samples, shape);
  fillZones();
  const mirrored = optics.gloss * MEAN_MIRROR;
  return bouncedShare(zones, mirrored + (1 - mirrored) * optics.reflectance);
}

function loadNodes(samples: PlateSamples, shape: number): void {
  const { stations, point_mm, area_mm2, perimeter_mm, length_mm } = samples;
  const last = stations - 1;
  const base = shape * stations;
  for (let k = 0; k < NODES; k++) {
    const along = k === 0 ? 0 : k === NODES - 1 ? last : ((k - 0.5) / ZONES) * last;
    const i = Math.min(last - 1, Math.floor(along));
    const f = along - i;
    const row = base + i;
    station[k] = Math.round(along);
    for (let d = 0; d < 3; d++) {
      node[3 * k + d] = point_mm[3 * row + d] * (1 - f) + point_mm[3 * row + 3 + d] * f;
    }
    // Between the round of the same area and the hydraulic diameter: squares and slots of 2 : 1 are
    // then met within 10 %, slots of 4 : 1 read up to 30 % too bright.
    const area = (1 - f) * area_mm2[row] + f * area_mm2[row + 1];
    const girth = (1 - f) * perimeter_mm[row] + f * perimeter_mm[row + 1];
    width[k] = Math.sqrt(area / Math.PI) + (2 * area) / girth;
  }
  const step = length_mm[shape] / ZONES;
  unfolded[0] = 0;
  for (let k = 1; k < NODES; k++) {
    const way = k === 1 || k === NODES - 1 ? 0.5 * step : step;
    unfolded[k] = unfolded[k - 1] + (2 * way) / (width[k - 1] + width[k]);
  }
}

/** Fills `clear` and `hider` for every pair of nodes. */
function viewNodes(samples: PlateSamples, shape: number): void {
  for (let a = 0; a < NODES; a++) {
    for (let b = a + 1; b < NODES; b++) {
      let worst = 0;
      let at = a;
      const x = node[3 * b] - node[3 * a];
      const y = node[3 * b + 1] - node[3 * a + 1];
      const z = node[3 * b + 2] - node[3 * a + 2];
      const inverse = 1 / Math.max(1e-12, x * x + y * y + z * z);
      for (let m = a + 1; m < b; m++) {
        const px = node[3 * m] - node[3 * a];
        const py = node[3 * m + 1] - node[3 * a + 1];
        const pz = node[3 * m + 2] - node[3 * a + 2];
        const dot = px * x + py * y + pz * z;
        const along = dot * inverse;
        const miss = missShare(samples, shape, m, px - along * x, py - along * y, pz - along * z);
        if (miss > worst) {
          worst = miss;
          at = m;
        }
      }
      const share = worst < 1e-6 ? 1 : discOverlap(Math.sqrt(worst));
      clear[a * NODES + b] = share;
      clear[b * NODES + a] = share;
      hider[a * NODES + b] = at;
      hider[b * NODES + a] = at;
    }
  }
}

/** Square of how far a chord passes a node's centre over how wide the section is that way. */
function missShare(
  samples: PlateSamples,
  shape: number,
  m: number,
  x: number,
  y: number,
  z: number,
): number {
  const square = x * x + y * y + z * z;
  const section = samples.sections[shape];
  if (section.kind !== 'slot' || square < 1e-12) return square / (width[m] * width[m]);
  // Support of the slot: its bore, and more the nearer the miss lies along its long side.
  const row = shape * samples.stations + station[m];
  const { first } = samples;
  const u = x * first[3 * row] + y * first[3 * row + 1] + z * first[3 * row + 2];
  const share = Math.min(1, Math.sqrt((u * u) / square));
  const wide = samples.bore_mm[row] * (1 + (section.aspect - 1) * share);
  return square / (wide * wide);
}

function fillZones(): void {
  const { first, view, out } = zones;
  first.fill(0);
  view.fill(0);
  const end = NODES - 1;
  for (let j = 0; j < ZONES; j++) {
    const k = j + 1;
    const half = 0.5 * zoneLength(k);
    const near = Math.max(0, unfolded[k] - half);
    pass(first, 0, 0, k, openingToWall(near, unfolded[k] + half));
    const leaves = ringToOpening(unfolded[end] - unfolded[k]);
    const seen = clear[k * NODES + end];
    out[j] = seen * leaves;
    if (seen < 1) view[j * ZONES + hider[k * NODES + end] - 1] += (1 - seen) * leaves;
    view[j * ZONES + j] += 1 - 2 * ringToOpening(half);
    for (let i = 1; i <= ZONES; i++) {
      if (i === k) continue;
      const away = Math.abs(unfolded[i] - unfolded[k]);
      const span = Math.min(away, 0.5 * zoneLength(i));
      pass(view, j * ZONES, k, i, ringToOpening(away - span) - ringToOpening(away + span));
    }
  }
}

/** Length of the zone at a node over its diameter. */
function zoneLength(k: number): number {
  const before = k === 1 ? 2 * (unfolded[1] - unfolded[0]) : unfolded[k] - unfolded[k - 1];
  const after =
    k === ZONES ? 2 * (unfolded[ZONES + 1] - unfolded[ZONES]) : unfolded[k + 1] - unfolded[k];
  return 0.5 * (before + after);
}

/** Adds what node `a` sends to zone node `b`: what a bend hides falls on the wall of the bend. */
function pass(to: Float64Array, row: number, a: number, b: number, share: number): void {
  const seen = clear[a * NODES + b];
  to[row + b - 1] += seen * share;
  if (seen < 1) to[row + hider[a * NODES + b] - 1] += (1 - seen) * share;
}
