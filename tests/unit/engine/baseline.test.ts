import { beforeAll, describe, expect, it } from 'vitest';
import {
  compareWithBaseline,
  evolve,
  measure,
  plainBrief,
  sweepBaseline,
} from '../../../src/engine/index.ts';
import type { Baseline } from '../../../src/engine/index.ts';
import { drive, localCrew, quietPorts } from '../../support/local-crew.ts';
import { smallBrief } from '../../support/small-brief.ts';

const brief = smallBrief({ generations: 2 });
let baseline: Baseline;
beforeAll(async () => {
  baseline = await sweepBaseline(brief, localCrew(plainBrief(brief)));
});

describe('sweepBaseline()', () => {
  it('draws straight holes, slots and tilted slots and nothing else', () => {
    expect(baseline.families.map(({ family }) => family)).toEqual([
      'straight holes',
      'slots',
      'tilted slots',
    ]);
    for (const { family, plates } of baseline.families) {
      for (const { design } of plates) {
        for (const channel of design.channels) {
          const [inlet, outlet] = channel.points_mm;
          expect(channel.points_mm).toHaveLength(2);
          expect(channel.section.kind).toBe(family === 'straight holes' ? 'round' : 'slot');
          const isStraight = inlet[0] === outlet[0] && inlet[1] === outlet[1];
          expect(isStraight).toBe(family !== 'tilted slots');
        }
      }
    }
  });

  it('scores each plate as `measure` does', () => {
    const { plates } = baseline.families[0];
    expect(plates.length).toBeGreaterThan(0);
    for (const plate of plates) {
      expect(measure(brief, plate.design).readings).toEqual(plate.readings);
    }
  });

  it('keeps in each family only plates that meet the limits and beat each other somewhere', () => {
    const at = baseline.objectives.map((id) =>
      baseline.measures.findIndex((info) => info.id === id),
    );
    const sign = at.map((j) => (baseline.measures[j].better === 'lower' ? 1 : -1));
    for (const { plates } of baseline.families) {
      if (plates.some((plate) => !plate.feasible)) expect(plates).toHaveLength(1);
      for (const a of plates) {
        if (a.feasible) expect(a.limits.every((limit) => limit.margin >= 0)).toBe(true);
        for (const b of plates) {
          if (a === b) continue;
          const better = at.some(
            (j, k) => sign[k] * ((a.readings[j] ?? 0) - (b.readings[j] ?? 0)) < 0,
          );
          expect(better, `${a.id} against ${b.id}`).toBe(true);
        }
      }
    }
  });
});

describe('compareWithBaseline()', () => {
  it('measures the families by the yardstick of the front and counts who beats whom', async () => {
    const { front } = await drive(evolve(brief, {}, quietPorts(localCrew(brief))));
    const comparison = compareWithBaseline(front, baseline);
    expect(comparison.front).toBe(front.hypervolume.value);
    for (const { hypervolume } of comparison.families) {
      expect(hypervolume).toBeGreaterThanOrEqual(0);
      // A family alone covers no more than all of them together.
      expect(hypervolume).toBeLessThanOrEqual(comparison.baseline + 1e-12);
    }
    expect(comparison.platesDominated).toBeLessThanOrEqual(comparison.plates);
    const itself = {
      ...front,
      designs: front.designs.slice(0, 1).map((design) => {
        const best = baseline.families[0].plates[0];
        return { ...design, readings: best.readings };
      }),
    };
    // A front that is one of the plates neither beats that plate nor is beaten by it.
    const same = compareWithBaseline(itself, {
      ...baseline,
      families: [{ ...baseline.families[0], plates: baseline.families[0].plates.slice(0, 1) }],
    });
    expect([same.platesDominated, same.designsDominated]).toEqual([0, 0]);
  });
});
