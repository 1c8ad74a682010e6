/** The mesh files of one design. */
import { MESH_FORMS, meshBytes, solid } from '../engine/index.ts';
import type { MeshForm } from '../engine/index.ts';
import type { Target } from './targets.ts';

export const FORMS = MESH_FORMS;
export type { MeshForm };

interface MeshFiles {
  readonly files: readonly { readonly name: string; readonly bytes: Uint8Array }[];
  readonly mesh: Awaited<ReturnType<typeof solid>>['mesh'];
  readonly report: Awaited<ReturnType<typeof solid>>['report'];
}

/** @throws RunError when no solid can be made of the design. */
export async function meshTarget(
  target: Target,
  forms: readonly MeshForm[],
  sides: number,
): Promise<MeshFiles> {
  const { mesh, report } = await solid(target.name, target.file.design, { sides });
  const files = forms.map((form) => ({
    name: `${target.name}.${form}`,
    bytes: meshBytes(mesh, target.file.name, form),
  }));
  return { files, mesh, report };
}
