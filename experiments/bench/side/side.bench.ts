/**
 * Plates with exits in the rim: fast form of one candidate by stage, exact raster, mesh.
 *
 * `npm run bench -- side/side`: processor time, best of interleaved repeats, for 100 side bends that are
 * all different and for a ring manifold of 100 channels. Goal: all fast stages together 200 /s.
 */
import { readBrief } from '../../../src/brief/index.ts';
import { sampleDesign } from '../../../src/design/index.ts';
import type { Design } from '../../../src/design/index.ts';
import { createGenome } from '../../../src/genome/index.ts';
import { createAssessment, findMeasure } from '../../../src/measures/index.ts';
import { rasterPrint } from '../../../src/print/index.ts';
import { meshDesign } from '../../../src/solids/index.ts';

const REPEATS = 15;
/** One measure of each group, so that each group's analysis runs. */
const GROUPS = {
  clearance: ['thinnestWall_mm', 'overlapDepth_mm'],
  flow: ['pressureDrop_Pa', 'sectorEvenness'],
  print: ['supportVolume_mm3', 'weakestSection', 'partCost'],
  openings: ['probeOpening_mm', 'reachMargin_mm', 'openArea'],
  sight: ['sightMargin_mm', 'lightLeak'],
} as const;

const read = readBrief({
  format: 'anfract-brief',
  version: 1,
  plate: {
    outline: { kind: 'rectangle', width_mm: 160, height_mm: 160, cornerRadius_mm: 8 },
    thickness_mm: 24,
  },
  air: {
    route: { kind: 'side', merge: 'any' },
    supply: { kind: 'flow', flow_m3_per_h: 60 },
  },
  routes: {
    sections: ['teardrop'],
    motifs: ['free'],
    bore_mm: { min: 3, max: 6 },
    maxChannels: 140,
  },
});
if (!read.ok) throw new Error(read.faults.map((fault) => fault.message).join('\n'));
const { brief } = read;
const genome = createGenome(brief);

/** A start with genes changed by name. */
function drawn(label: string, changes: Readonly<Record<string, number>>): Design {
  const start = genome.starts.find((entry) => entry.label === label);
  if (start === undefined) throw new Error(`There is no start ${label}.`);
  const row = start.row.slice();
  genome.genes.forEach(({ name, min, max }, i) => {
    const wanted = changes[name] ?? (name.startsWith('own') ? 0.3 * Math.sin(7 * i) : undefined);
    if (wanted !== undefined) row[i] = Math.min(max, Math.max(min, wanted));
  });
  const made = genome.decode(row, 0);
  if (!made.ok) throw new Error(made.reason);
  return made.design;
}

function best(work: () => void): number {
  let least = Infinity;
  for (let n = 0; n < REPEATS; n++) {
    const from = process.cpuUsage().user;
    work();
    least = Math.min(least, process.cpuUsage().user - from);
  }
  return least / 1000;
}

const designs = {
  'side bends': drawn('two-storey side bends', { sideChannels: 100 }),
  'ring manifold': drawn('ring manifold', { sideChannels: 64, plenumExits: 36 }),
};
for (const [name, design] of Object.entries(designs)) {
  const samples = sampleDesign(design, 32);
  console.log(`\n${name}: ${samples.channelCount} channels, ${samples.shapeCount} shapes`);
  let total = best(() => sampleDesign(design, 32));
  console.log(`  ${'sampling'.padEnd(12)} ${total.toFixed(2)} ms`);
  for (const [group, ids] of Object.entries(GROUPS)) {
    const measures = ids.map((id) => findMeasure(id));
    const time = best(() => {
      const assessment = createAssessment(brief, design, samples, false);
      for (const measure of measures) measure?.evaluate(assessment);
    });
    total += time;
    console.log(`  ${group.padEnd(12)} ${time.toFixed(2)} ms`);
  }
  console.log(`  ${'all fast'.padEnd(12)} ${total.toFixed(2)} ms, ${(1000 / total).toFixed(0)} /s`);
  const fine = sampleDesign(design, 64);
  console.log(`  ${'raster'.padEnd(12)} ${best(() => rasterPrint(fine, brief.process)).toFixed(0)} ms`); // prettier-ignore
  const from = process.cpuUsage().user;
  const { report } = await meshDesign(design);
  const mesh = (process.cpuUsage().user - from) / 1000;
  console.log(`  ${'mesh'.padEnd(12)} ${mesh.toFixed(0)} ms, ${report.triangleCount} triangles`);
}
