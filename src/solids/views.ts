/** Views of a plate for drawings: what planes cut out of its mesh. */
import { cutMesh } from './cut.ts';
import type { Mesh } from './mesh.ts';
import type { Design } from '../design/index.ts';

/** Closed loops; each is x y per point [mm]. The solid lies to the left of every loop. */
export type Loops = readonly Float64Array[];

export interface PlateViews {
  /** Cuts just inside the two faces, seen from +z: outline, holes and ports. */
  readonly inlet: Loops;
  readonly outlet: Loops;
  /** Cut along y = `sectionY_mm`: x to the right, z upwards. */
  readonly section: Loops;
  readonly sectionY_mm: number;
  /** Cut at the height at which most channels leave through the rim; empty where none does. */
  readonly inside: Loops;
  readonly insideZ_mm: number;
}

/** Depth of the plan cuts below the faces, as a share of the thickness. */
const SKIN = 1e-3;
/** Sections are cut a hair beside their y: ports on a lattice have vertices exactly on it [mm]. */
const ASIDE_MM = 7.37e-4;

/**
 * Cuts a plate for its drawing.
 *
 * @param y_mm where to cut; by default the y of the inlet ports that most ports share, which is
 * where most channels are cut along; the middle of a plate with exits in the rim.
 */
export function plateViews(design: Design, mesh: Mesh, y_mm?: number): PlateViews {
  const t = design.plate.thickness_mm;
  const { start, segments } = cutMesh(mesh, Float64Array.of(SKIN * t, (1 - SKIN) * t));
  const insideZ_mm = busiestHeight(design);
  // Side exits lead away from the middle: the cut through it runs along some of them.
  const sectionY_mm = y_mm ?? (insideZ_mm === null ? busiestRow(design) : 0);
  // Exchanging y and z mirrors the mesh; exchanging two corners turns its triangles back outward.
  const turned = {
    vertices: mesh.vertices.map((_, k, all) =>
      k % 3 === 0 ? all[k] : all[k % 3 === 1 ? k + 1 : k - 1],
    ),
    triangles: mesh.triangles.map((_, k, all) =>
      k % 3 === 0 ? all[k] : all[k % 3 === 1 ? k + 1 : k - 1],
    ),
  };
  return {
    inlet: joinLoops(segments.subarray(0, 4 * start[1])),
    outlet: joinLoops(segments.subarray(4 * start[1])),
    section: joinLoops(cutMesh(turned, Float64Array.of(sectionY_mm + ASIDE_MM)).segments),
    sectionY_mm,
    inside:
      insideZ_mm === null
        ? []
        : joinLoops(cutMesh(mesh, Float64Array.of(insideZ_mm + ASIDE_MM)).segments),
    insideZ_mm: insideZ_mm ?? 0,
  };
}

/** Height at which most channels open in the rim, to half a millimetre; null where none does. */
function busiestHeight(design: Design): number | null {
  const heights = new Map<number, number>();
  for (const { points_mm, placements, inlet, outlet } of design.channels) {
    for (const [end, point] of [
      [inlet, points_mm[0]],
      [outlet, points_mm[points_mm.length - 1]],
    ] as const) {
      if (end !== 'rim') continue;
      const z = Math.round(2 * point[2]) / 2;
      heights.set(z, (heights.get(z) ?? 0) + placements.length);
    }
  }
  let best: number | null = null;
  let most = 0;
  for (const [z, count] of [...heights].toSorted((a, b) => a[0] - b[0])) {
    if (count > most) [best, most] = [z, count];
  }
  return best;
}

function busiestRow(design: Design): number {
  const rows = new Map<number, number>();
  for (const channel of design.channels) {
    for (const placement of channel.placements) {
      const y = Math.round(2 * placement.y_mm) / 2;
      rows.set(y, (rows.get(y) ?? 0) + 1);
    }
  }
  let best = 0;
  let most = 0;
  for (const [y, count] of [...rows].toSorted(
    (a, b) => Math.abs(a[0]) - Math.abs(b[0]) || a[0] - b[0],
  )) {
    if (count > most) {
      best = y;
      most = count;
    }
  }
  return best;
}

function key(x: number, y: number): string {
  return `${x} ${y}`;
}

/** Chains edges that share their ends to the last bit; an open chain is left as it is. */
function joinLoops(segments: Float64Array): Float64Array[] {
  const count = segments.length / 4;
  const byStart = new Map<string, number[]>();
  for (let e = 0; e < count; e++) {
    const at = key(segments[4 * e], segments[4 * e + 1]);
    const others = byStart.get(at);
    if (others === undefined) byStart.set(at, [e]);
    else others.push(e);
  }
  const used = new Uint8Array(count);
  const loops: Float64Array[] = [];
  for (let first = 0; first < count; first++) {
    if (used[first] === 1) continue;
    const points: number[] = [];
    let e: number | undefined = first;
    while (e !== undefined && used[e] === 0) {
      used[e] = 1;
      points.push(segments[4 * e], segments[4 * e + 1]);
      const next: readonly number[] =
        byStart.get(key(segments[4 * e + 2], segments[4 * e + 3])) ?? [];
      e = next.find((other) => used[other] === 0);
    }
    if (points.length >= 6) loops.push(Float64Array.from(points));
  }
  return loops;
}
