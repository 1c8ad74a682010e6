/** Binary STL: out with full single precision, and back in. */
import type { Mesh } from '../solids/index.ts';

const HEADER_BYTES = 80;
const TRIANGLE_BYTES = 50;

/**
 * Binary STL of a mesh.
 *
 * STL has no field for a unit; the 80-byte header says "unit mm" in words, and does not begin with
 * "solid", which readers take for the text form. Coordinates keep all 24 bits: rounding them to
 * two or three decimals makes degenerate triangles where walls are fine.
 *
 * @param mesh closed mesh [mm].
 * @param name put into the header; characters outside printable ASCII become '?'.
 * @returns 84 + 50 t bytes for t triangles.
 * Source: binary STL as in common use (from memory; there is no formal standard).
 */
export function writeStl(mesh: Mesh, name: string): Uint8Array {
  const { vertices, triangles } = mesh;
  const count = triangles.length / 3;
  const bytes = new Uint8Array(HEADER_BYTES + 4 + TRIANGLE_BYTES * count);
  const view = new DataView(bytes.buffer);
  const header = `anfract binary STL, unit mm: ${name}`;
  for (let k = 0; k < HEADER_BYTES; k++) bytes[k] = printable(header.charCodeAt(k));
  view.setUint32(HEADER_BYTES, count, true);
  for (let t = 0; t < count; t++) {
    const a = 3 * triangles[3 * t];
    const b = 3 * triangles[3 * t + 1];
    const c = 3 * triangles[3 * t + 2];
    const at = HEADER_BYTES + 4 + TRIANGLE_BYTES * t;
    writeNormal(view, at, vertices, a, b, c);
    for (let k = 0; k < 3; k++) {
      view.setFloat32(at + 12 + 4 * k, vertices[a + k], true);
      view.setFloat32(at + 24 + 4 * k, vertices[b + k], true);
      view.setFloat32(at + 36 + 4 * k, vertices[c + k], true);
    }
  }
  return bytes;
}

function printable(code: number): number {
  if (Number.isNaN(code)) return 0x20;
  return code >= 0x20 && code < 0x7f ? code : 0x3f;
}

function writeNormal(
  view: DataView,
  at: number,
  v: Float32Array,
  a: number,
  b: number,
  c: number,
): void {
  const [ux, uy, uz] = [v[b] - v[a], v[b + 1] - v[a + 1], v[b + 2] - v[a + 2]];
  const [wx, wy, wz] = [v[c] - v[a], v[c + 1] - v[a + 1], v[c + 2] - v[a + 2]];
  const nx = uy * wz - uz * wy;
  const ny = uz * wx - ux * wz;
  const nz = ux * wy - uy * wx;
  const length = Math.sqrt(nx * nx + ny * ny + nz * nz);
  const scale = length > 0 ? 1 / length : 0;
  view.setFloat32(at, nx * scale, true);
  view.setFloat32(at + 4, ny * scale, true);
  view.setFloat32(at + 8, nz * scale, true);
}

/**
 * Mesh from binary STL bytes. Corners with the same coordinates become one vertex, numbered in the
 * order in which they first appear.
 *
 * @param bytes the whole file.
 * @returns the mesh, coordinates as written (STL states no unit; anfract writes mm).
 * @throws SyntaxError when the length does not fit the triangle count, or a coordinate is not finite.
 */
export function readStl(bytes: Uint8Array): Mesh {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes.byteLength < HEADER_BYTES + 4) {
    throw new SyntaxError(
      `STL file has ${bytes.byteLength} bytes; a binary STL has at least ${HEADER_BYTES + 4}.`,
    );
  }
  const count = view.getUint32(HEADER_BYTES, true);
  const expected = HEADER_BYTES + 4 + TRIANGLE_BYTES * count;
  if (bytes.byteLength !== expected) {
    throw new SyntaxError(
      `STL file has ${bytes.byteLength} bytes but states ${count} triangles, which take ${expected}. ` +
        'It is cut short or is a text STL; only the binary form is read.',
    );
  }
  return weld(view, count);
}

function weld(view: DataView, count: number): Mesh {
  const triangles = new Uint32Array(3 * count);
  const found = new VertexTable(3 * count);
  for (let k = 0; k < 3 * count; k++) {
    const at = HEADER_BYTES + 4 + TRIANGLE_BYTES * Math.floor(k / 3) + 12 + 12 * (k % 3);
    const x = view.getFloat32(at, true);
    const y = view.getFloat32(at + 4, true);
    const z = view.getFloat32(at + 8, true);
    if (!Number.isFinite(x + y + z)) {
      throw new SyntaxError(
        `STL triangle ${Math.floor(k / 3)} has a coordinate that is not finite.`,
      );
    }
    triangles[k] = found.add(x, y, z);
  }
  return { vertices: found.vertices.slice(0, 3 * found.count), triangles };
}

/** Open-addressed table from coordinates to vertex numbers; strings as keys took seven times as long. */
class VertexTable {
  readonly vertices: Float32Array;
  count = 0;
  readonly #slots: Int32Array;
  readonly #mask: number;
  readonly #bits = new Int32Array(3);
  readonly #floats = new Float32Array(this.#bits.buffer);

  constructor(capacity: number) {
    this.vertices = new Float32Array(3 * capacity);
    let size = 16;
    while (size < 2 * capacity) size *= 2;
    this.#slots = new Int32Array(size).fill(-1);
    this.#mask = size - 1;
  }

  add(x: number, y: number, z: number): number {
    const [floats, bits, v] = [this.#floats, this.#bits, this.vertices];
    // Adding zero turns -0 into 0, so that both hash alike.
    floats[0] = x + 0;
    floats[1] = y + 0;
    floats[2] = z + 0;
    let hash = Math.imul(bits[0], 0x9e3779b1) ^ Math.imul(bits[1], 0x85ebca6b);
    hash ^= Math.imul(bits[2], 0xc2b2ae35);
    hash = Math.imul(hash ^ (hash >>> 15), 0x2c1b3c6d);
    let slot = (hash ^ (hash >>> 13)) & this.#mask;
    for (;;) {
      const id = this.#slots[slot];
      if (id < 0) break;
      if (v[3 * id] === x && v[3 * id + 1] === y && v[3 * id + 2] === z) return id;
      slot = (slot + 1) & this.#mask;
    }
    this.#slots[slot] = this.count;
    v.set(floats, 3 * this.count);
    return this.count++;
  }
}
