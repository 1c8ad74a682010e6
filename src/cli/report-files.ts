/** The report of a run: pictures and numbers of chosen designs in one HTML file. */
import { drawCutOpen, drawPlate, findDesign, portrayDesign } from '../engine/index.ts';
import type { Front } from '../engine/index.ts';
import { drawFront, figure, reportCharts, writeReport } from '../formats/index.ts';
import type { ReportDesign, ReportPicture } from '../formats/index.ts';
import { markWords, marksOf } from './marks.ts';
import { meshTarget } from './mesh-files.ts';
import type { MeshFiles } from './mesh-files.ts';
import { targetOf } from './targets.ts';
import type { Target } from './targets.ts';

/** Sides of a round bore in the meshes that pictures are cut from. */
const PICTURE_SIDES = 24;

/** Everything a report shows of one design. @param meshed its mesh, made when left out. */
export async function reportDesign(
  front: Front,
  id: string,
  meshed: MeshFiles | null = null,
): Promise<ReportDesign> {
  const target = targetOf(front, id);
  const { brief, design } = target.file;
  const mark = markWords(marksOf(front), id);
  const { mesh, report } = meshed ?? (await meshTarget(target, [], PICTURE_SIDES));
  const drawing: ReportPicture = {
    svg: drawPlate(design, mesh, target.file.name, mark === '' ? [] : [mark]),
    caption: `Plan and section, cut from its mesh (genus ${report.genus}, ${figure(report.volume_mm3)} mm3 of solid).`,
  };
  const open: ReportPicture = {
    svg: await drawCutOpen(design, mesh, `${id}, cut open`),
    caption: 'Isometric view, cut open along its busiest row of ports.',
  };
  const charts = reportCharts(id, portrayDesign(brief, design));
  return {
    design: findDesign(front, id),
    mark,
    build: design.plate.build,
    pictures: [drawing, open, ...charts],
  };
}

/** The numbers of a design only. */
export function withoutPictures(front: Front, { name, file }: Target): ReportDesign {
  const mark = markWords(marksOf(front), name);
  const { build } = file.design.plate;
  return { design: findDesign(front, name), mark, build, pictures: [] };
}

/** The picture of a front, or null where it has no two objectives to draw. */
export function frontPicture(front: Front): ReportPicture | null {
  if (front.objectives.length < 2 || front.designs.length === 0) return null;
  const { knee } = marksOf(front);
  const svg = drawFront(front, knee === null ? {} : { knee });
  return { svg, caption: 'Every design of the front over its first objectives.' };
}

/** The whole report as HTML. */
export function reportText(front: Front, designs: readonly ReportDesign[]): string {
  const picture = frontPicture(front);
  return writeReport({ front, pictures: picture === null ? [] : [picture], designs });
}

/** The knee and the best design per objective: what gets meshes and pictures by itself. */
export function markedTargets(front: Front): Target[] {
  const marks = marksOf(front);
  const ids = [...(marks.knee === null ? [] : [marks.knee]), ...marks.best.map(({ id }) => id)];
  return [...new Set(ids)].map((id) => targetOf(front, id));
}
