/** The end of a run: everything written, the front shown, the way on told. */
import { drawPlate, findDesign } from '../engine/index.ts';
import type { Front, StopReason } from '../engine/index.ts';
import {
  drawFront,
  figure,
  writeDesignFile,
  writeFrontFile,
  writeReport,
} from '../formats/index.ts';
import type { ReportDesign, ReportPicture } from '../formats/index.ts';
import type { RunFolder } from '../store/index.ts';
import { frontPage } from './front-page.ts';
import { markWords, marksOf } from './marks.ts';
import type { FrontMarks } from './marks.ts';
import { FORMS, meshTarget } from './mesh-files.ts';
import { targetOf } from './targets.ts';
import type { Target } from './targets.ts';
import type { Terminal } from './terminal.ts';

/** Sides of a round bore in the meshes a run writes by itself. */
const MESH_SIDES = 24;
const TABLE_ROWS = 20;

export async function finishRun(
  run: RunFolder,
  front: Front,
  why: StopReason,
  withMeshes: boolean,
  terminal: Terminal,
): Promise<void> {
  run.writeFront(front);
  const marks = marksOf(front);
  const shown: ReportDesign[] = [];
  for (const id of markedIds(marks)) {
    const target = targetOf(front, id);
    run.put('designs', `${id}.design.json`, writeDesignFile(target.file));
    const pictures: ReportPicture[] = [];
    if (withMeshes) {
      terminal.progress(`Meshing ${id} ...`);
      pictures.push(await meshAndDraw(run, target, markWords(marks, id), terminal));
    }
    shown.push({ design: findDesign(front, id), mark: markWords(marks, id), pictures });
  }
  const report = writeReportFiles(run, front, marks, shown);
  run.log(`ended: ${why}, ${front.designs.length} designs`);
  run.touch();
  if (terminal.json) {
    terminal.result(writeFrontFile(front).trimEnd());
    return;
  }
  terminal.result(frontPage(front, TABLE_ROWS, terminal));
  terminal.remark('');
  terminal.remark(`Run folder  ${run.path}`);
  if (withMeshes && shown.length > 0) {
    terminal.remark(
      `Meshes      ${run.path}/meshes (${shown.map(({ design }) => design.id).join(', ')}; STL and 3MF)`,
    );
  }
  terminal.remark(`Report      ${report}`);
  if (why !== 'stalled' && why !== 'budget') {
    terminal.remark(`Go on with  anfract evolve --resume ${run.path}`);
  }
}

/** The knee and the best design per objective: what gets meshes and pictures by itself. */
function markedIds(marks: FrontMarks): string[] {
  const ids = [...(marks.knee === null ? [] : [marks.knee]), ...marks.best.map(({ id }) => id)];
  return [...new Set(ids)];
}

/** Writes the meshes and the drawing of a design; tells what the mesh check found. */
async function meshAndDraw(
  run: RunFolder,
  target: Target,
  mark: string,
  terminal: Terminal,
): Promise<ReportPicture> {
  const { files, mesh, report } = await meshTarget(target, FORMS, MESH_SIDES);
  for (const { name, bytes } of files) run.put('meshes', name, bytes);
  for (const fault of report.faults) {
    run.log(`${target.name}: ${fault.message}`);
    terminal.remark(`Mesh of ${target.name}: ${fault.message}`);
  }
  const svg = drawPlate(target.file.design, mesh, target.file.name, [mark]);
  run.put('pictures', `${target.name}.svg`, svg);
  const { genus, volume_mm3 } = report;
  return {
    svg,
    caption: `Design ${target.name}: plan and section, cut from its mesh (${genus} openings, ${figure(volume_mm3)} mm3 of solid).`,
  };
}

/** Writes the picture of the front and the report. @returns path of the report. */
function writeReportFiles(
  run: RunFolder,
  front: Front,
  marks: FrontMarks,
  designs: readonly ReportDesign[],
): string {
  const pictures: ReportPicture[] = [];
  if (front.objectives.length > 1 && front.designs.length > 0) {
    const svg = drawFront(front, marks.knee === null ? {} : { knee: marks.knee });
    run.put('pictures', 'front.svg', svg);
    pictures.push({ svg, caption: 'Every design of the front over its first objectives.' });
  }
  return run.put(null, 'report.html', writeReport({ front, pictures, designs }));
}
