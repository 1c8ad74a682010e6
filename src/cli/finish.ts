/** The end of a run: everything written, the front shown, the way on told. */
import {
  frontPicture,
  markedIds,
  reportDesign,
  reportText,
  withoutPictures,
} from '../engine/index.ts';
import type { Front, ReportDesign, StopReason } from '../engine/index.ts';
import { writeDesignFile, writeFrontFile } from '../formats/index.ts';
import type { RunFolder } from '../store/index.ts';
import { frontPage } from './front-page.ts';
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
  const shown: ReportDesign[] = [];
  for (const id of markedIds(front)) {
    const target = targetOf(front, id);
    run.put('designs', `${target.name}.design.json`, writeDesignFile(target.file));
    shown.push(
      withMeshes ? await meshAndPortray(run, front, target, terminal) : withoutPictures(front, id),
    );
  }
  const picture = frontPicture(front);
  if (picture !== null) run.put('pictures', 'front.svg', picture.svg);
  const report = run.put(null, 'report.html', reportText(front, shown));
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

/** Writes the meshes and pictures of a design; tells what the mesh check found. */
async function meshAndPortray(
  run: RunFolder,
  front: Front,
  target: Target,
  terminal: Terminal,
): Promise<ReportDesign> {
  terminal.progress(`Meshing ${target.name} ...`);
  const meshed = await meshTarget(target, FORMS, MESH_SIDES);
  for (const { name, bytes } of meshed.files) run.put('meshes', name, bytes);
  for (const fault of meshed.report.faults) {
    run.log(`${target.name}: ${fault.message}`);
    terminal.remark(`Mesh of ${target.name}: ${fault.message}`);
  }
  terminal.progress(`Drawing ${target.name} ...`);
  const shown = await reportDesign(front, target.name, meshed);
  const [drawing, open] = shown.pictures;
  run.put('pictures', `${target.name}.svg`, drawing.svg);
  run.put('pictures', `${target.name}-open.svg`, open.svg);
  return shown;
}
