import type { Measure } from './measure.ts';
import { printAnalysis } from './analyses/printing.ts';

export const mass: Measure = {
  id: 'mass_g',
  label: 'mass',
  unit: 'g',
  better: 'lower',
  meaning:
    'Mass of the printed plate at the density of its material, printed full, supports apart.',
  validity:
    'Holds for 100 % infill; sparser infill weighs less. Exact form: volume share by pixels, within about 0.5 %, up to 1.2 % where long straight slots run along the pixels.',
  source: 'Volume times density.',
  standing: 'exact',
  evaluate: (assessment) => assessment.get(printAnalysis).mass_g,
};
