/** The end of a run: everything written, the front shown, the way on told. */
import type { Front, StopReason } from '../engine/index.ts';
import { writeDesignFile, writeFrontFile } from '../formats/index.ts';
import type { RunFolder } from '../store/index.ts';
import { frontPage, marksOf } from './front-page.ts';
import { FORMS, meshTarget } from './mesh-files.ts';
import { writePictures } from './pictures.ts';
import { targetOf } from './targets.ts';
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
  const chosen = markedIds(front);
  for (const id of chosen) {
    const target = targetOf(front, id);
    run.put('designs', `${id}.design.json`, writeDesignFile(target.file));
    if (!withMeshes) continue;
    terminal.progress(`Meshing ${id} ...`);
    const { files, report } = await meshTarget(target, FORMS, MESH_SIDES);
    for (const { name, bytes } of files) run.put('meshes', name, bytes);
    for (const fault of report.faults) {
      run.log(`${id}: ${fault.message}`);
      terminal.remark(`Mesh of ${id}: ${fault.message}`);
    }
  }
  const report = writePictures(run, front, chosen);
  run.log(`ended: ${why}, ${front.designs.length} designs`);
  run.touch();
  if (terminal.json) {
    terminal.result(writeFrontFile(front).trimEnd());
    return;
  }
  terminal.result(frontPage(front, TABLE_ROWS, terminal));
  terminal.remark('');
  terminal.remark(`Run folder  ${run.path}`);
  if (withMeshes && chosen.length > 0) {
    terminal.remark(`Meshes      ${run.path}/meshes (${chosen.join(', ')}; STL and 3MF)`);
  }
  terminal.remark(`Report      ${report}`);
  if (why !== 'stalled' && why !== 'budget') {
    terminal.remark(`Go on with  anfract evolve --resume ${run.path}`);
  }
}

/** The knee and the best design per objective: what gets meshes and pictures by itself. */
function markedIds(front: Front): string[] {
  const marks = marksOf(front);
  const ids = [...(marks.knee === null ? [] : [marks.knee]), ...marks.best.map(({ id }) => id)];
  return [...new Set(ids)];
}
