/** The mesh kernel: the only file that touches manifold-3d. */
import type { Manifold, ManifoldToplevel } from 'manifold-3d';
import type { Mesh } from './mesh.ts';

export interface KernelOptions {
  /** Address of manifold.wasm, where the loader cannot find it by itself (bundles for browsers). */
  readonly wasmUrl?: string;
}

let loading: Promise<ManifoldToplevel> | null = null;

/**
 * Loads the kernel once; later calls share it, whatever their options.
 * A failed load is forgotten, so that the next call may try again.
 */
async function loadKernel(options: KernelOptions): Promise<ManifoldToplevel> {
  loading ??= start(options).catch((error: unknown) => {
    loading = null;
    throw error;
  });
  return loading;
}

async function start(options: KernelOptions): Promise<ManifoldToplevel> {
  const { wasmUrl } = options;
  // Loaded on demand: most questions to a worker need no mesh.
  const { default: createKernel } = await import('manifold-3d');
  // The loader takes an Emscripten module; its typing names the one field we need as required.
  const kernel = await (wasmUrl === undefined
    ? createKernel()
    : createKernel({ locateFile: () => wasmUrl }));
  kernel.setup();
  return kernel;
}

/** What the kernel finds in a mesh, in its own words. */
export interface SolidFacts {
  /** 'NoError', or the kernel's reason why this is no solid; the other fields are then 0. */
  readonly status: string;
  readonly parts: number;
  /** Sum over all shells of the surface. */
  readonly genus: number;
  readonly volume_mm3: number;
  readonly area_mm2: number;
}

export interface Solids {
  /** Judges a mesh. */
  inspect(mesh: Mesh): SolidFacts;
  /** First mesh minus all others; null when one of them is no solid. */
  difference(body: Mesh, cutters: readonly Mesh[]): Mesh | null;
}

/**
 * Runs work with the kernel and frees every solid it made, also when the work throws: kernel memory
 * is not collected, and never shrinks.
 */
export async function withSolids<T>(
  options: KernelOptions,
  work: (solids: Solids) => T,
): Promise<T> {
  const kernel = await loadKernel(options);
  const made: { delete(): void }[] = [];
  const keep = <H extends { delete(): void }>(handle: H): H => {
    made.push(handle);
    return handle;
  };
  try {
    return work({
      inspect: (mesh) => inspect(kernel, keep, mesh),
      difference: (body, cutters) => difference(kernel, keep, body, cutters),
    });
  } finally {
    for (const handle of made) handle.delete();
  }
}

type Keep = <H extends { delete(): void }>(handle: H) => H;

/** The solid of a mesh, or the kernel's code for why it is none. */
function solidOf(kernel: ManifoldToplevel, keep: Keep, mesh: Mesh): Manifold | string {
  const input = new kernel.Mesh({
    numProp: 3,
    vertProperties: mesh.vertices,
    triVerts: mesh.triangles,
  });
  try {
    const solid = keep(kernel.Manifold.ofMesh(input));
    const status = solid.status();
    return status === 'NoError' ? solid : status;
  } catch (error) {
    // The kernel throws for input that is no manifold, with its status as `code`.
    if (error instanceof Error && 'code' in error) return String(error.code);
    throw error;
  }
}

function inspect(kernel: ManifoldToplevel, keep: Keep, mesh: Mesh): SolidFacts {
  const solid = solidOf(kernel, keep, mesh);
  if (typeof solid === 'string') {
    return { status: solid, parts: 0, genus: 0, volume_mm3: 0, area_mm2: 0 };
  }
  const parts = solid.decompose().map(keep).length;
  return {
    status: 'NoError',
    parts,
    genus: solid.genus(),
    volume_mm3: solid.volume(),
    area_mm2: solid.surfaceArea(),
  };
}

function difference(
  kernel: ManifoldToplevel,
  keep: Keep,
  body: Mesh,
  cutters: readonly Mesh[],
): Mesh | null {
  const solids: Manifold[] = [];
  for (const mesh of [body, ...cutters]) {
    const solid = solidOf(kernel, keep, mesh);
    if (typeof solid === 'string') return null;
    solids.push(solid);
  }
  const result = keep(kernel.Manifold.difference(solids));
  if (result.status() !== 'NoError' || result.isEmpty()) return null;
  const { vertProperties, triVerts, numProp } = result.getMesh();
  if (numProp !== 3) throw new Error(`The kernel returned ${numProp} values per vertex, not 3.`);
  return { vertices: vertProperties.slice(), triangles: triVerts.slice() };
}
