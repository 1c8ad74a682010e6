/** The plenum as a closed body to be cut out of the plate. */
import { plenumSection } from '../design/index.ts';
import type { Plenum } from '../design/index.ts';
import { cos, sin } from '../numeric/index.ts';
import type { Mesh } from './mesh.ts';

/** Steps around; enough that chords stray by 0.02 mm at a radius of 40 mm. */
const SIDES = 96;

/**
 * Surface of the plenum, turned about the plate's z axis. Each ring is a polygon of its circle's
 * area, so that every flat cut holds the true area.
 */
export function plenumBody(plenum: Plenum): Mesh {
  const isRing = plenum.innerRadius_mm > 0;
  const profile = isRing ? ringProfile(plenum) : discProfile(plenum);
  const step = (2 * Math.PI) / SIDES;
  const grown = Math.sqrt(step / sin(step));
  const vertices: number[] = [];
  // First vertex of each profile point; a point on the axis has one, others have a ring.
  const first: number[] = [];
  for (const [r, z] of profile) {
    first.push(vertices.length / 3);
    const count = r > 0 ? SIDES : 1;
    for (let k = 0; k < count; k++) {
      vertices.push(grown * r * cos(step * k), grown * r * sin(step * k), z);
    }
  }
  const triangles: number[] = [];
  const bands = isRing ? profile.length : profile.length - 1;
  for (let i = 0; i < bands; i++) {
    const j = (i + 1) % profile.length;
    for (let k = 0; k < SIDES; k++) {
      const next = (k + 1) % SIDES;
      const a = first[i] + (profile[i][0] > 0 ? k : 0);
      const b = first[i] + (profile[i][0] > 0 ? next : 0);
      const c = first[j] + (profile[j][0] > 0 ? k : 0);
      const d = first[j] + (profile[j][0] > 0 ? next : 0);
      if (a !== b) triangles.push(a, b, c);
      if (c !== d) triangles.push(b, d, c);
    }
  }
  return { vertices: Float32Array.from(vertices), triangles: Uint32Array.from(triangles) };
}

function ringProfile(plenum: Plenum): [number, number][] {
  const section = plenumSection(plenum);
  return Array.from({ length: section.length / 2 }, (_, i) => [section[2 * i], section[2 * i + 1]]);
}

/** The right half of a disc's section, from the axis to the axis. */
function discProfile(plenum: Plenum): [number, number][] {
  const right = ringProfile(plenum).filter(([r]) => r > 1e-9);
  return [[0, plenum.floor_mm], ...right, [0, plenum.top_mm]];
}
