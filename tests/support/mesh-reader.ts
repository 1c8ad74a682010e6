/**
 * Second reader of exported meshes: parses the bytes on its own and judges the surface from them.
 * Shares no code with src, so that an export is never judged by the code that wrote it.
 */
import { inflateRawSync } from 'node:zlib';

export interface Soup {
  /** Nine coordinates per triangle. */
  readonly corners: readonly number[];
}

export interface Verdict {
  readonly triangles: number;
  readonly vertices: number;
  readonly edges: number;
  /** Every edge has exactly one triangle on each side, with opposite directions. */
  readonly closed: boolean;
  readonly badEdges: number;
  readonly degenerate: number;
  /** Vertices whose triangles do not form one single fan (pinch points). */
  readonly pinched: number;
  readonly parts: number;
  /** From Euler's formula V - E + F = 2 (parts - genus). */
  readonly genus: number;
  readonly volume_mm3: number;
  readonly low: readonly [number, number, number];
  readonly high: readonly [number, number, number];
}

/** Binary STL by its layout: 80 bytes, count, then 50 bytes per triangle, little-endian. */
export function readStlBytes(bytes: Uint8Array): Soup & { header: string } {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const count = view.getUint32(80, true);
  if (bytes.byteLength !== 84 + 50 * count) throw new Error('length does not match the count');
  const corners: number[] = [];
  for (let t = 0; t < count; t++) {
    for (let k = 0; k < 9; k++) corners.push(view.getFloat32(84 + 50 * t + 12 + 4 * k, true));
  }
  return { corners, header: Buffer.from(bytes.subarray(0, 80)).toString('latin1') };
}

/** Files of a zip archive by its central directory (stored or deflated). */
export function readZipBytes(bytes: Uint8Array): Map<string, { data: Buffer; date: number }> {
  const all = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const end = all.lastIndexOf(Buffer.from([0x50, 0x4b, 5, 6]));
  let at = all.readUInt32LE(end + 16);
  const files = new Map<string, { data: Buffer; date: number }>();
  for (let k = 0; k < all.readUInt16LE(end + 10); k++) {
    const method = all.readUInt16LE(at + 10);
    const size = all.readUInt32LE(at + 20);
    const nameLength = all.readUInt16LE(at + 28);
    const name = all.toString('utf8', at + 46, at + 46 + nameLength);
    const local = all.readUInt32LE(at + 42);
    const start = local + 30 + all.readUInt16LE(local + 26) + all.readUInt16LE(local + 28);
    const raw = all.subarray(start, start + size);
    files.set(name, {
      data: method === 0 ? raw : inflateRawSync(raw),
      date: all.readUInt32LE(at + 12),
    });
    at += 46 + nameLength + all.readUInt16LE(at + 30) + all.readUInt16LE(at + 32);
  }
  return files;
}

/** Triangles of the model part of a 3MF package. */
export function readModelXml(xml: string): Soup & { unit: string } {
  const unit = /<model\b[^>]*\bunit="(\w+)"/.exec(xml)?.[1] ?? 'none';
  const points: number[][] = [];
  for (const [, body] of xml.matchAll(/<vertex\b([^>]*)\/>/g)) {
    points.push(['x', 'y', 'z'].map((axis) => attribute(body, axis)));
  }
  const corners: number[] = [];
  for (const [, body] of xml.matchAll(/<triangle\b([^>]*)\/>/g)) {
    for (const key of ['v1', 'v2', 'v3']) corners.push(...points[attribute(body, key)]);
  }
  return { corners, unit };
}

function attribute(body: string, key: string): number {
  return Number(new RegExp(`\\b${key}="([^"]*)"`).exec(body)?.[1] ?? 'NaN');
}

export function soupOf(mesh: { vertices: Float32Array; triangles: Uint32Array }): Soup {
  const corners: number[] = [];
  for (const v of mesh.triangles) corners.push(...mesh.vertices.subarray(3 * v, 3 * v + 3));
  return { corners };
}

/** Welds equal coordinates and judges the surface. */
export function judge(soup: Soup): Verdict {
  const { corners } = soup;
  const index = new Map<string, number>();
  const position: number[] = [];
  const faces = new Int32Array(corners.length / 3);
  for (let k = 0; k < faces.length; k++) {
    const [x, y, z] = corners.slice(3 * k, 3 * k + 3);
    if (![x, y, z].every(Number.isFinite)) throw new Error(`corner ${k} is not finite`);
    const key = `${x},${y},${z}`;
    let id = index.get(key);
    if (id === undefined) {
      id = index.size;
      index.set(key, id);
      position.push(x, y, z);
    }
    faces[k] = id;
  }
  return { ...judgeFaces(position, faces), ...extent(position) };
}

function judgeFaces(position: readonly number[], faces: Int32Array) {
  const vertices = position.length / 3;
  const uses = new Map<number, number>();
  const parent = Int32Array.from({ length: vertices }, (_, k) => k);
  const find = (k: number): number => {
    while (parent[k] !== k) k = parent[k] = parent[parent[k]];
    return k;
  };
  // fan.get(v * n + from) = to: the link of a vertex must be one cycle.
  const fan = new Map<number, number>();
  const valence = new Int32Array(vertices);
  let degenerate = 0;
  let volume = 0;
  for (let t = 0; t < faces.length; t += 3) {
    const [a, b, c] = faces.subarray(t, t + 3);
    if (a === b || b === c || c === a || doubleArea(position, a, b, c) === 0) degenerate++;
    volume += triple(position, a, b, c) / 6;
    for (const [p, q, r] of [
      [a, b, c],
      [b, c, a],
      [c, a, b],
    ]) {
      uses.set(p * vertices + q, (uses.get(p * vertices + q) ?? 0) + 1);
      parent[find(p)] = find(q);
      fan.set(p * vertices + q, r);
      valence[p]++;
    }
  }
  let badEdges = 0;
  let edges = 0;
  for (const [key, count] of uses) {
    const p = Math.floor(key / vertices);
    const q = key % vertices;
    if (count !== 1 || uses.get(q * vertices + p) !== 1) badEdges++;
    if (p < q || !uses.has(q * vertices + p)) edges++;
  }
  let pinched = 0;
  const start = new Map<number, number>();
  for (const key of fan.keys()) start.set(Math.floor(key / vertices), key % vertices);
  for (const [v, first] of start) {
    let steps = 0;
    let at: number | undefined = first;
    do {
      at = fan.get(v * vertices + (at ?? -1));
      steps++;
    } while (at !== undefined && at !== first && steps <= valence[v]);
    if (steps !== valence[v]) pinched++;
  }
  let parts = 0;
  for (let v = 0; v < vertices; v++) if (find(v) === v) parts++;
  const triangles = faces.length / 3;
  return {
    triangles,
    vertices,
    edges,
    closed: badEdges === 0 && triangles > 0,
    badEdges,
    degenerate,
    pinched,
    parts,
    genus: parts - (vertices - edges + triangles) / 2,
    volume_mm3: volume,
  };
}

function extent(position: readonly number[]) {
  const low: [number, number, number] = [Infinity, Infinity, Infinity];
  const high: [number, number, number] = [-Infinity, -Infinity, -Infinity];
  position.forEach((value, k) => {
    low[k % 3] = Math.min(low[k % 3], value);
    high[k % 3] = Math.max(high[k % 3], value);
  });
  return { low, high };
}

function triple(p: readonly number[], a: number, b: number, c: number): number {
  const [ax, ay, az] = p.slice(3 * a, 3 * a + 3);
  const [bx, by, bz] = p.slice(3 * b, 3 * b + 3);
  const [cx, cy, cz] = p.slice(3 * c, 3 * c + 3);
  return ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx);
}

function doubleArea(p: readonly number[], a: number, b: number, c: number): number {
  const u = [0, 1, 2].map((k) => p[3 * b + k] - p[3 * a + k]);
  const v = [0, 1, 2].map((k) => p[3 * c + k] - p[3 * a + k]);
  return Math.hypot(
    u[1] * v[2] - u[2] * v[1],
    u[2] * v[0] - u[0] * v[2],
    u[0] * v[1] - u[1] * v[0],
  );
}
