/** Files of one design, for those who call the engine only: terminal and page get the same bytes. */
import type { Brief } from '../brief/index.ts';
import type { Design } from '../design/index.ts';
import { writeDesignFile, writeGreyPng, writeStl, writeThreeMf } from '../formats/index.ts';
import { shadeMesh } from '../solids/index.ts';
import type { Mesh } from '../solids/index.ts';
import { VERSION } from './version.ts';

/** Forms of mesh files. */
export const MESH_FORMS = ['stl', '3mf'] as const;
export type MeshForm = (typeof MESH_FORMS)[number];

/** Side of the picture in a 3MF file [pixels]. */
const THUMBNAIL = 256;

/** A mesh as a file. @param title of the part, written into it. */
export function meshBytes(mesh: Mesh, title: string, form: MeshForm): Uint8Array {
  if (form === 'stl') return writeStl(mesh, title);
  return writeThreeMf(mesh, {
    name: title,
    description: `Vent plate made by anfract ${VERSION}; lengths in mm.`,
    thumbnail: writeGreyPng(shadeMesh(mesh, THUMBNAIL), THUMBNAIL, THUMBNAIL),
  });
}

/** A design file. @param genes by name; null for a design made by hand. */
export function designText(
  title: string,
  brief: Brief,
  design: Design,
  genes: Readonly<Record<string, number>> | null,
): string {
  return writeDesignFile({ name: title, brief, design, genes });
}
