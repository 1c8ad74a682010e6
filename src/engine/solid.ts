/** Design to mesh, for those who call the engine only. */
import type { Design } from '../design/index.ts';
import { MeshError, meshDesign, withSolids } from '../solids/index.ts';
import type { MeshOptions, MeshedDesign } from '../solids/index.ts';
import { RunError } from '../brief/index.ts';

/**
 * Checked, print-ready mesh of a design.
 * @param name for messages.
 * @throws RunError when no solid can be made of it.
 */
export async function solid(
  name: string,
  design: Design,
  options: MeshOptions = {},
): Promise<MeshedDesign> {
  try {
    return await meshDesign(design, options);
  } catch (error) {
    if (!(error instanceof MeshError)) throw error;
    const remedy = '`anfract measure` shows where channels overlap.';
    throw new RunError('no-solid', name, error.message, remedy, error);
  }
}

/** Loads the mesh kernel from an address, where it cannot find its own parts (bundles for browsers). */
export async function loadSolids(wasmUrl: string): Promise<void> {
  await withSolids({ wasmUrl }, () => undefined);
}
