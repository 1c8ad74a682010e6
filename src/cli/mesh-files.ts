/** The mesh files of one design. */
import { VERSION, solid } from '../engine/index.ts';
import { writeStl, writeThreeMf } from '../formats/index.ts';
import type { Target } from './targets.ts';

export const FORMS = ['stl', '3mf'] as const;
export type MeshForm = (typeof FORMS)[number];

export interface MeshFiles {
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
  const title = target.file.name;
  const text = {
    name: title,
    description: `Vent plate made by anfract ${VERSION}; lengths in mm.`,
  };
  const files = forms.map((form) => ({
    name: `${target.name}.${form}`,
    bytes: form === 'stl' ? writeStl(mesh, title) : writeThreeMf(mesh, text),
  }));
  return { files, mesh, report };
}
