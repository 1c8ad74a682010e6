import { heatAnalysis } from './analyses/heat.ts';
import { heatDoubts, withoutHeat } from './analyses/heat-doubts.ts';
import type { Measure } from './measure.ts';

/** Ground that all measures of heat share. */
export const HEAT_VALIDITY =
  'Hot body of one temperature on one face, forced air through the channels only (no natural convection, no radiation, other surfaces insulated), solid of one conductivity, smooth walls, air properties at the inlet. Laminar heat transfer within some 10 %, transitional 30 %, turbulent 15 %, curved laminar 20 %. Inside the search the plate counts as layers of one temperature (ranks designs as the solved conduction does, correlation 0.98 to 1; reads 1.0 times it for metals, 0.85 times for poor conductors, median), for archived designs conduction is solved on cells of 1 to 2 mm (against grids eight times as fine: within 1.5 % for filled plastics and metals, and reads up to 10 % too high for plain plastics, whose heat goes at the first few cells).';
export const HEAT_SOURCE =
  'Laminar entry: Muzychka & Yovanovich 2004; curved: Manlapaz & Churchill 1981; turbulent: Gnielinski 1976, in bends by analogy to friction (Ito 1959); between: Gnielinski 2013; fins and exchangers: textbook, Kays & London 1984; constants from memory, checked against own solutions.';
export const HEAT_CAUTION =
  'Hot parts burn skin and start fires; a blocked or stopped fan lets the plate come near the temperature of the hot body. Local codes and a qualified person decide, not this number.';

export const thermalResistance: Measure = {
  id: 'thermalResistance_K_per_W',
  label: 'thermal resistance',
  unit: 'K/W',
  better: 'lower',
  meaning:
    'Temperature of the hot body above the incoming air per watt that goes through the plate into the air, at the fan (else at the design flow), joint included.',
  validity: HEAT_VALIDITY,
  source: HEAT_SOURCE,
  standing: 'handbook',
  caution: HEAT_CAUTION,
  unavailable: withoutHeat,
  evaluate: (assessment) => 1 / assessment.get(heatAnalysis).conductance_W_per_K,
  outside: heatDoubts,
};
