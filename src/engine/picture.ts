/** Still pictures of one design, for those who call the engine only. */
import type { Design } from '../design/index.ts';
import { drawDesign, drawIsometric } from '../formats/index.ts';
import { cutAway, drawLines, plateViews } from '../solids/index.ts';
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

/** SVG line drawing of a design in isometric projection, cut open along its busiest row of ports. */
export async function drawCutOpen(design: Design, mesh: Mesh, title: string): Promise<string> {
  const { section, sectionY_mm } = plateViews(design, mesh);
  const half = await cutAway(mesh, sectionY_mm);
  const cut = half === null ? null : { loops: section, y_mm: sectionY_mm };
  return drawIsometric(drawLines(half ?? mesh), cut, title);
}
