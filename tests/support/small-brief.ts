/** A brief small enough that whole runs take a second; invented. */
import { checkBrief } from '../../src/engine/index.ts';
import type { Brief } from '../../src/engine/index.ts';

export function smallBrief(changes: { generations?: number; seed?: string } = {}): Brief {
  return checkBrief({
    format: 'anfract-brief',
    version: 1,
    name: 'small test plate',
    plate: {
      outline: { kind: 'rectangle', width_mm: 30, height_mm: 24, cornerRadius_mm: 2 },
      thickness_mm: { min_mm: 6, max_mm: 10 },
      rim_mm: 2,
    },
    air: { supply: { kind: 'flow', flow_m3_per_h: 3 } },
    goals: { objectives: ['mass_g', 'finestFeature_mm', 'contoursPerLayer'] },
    routes: { motifs: ['alike', 'mirrored'], maxChannels: 30, bore_mm: { min: 2, max: 6 } },
    search: {
      population: 16,
      generations: changes.generations ?? 8,
      seed: changes.seed ?? 'small',
      archive: 20,
    },
  });
}
