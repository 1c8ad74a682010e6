/** Random rows of the example briefs' genomes: what the clearance analysis passes, meshes well. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readBrief } from '../../src/brief/index.ts';
import { sampleDesign } from '../../src/design/index.ts';
import type { Design } from '../../src/design/index.ts';
import { createGenome } from '../../src/genome/index.ts';
import { createAssessment, findMeasure } from '../../src/measures/index.ts';
import { createStream } from '../../src/numeric/index.ts';
import { meshDesign } from '../../src/solids/index.ts';
import { judge, soupOf } from '../support/mesh-reader.ts';

const WANTED = 8;
const MOST_ROWS = 400;

/** The first designs of random rows that overlap nowhere, by the exact clearance. */
function soundDesigns(name: string): Design[] {
  const file = new URL(`../../experiments/${name}/brief.json`, import.meta.url);
  const read = readBrief(JSON.parse(readFileSync(file, 'utf8')));
  if (!read.ok) throw new Error(`${name} is no brief`);
  const overlap = findMeasure('overlapDepth_mm');
  if (overlap === null) throw new Error('no measure of overlap');
  const genome = createGenome(read.brief);
  const random = createStream('mesh', name);
  const { lower, upper, kinds } = genome.space;
  const sound: Design[] = [];
  for (let n = 0; n < MOST_ROWS && sound.length < WANTED; n++) {
    const row = lower.map((low, i) => {
      const share = random.next();
      return kinds[i] === 0
        ? low + (upper[i] - low) * share
        : low + Math.floor((upper[i] - low + 1) * share);
    });
    const decoded = genome.decode(row, 0);
    if (!decoded.ok) continue;
    const { design } = decoded;
    const assessment = createAssessment(read.brief, design, sampleDesign(design, 64), true);
    if (overlap.evaluate(assessment) <= 0) sound.push(design);
  }
  return sound;
}

describe('meshDesign() on random designs', () => {
  for (const name of ['flour-trap', 'light-tight', 'finger-guard']) {
    it(`stitches what the clearance of ${name} passes: closed, whole, of the right genus`, async () => {
      const designs = soundDesigns(name);
      expect(designs.length).toBe(WANTED);
      let stitched = 0;
      for (const design of designs) {
        const { mesh, report } = await meshDesign(design);
        expect(report.isClosed).toBe(true);
        if (report.method === 'boolean') {
          // A pocket right at a port may open into the face; the report then says so.
          expect(report.faults[0]?.message).toContain('breaks through a face');
          continue;
        }
        stitched++;
        expect(report.faults).toEqual([]);
        const verdict = judge(soupOf(mesh));
        expect(verdict).toMatchObject({ badEdges: 0, degenerate: 0, pinched: 0, parts: 1 });
        expect(verdict.genus).toBe(report.expectedGenus);
      }
      expect(stitched).toBeGreaterThanOrEqual(WANTED - 1);
    });
  }
});
