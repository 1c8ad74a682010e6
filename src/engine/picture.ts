/** Still pictures of one design, for those who call the engine only. */
import type { Design } from '../design/index.ts';
import { drawDesign } from '../formats/index.ts';
import { plateViews } from '../solids/index.ts';
import type { Mesh } from '../solids/index.ts';

/**
 * SVG drawing of a design: plan and section, cut from its mesh.
 * @param title for the title block.
 * @param notes further lines there.
 */
export function drawPlate(
  design: Design,
  mesh: Mesh,
  title: string,
  notes: readonly string[],
): string {
  return drawDesign(design, plateViews(design, mesh), { title, notes });
}
