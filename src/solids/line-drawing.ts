/** A solid as a draughtsman draws it: its visible edges in isometric projection. */
import { TOWARD, paintDepth, project } from './depth-picture.ts';
import type { DepthPicture } from './depth-picture.ts';
import type { Mesh } from './mesh.ts';

export interface LineDrawing {
  /** Visible stretches, x1 y1 x2 y2 per row on the sheet [n x 4] [mm]. */
  readonly creases: Float64Array;
  /** The same for outlines of curved walls: edges between a seen and an unseen side. */
  readonly outlines: Float64Array;
}

/** Cells of the depth picture along its longer side. */
const CELLS = 1000;
/** Edges at which the surface turns by more than this are drawn (cosine of 30 degrees). */
const CREASE = 0.866;
/** How far behind the picture an edge may lie and still count as seen [cells]. */
const BIAS = 3;

/**
 * Draws a closed mesh: edges where its surface turns sharply, and the outlines of what bends away,
 * as far as nothing hides them. Hidden lines are found in a depth picture of some thousand cells, so
 * details finer than that may come and go.
 */
export function drawLines(mesh: Mesh): LineDrawing {
  const sheet = project(mesh);
  const picture = paintDepth(mesh, sheet, CELLS);
  const creases: number[] = [];
  const outlines: number[] = [];
  const normals = faceNormals(mesh);
  const count = mesh.vertices.length / 3;
  const firstFace = new Map<number, number>();
  for (let k = 0; k < mesh.triangles.length; k++) {
    const a = mesh.triangles[k];
    const b = mesh.triangles[k % 3 === 2 ? k - 2 : k + 1];
    const key = Math.min(a, b) * count + Math.max(a, b);
    const face = Math.floor(k / 3);
    const other = firstFace.get(key);
    if (other === undefined) {
      firstFace.set(key, face);
      continue;
    }
    firstFace.delete(key);
    const seen = facing(normals, face) > 0;
    const otherSeen = facing(normals, other) > 0;
    if (!seen && !otherSeen) continue;
    if (dot(normals, face, other) < CREASE) addVisible(sheet, picture, a, b, creases);
    else if (seen !== otherSeen) addVisible(sheet, picture, a, b, outlines);
  }
  return { creases: Float64Array.from(creases), outlines: Float64Array.from(outlines) };
}

/** Adds the stretches of an edge that nothing hides. */
function addVisible(
  sheet: Float64Array,
  picture: DepthPicture,
  a: number,
  b: number,
  out: number[],
): void {
  const [ax, ay, ad] = sheet.subarray(3 * a, 3 * a + 3);
  const [bx, by, bd] = sheet.subarray(3 * b, 3 * b + 3);
  const steps = Math.max(
    1,
    Math.ceil(Math.max(Math.abs(bx - ax), Math.abs(by - ay)) / picture.cell),
  );
  let from = -1;
  for (let k = 0; k <= steps; k++) {
    const s = (k + 0.5) / (steps + 1);
    const seen = isSeen(picture, ax + s * (bx - ax), ay + s * (by - ay), ad + s * (bd - ad));
    if (seen && from < 0) from = k;
    if (from >= 0 && (!seen || k === steps)) {
      const end = seen ? k + 1 : k;
      const s0 = from / (steps + 1);
      const s1 = end / (steps + 1);
      out.push(ax + s0 * (bx - ax), ay + s0 * (by - ay), ax + s1 * (bx - ax), ay + s1 * (by - ay));
      from = -1;
    }
  }
}

/** A point is seen when it is not behind all of the nine cells about it. */
function isSeen(picture: DepthPicture, x: number, y: number, d: number): boolean {
  const i = Math.floor((x - picture.x0) / picture.cell);
  const j = Math.floor((y - picture.y0) / picture.cell);
  const limit = d + BIAS * picture.cell;
  for (let dj = -1; dj <= 1; dj++) {
    for (let di = -1; di <= 1; di++) {
      const column = i + di;
      const row = j + dj;
      if (column < 0 || row < 0 || column >= picture.width || row >= picture.height) return true;
      if (picture.depth[row * picture.width + column] <= limit) return true;
    }
  }
  return false;
}

/** Unit normals; 0 0 0 for a triangle without area [t x 3]. */
function faceNormals({ vertices, triangles }: Mesh): Float64Array {
  const normals = new Float64Array(triangles.length);
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => 3 * triangles[t + k]);
    const [bx, by, bz] = [0, 1, 2].map((k) => vertices[b + k] - vertices[a + k]);
    const [cx, cy, cz] = [0, 1, 2].map((k) => vertices[c + k] - vertices[a + k]);
    const x = by * cz - bz * cy;
    const y = bz * cx - bx * cz;
    const z = bx * cy - by * cx;
    const length = Math.sqrt(x * x + y * y + z * z);
    if (length > 0) normals.set([x / length, y / length, z / length], t);
  }
  return normals;
}

function dot(normals: Float64Array, f: number, g: number): number {
  return (
    normals[3 * f] * normals[3 * g] +
    normals[3 * f + 1] * normals[3 * g + 1] +
    normals[3 * f + 2] * normals[3 * g + 2]
  );
}

function facing(normals: Float64Array, f: number): number {
  return (
    normals[3 * f] * TOWARD[0] + normals[3 * f + 1] * TOWARD[1] + normals[3 * f + 2] * TOWARD[2]
  );
}
