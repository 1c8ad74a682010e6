/** A flat face of the plate: the area inside one outer ring and outside all other rings, in triangles. */
import Constrainautor from '@kninnug/constrainautor';
import Delaunator from 'delaunator';

/**
 * Rings of a face. Ring r holds the points `ringStart[r]` .. `ringStart[r + 1] - 1` in
 * counter-clockwise order; ring 0 is the outer edge, the others are openings.
 */
interface FaceRings {
  /** [p x 2], x y per row, already rounded to float32 [mm]. */
  readonly points: Float64Array;
  /** [r + 1] */
  readonly ringStart: Int32Array;
}

type FaceTriangles =
  | { readonly kind: 'triangles'; readonly triangles: Uint32Array }
  | { readonly kind: 'failure'; readonly reason: string };

/**
 * Constrained Delaunay triangulation of a face, without adding or moving a point.
 *
 * Which triangles lie in an opening is read from the side of the ring edge they touch and spread
 * from there, never from a centroid, so concave and sliver openings keep their edges. The result is
 * checked against Euler's count t = p + 2 openings - 2; rings that cross, touch or stand inside one
 * another cannot pass it.
 *
 * @returns triangles counter-clockwise seen from +z, three point numbers per row.
 * Source: Sloan 1993, A fast algorithm for generating constrained Delaunay triangulations (by way
 * of the library).
 */
export function triangulateFace(rings: FaceRings): FaceTriangles {
  const { points, ringStart } = rings;
  const next = successors(ringStart);
  const net = new Delaunator(points);
  const refusal = constrain(net, next, ringStart);
  if (refusal !== null) return { kind: 'failure', reason: refusal };
  const kept = flood(net, next, ringStart[1]);
  const openings = ringStart.length - 2;
  const expected = points.length / 2 + 2 * openings - 2;
  if (kept === null || kept.length !== 3 * expected) {
    return { kind: 'failure', reason: 'openings of one face overlap, or leave the outline' };
  }
  return { kind: 'triangles', triangles: kept };
}

/** Point after each point along its ring. */
function successors(ringStart: Int32Array): Int32Array {
  const next = new Int32Array(ringStart[ringStart.length - 1]);
  for (let r = 0; r + 1 < ringStart.length; r++) {
    for (let p = ringStart[r]; p < ringStart[r + 1]; p++) next[p] = p + 1;
    next[ringStart[r + 1] - 1] = ringStart[r];
  }
  return next;
}

/** Forces every ring edge into the net; the reason when one cannot be. */
function constrain(
  net: Delaunator<Float64Array>,
  next: Int32Array,
  ringStart: Int32Array,
): string | null {
  if (net.triangles.length === 0) return 'the outline has no area';
  const forced = new Constrainautor(net);
  try {
    for (let p = 0; p < next.length; p++) forced.constrainOne(p, next[p]);
  } catch (error) {
    // The library throws plain errors for crossing edges, points on edges and doubled points.
    const reason = error instanceof Error ? error.message : String(error);
    return `rings of one face cross or touch (${ringStart.length - 2} openings): ${reason}`;
  }
  return null;
}

/**
 * Triangles reached from the inner side of the outer ring without crossing a ring edge.
 * null when a ring edge is reached from its wrong side.
 */
function flood(
  net: Delaunator<Float64Array>,
  next: Int32Array,
  outerCount: number,
): Uint32Array | null {
  const { triangles, halfedges } = net;
  const seen = new Uint8Array(triangles.length / 3);
  const stack = new Int32Array(triangles.length);
  let depth = 0;
  // Half-edges run clockwise seen from +z, so the triangle lies to their right.
  for (let e = 0; e < triangles.length; e++) {
    const p = triangles[e];
    const q = triangles[e % 3 === 2 ? e - 2 : e + 1];
    const t = Math.floor(e / 3);
    if (next[q] === p && q < outerCount && seen[t] === 0) {
      seen[t] = 1;
      stack[depth++] = t;
    }
  }
  const kept = new Uint32Array(triangles.length);
  let count = 0;
  while (depth > 0) {
    const t = stack[--depth];
    kept[count++] = triangles[3 * t];
    kept[count++] = triangles[3 * t + 2];
    kept[count++] = triangles[3 * t + 1];
    for (let k = 0; k < 3; k++) {
      const e = 3 * t + k;
      const p = triangles[e];
      const q = triangles[k === 2 ? e - 2 : e + 1];
      const isOuter = p < outerCount;
      const forward = next[p] === q;
      const backward = next[q] === p;
      if (forward || backward) {
        if (forward === isOuter) return null;
        continue;
      }
      const twin = halfedges[e];
      if (twin < 0) return null;
      const other = Math.floor(twin / 3);
      if (seen[other] === 1) continue;
      seen[other] = 1;
      stack[depth++] = other;
    }
  }
  return kept.subarray(0, count);
}
