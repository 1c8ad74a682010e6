/** The air inside a plate as a body of its own. */
import type { PlateSamples } from '../design/index.ts';
import { plateBody } from './cutters.ts';
import { withSolids } from './kernel.ts';
import type { KernelOptions } from './kernel.ts';
import type { Mesh } from './mesh.ts';

/**
 * What a part leaves of the plate it is cut from: channels, pockets and plenum between the faces.
 * Mounting holes do not belong to it.
 *
 * @param samples of the part's design, at any number of stations: only the plate is read.
 * @param part closed mesh of the part.
 * @returns closed mesh, or null when the kernel finds no solid or no air.
 */
export async function airBody(
  samples: PlateSamples,
  part: Mesh,
  options: KernelOptions = {},
): Promise<Mesh | null> {
  const body = plateBody(samples);
  if (body === null) return null;
  return withSolids(options, (solids) => solids.difference(body, [part]));
}
