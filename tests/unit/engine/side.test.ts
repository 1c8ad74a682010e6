/** A brief with side exits from end to end: front, meshes, design files read back. */
import { beforeAll, describe, expect, it } from 'vitest';
import {
  checkBrief,
  designOf,
  evolve,
  explainBrief,
  measure,
  plainBrief,
  solid,
} from '../../../src/engine/index.ts';
import type { Brief, Front } from '../../../src/engine/index.ts';
import { readDesign, writeDesignFile } from '../../../src/formats/index.ts';
import { drive, localCrew, quietPorts } from '../../support/local-crew.ts';

/** Invented. */
function sideBrief(): Brief {
  return checkBrief({
    format: 'anfract-brief',
    version: 1,
    name: 'small side exit',
    plate: {
      outline: { kind: 'round', diameter_mm: 50 },
      thickness_mm: { min_mm: 10, max_mm: 14 },
      rim_mm: 2,
    },
    air: {
      route: { kind: 'side', merge: 'any' },
      supply: { kind: 'flow', flow_m3_per_h: 4 },
    },
    goals: {
      objectives: ['pressureDrop_Pa', 'sectorEvenness', 'mass_g'],
      limits: [{ measure: 'supportVolume_mm3', atMost: 0 }],
    },
    routes: {
      sections: ['teardrop'],
      motifs: ['alike'],
      bore_mm: { min: 2.5, max: 6 },
      maxChannels: 40,
    },
    search: { population: 16, generations: 3, seed: 'small side', archive: 8 },
  });
}

let brief: Brief;
let front: Front;
beforeAll(async () => {
  brief = sideBrief();
  ({ front } = await drive(evolve(brief, {}, quietPorts(localCrew(brief)))));
}, 60_000);

describe('a front of plates with side exits', () => {
  it('starts from labelled designs, all of which can be built and print without support', () => {
    expect(front.starts.map((start) => start.label)).toEqual([
      'side bends',
      'fine side bends',
      'two-storey side bends',
      'swept side bends',
      'ring manifold',
    ]);
    expect(front.starts.map((start) => start.failure)).toEqual([null, null, null, null, null]);
    expect(front.starts.filter((start) => start.feasible).length).toBeGreaterThanOrEqual(3);
  });

  it('holds designs that meet every limit', () => {
    expect(front.designs.length).toBeGreaterThan(0);
    const at = front.measures.findIndex((info) => info.id === 'supportVolume_mm3');
    for (const design of front.designs) expect(design.readings[at]).toBe(0);
  });

  it('meshes each design as the solid that it describes', async () => {
    for (const entry of front.designs.slice(0, 2)) {
      const { report } = await solid(entry.id, designOf(front, entry));
      expect(report.faults).toEqual([]);
    }
  });

  it('reads exported designs back with the same measures', () => {
    for (const entry of [front.designs[0], front.designs[front.designs.length - 1]]) {
      const design = designOf(front, entry);
      const text = writeDesignFile({ name: entry.id, brief, design, genes: null });
      const read = readDesign(JSON.parse(text));
      if (!read.ok) throw new Error(read.faults.map((fault) => fault.message).join('\n'));
      expect(measure(read.file.brief, read.file.design).readings).toEqual(
        measure(brief, design).readings,
      );
    }
  });
});

describe('a brief with side exits', () => {
  it('is explained with plain side bends as its yardstick', () => {
    const { plates } = explainBrief(brief);
    expect(plates.length).toBe(3);
    // Wider bores ask for less pressure.
    expect(plates[2].pressureDrop_Pa).toBeLessThan(plates[1].pressureDrop_Pa);
  });

  it('has no baseline of straight holes', () => {
    expect(() => plainBrief(brief)).toThrow(/air\.route\.kind is 'side'/);
  });
});
