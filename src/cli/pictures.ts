/** The pictures and the report of a finished run. */
import type { Front } from '../engine/index.ts';
import { writeReport } from '../formats/index.ts';
import type { RunFolder } from '../store/index.ts';
import { marksOf } from './front-page.ts';

/** @returns path of the report. */
export function writePictures(run: RunFolder, front: Front, chosen: readonly string[]): string {
  const marks = marksOf(front);
  const designs = front.designs
    .filter((design) => chosen.includes(design.id))
    .map((design) => ({
      design,
      mark: [
        ...(marks.knee === design.id ? ['knee'] : []),
        ...marks.best
          .filter(({ id }) => id === design.id)
          .map(({ objective }) => `best ${objective}`),
      ].join(', '),
      pictures: [],
    }));
  return run.put(null, 'report.html', writeReport({ front, pictures: [], designs }));
}
