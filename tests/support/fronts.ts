/** A small front, history and checkpoint of invented numbers. */
import type { Checkpoint, Front, HistoryEntry } from '../../src/engine/index.ts';
import { aBrief } from './briefs.ts';

export function aFront(): Front {
  return {
    format: 'anfract-front',
    version: 1,
    anfract: '0.1.0',
    brief: aBrief({ 'goals.objectives': ['pressureDrop_Pa', 'mass_g'] }),
    generation: 3,
    evaluations: 288,
    objectives: ['pressureDrop_Pa', 'mass_g'],
    hypervolume: { value: 0.625, ideal: [1, 2], reference: [11, 12] },
    genes: [
      { name: 'pitch_mm', kind: 'real', min: 2, max: 9 },
      { name: 'section', kind: 'choice', min: 0, max: 1, options: ['round', 'slot'] },
    ],
    measures: [
      {
        id: 'pressureDrop_Pa',
        label: 'pressure drop',
        unit: 'Pa',
        better: 'lower',
        meaning: 'invented',
        validity: 'invented',
        source: 'invented',
        standing: 'heuristic',
        caution: 'invented "caution"',
      },
      {
        id: 'mass_g',
        label: 'mass',
        unit: 'g',
        better: 'lower',
        meaning: 'invented',
        validity: 'invented',
        source: 'invented',
        standing: 'exact',
      },
    ],
    starts: [
      { label: 'straight', feasible: true, failure: null, readings: [4, null], hypervolume: 0.5 },
      { label: 'bent', feasible: false, failure: 'no room', readings: [], hypervolume: 0 },
    ],
    designs: [
      {
        id: 'd001',
        origin: 'straight, "plain"',
        genes: [3.5, 1],
        readings: [4.25, null],
        limits: [{ measure: 'mass_g', bound: 'atMost', value: 40, margin: 12.5 }],
        outside: [],
        refinedChange: [0.001, null],
      },
      {
        id: 'd002',
        origin: 'evolved',
        genes: [0.1, 0],
        readings: [1 / 3, 2e-7],
        limits: [],
        outside: ['too fast'],
        refinedChange: [null, 0],
      },
    ],
    nearest: null,
  };
}

/** History of `count` generations. */
export function aHistory(count: number): HistoryEntry[] {
  return Array.from({ length: count }, (_, i) => ({
    generation: i + 1,
    evaluations: (i + 1) * 96,
    feasibleShare: 0.5,
    archived: 12 + i,
    hypervolume: 0.1 * (i + 1),
    best: [1 / (i + 3), null],
  }));
}

export function aCheckpoint(generations: number): Checkpoint {
  return {
    format: 'anfract-checkpoint',
    version: 1,
    anfract: '0.1.0',
    brief: aBrief(),
    search: { state: [1, -0, 0.1], deep: { rows: [[1, 2]] } },
    archive: [{ genes: [1, 2] }, null],
    history: aHistory(generations),
  };
}
