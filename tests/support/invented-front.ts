/** Fronts of invented numbers in any size, for plots and tables. */
import type { Front, FrontDesign, MeasureInfo } from '../../src/engine/index.ts';
import { aBrief } from './briefs.ts';
import { aFront } from './fronts.ts';

function invented(
  id: string,
  label: string,
  unit: string,
  better: 'lower' | 'higher',
): MeasureInfo {
  const words = 'invented';
  return {
    id,
    label,
    unit,
    better,
    meaning: words,
    validity: words,
    source: words,
    standing: words,
  };
}

const OBJECTIVES = ['pressureDrop_Pa', 'mass_g', 'finestFeature_mm'] as const;

/**
 * Designs d0001 ... on a bent surface: the pressure drop climbs from 10 to 100 Pa while the mass
 * falls from 40 to 10 g; the finest feature goes round between 0.4 and 0.8 mm; of the last measure
 * no design has a reading.
 */
export function inventedFront(count: number): Front {
  const designs = Array.from({ length: count }, (_, i): FrontDesign => {
    const share = count > 1 ? i / (count - 1) : 0;
    const round = 0.5 + 0.5 * Math.sin(2.4 * i);
    return {
      id: `d${String(i + 1).padStart(4, '0')}`,
      origin: 'evolved',
      genes: [2 + 7 * share, i % 2],
      readings: [10 + 90 * share, 40 - 30 * share + 4 * round, 0.4 + 0.4 * round, null],
      limits: [{ measure: 'mass_g', bound: 'atMost', value: 50, margin: 50 - 44 + 30 * share }],
      outside: [],
      refinedChange: [null, null, null, null],
    };
  });
  return {
    ...aFront(),
    brief: aBrief({ name: 'invented plate', 'goals.objectives': OBJECTIVES }),
    objectives: OBJECTIVES,
    hypervolume: { value: 0.5, ideal: [10, 10, 0.4], reference: [100, 44, 0.8] },
    measures: [
      invented('pressureDrop_Pa', 'pressure drop', 'Pa', 'lower'),
      invented('mass_g', 'mass', 'g', 'lower'),
      invented('finestFeature_mm', 'finest feature', 'mm', 'higher'),
      invented('openArea_mm2', 'open area', 'mm2', 'higher'),
    ],
    starts: [],
    designs,
  };
}

/** A front in which no design met its limits; the nearest is 12 g too heavy. */
export function emptyFront(): Front {
  const front = inventedFront(1);
  const nearest = {
    ...front.designs[0],
    id: 'd000',
    readings: [20, 62, 0.5, null],
    limits: [{ measure: 'mass_g', bound: 'atMost' as const, value: 50, margin: -12 }],
  };
  return { ...front, designs: [], nearest };
}
