/** A solid as a draughtsman draws it: its visible edges in isometric projection. */
import type { Mesh } from './mesh.ts';

/**
 * Isometric projection from the right, the front (-y) and above: unit vectors on the sheet to the
 * right and up, and from the solid towards the eye.
 */
const RIGHT = [Math.SQRT1_2, Math.SQRT1_2, 0] as const;
const UP = [-1 / Math.sqrt(6), 1 / Math.sqrt(6), 2 / Math.sqrt(6)] as const;
const TOWARD = [1 / Math.sqrt(3), -1 / Math.sqrt(3), 1 / Math.sqrt(3)] as const;

/** Where a point stands on the sheet: right and up [mm]. */
export function isometric(x: number, y: number, z: number): readonly [number, number] {
  return [RIGHT[0] * x + RIGHT[1] * y + RIGHT[2] * z, UP[0] * x + UP[1] * y + UP[2] * z];
}

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
  const picture = paintDepth(mesh, sheet);
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

/** Right, up and depth of each vertex [v x 3] [mm]. */
function project({ vertices }: Mesh): Float64Array {
  const sheet = new Float64Array(vertices.length);
  for (let k = 0; k < vertices.length; k += 3) {
    const x = vertices[k];
    const y = vertices[k + 1];
    const z = vertices[k + 2];
    [sheet[k], sheet[k + 1]] = isometric(x, y, z);
    sheet[k + 2] = TOWARD[0] * x + TOWARD[1] * y + TOWARD[2] * z;
  }
  return sheet;
}

interface DepthPicture {
  readonly width: number;
  readonly height: number;
  readonly x0: number;
  readonly y0: number;
  /** Size of a cell [mm]. */
  readonly cell: number;
  /** Depth of the nearest surface, -infinity where there is none [height x width]. */
  readonly depth: Float64Array;
}

function paintDepth(mesh: Mesh, sheet: Float64Array): DepthPicture {
  let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity];
  for (let k = 0; k < sheet.length; k += 3) {
    minX = Math.min(minX, sheet[k]);
    maxX = Math.max(maxX, sheet[k]);
    minY = Math.min(minY, sheet[k + 1]);
    maxY = Math.max(maxY, sheet[k + 1]);
  }
  const cell = Math.max(maxX - minX, maxY - minY, 1e-6) / CELLS;
  const width = Math.ceil((maxX - minX) / cell) + 3;
  const height = Math.ceil((maxY - minY) / cell) + 3;
  const depth = new Float64Array(width * height).fill(Number.NEGATIVE_INFINITY);
  const picture = { width, height, x0: minX - cell, y0: minY - cell, cell, depth };
  for (let t = 0; t < mesh.triangles.length; t += 3) paintTriangle(picture, mesh, sheet, t);
  return picture;
}

/** Paints a triangle that faces the eye, by the cells' middles. */
function paintTriangle(picture: DepthPicture, mesh: Mesh, sheet: Float64Array, t: number): void {
  const { width, height, x0, y0, cell, depth } = picture;
  const [a, b, c] = [0, 1, 2].map((k) => 3 * mesh.triangles[t + k]);
  const [ax, ay, ad] = [sheet[a], sheet[a + 1], sheet[a + 2]];
  const [bx, by] = [sheet[b] - ax, sheet[b + 1] - ay];
  const [cx, cy] = [sheet[c] - ax, sheet[c + 1] - ay];
  const area = bx * cy - by * cx;
  if (!(area > 0)) return;
  const bd = sheet[b + 2] - ad;
  const cd = sheet[c + 2] - ad;
  const left = Math.max(0, Math.ceil((ax + Math.min(0, bx, cx) - x0) / cell - 0.5));
  const right = Math.min(width - 1, Math.floor((ax + Math.max(0, bx, cx) - x0) / cell - 0.5));
  const low = Math.max(0, Math.ceil((ay + Math.min(0, by, cy) - y0) / cell - 0.5));
  const high = Math.min(height - 1, Math.floor((ay + Math.max(0, by, cy) - y0) / cell - 0.5));
  for (let j = low; j <= high; j++) {
    const y = y0 + (j + 0.5) * cell - ay;
    for (let i = left; i <= right; i++) {
      const x = x0 + (i + 0.5) * cell - ax;
      const u = (x * cy - y * cx) / area;
      const v = (y * bx - x * by) / area;
      if (u < 0 || v < 0 || u + v > 1) continue;
      const here = ad + u * bd + v * cd;
      if (here > depth[j * width + i]) depth[j * width + i] = here;
    }
  }
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
