/** The package's own types read as CommonJS and hide the class its ES module exports by default. */
declare module '@kninnug/constrainautor' {
  interface TriangleNet {
    readonly coords: ArrayLike<number>;
    readonly triangles: Uint32Array;
    readonly halfedges: Int32Array;
    readonly hull: ArrayLike<number>;
  }

  export default class Constrainautor {
    constructor(net: TriangleNet);
    /** Makes an edge between two points, or throws when a fixed edge or a point is in the way. */
    constrainOne(from: number, to: number): number;
  }
}
