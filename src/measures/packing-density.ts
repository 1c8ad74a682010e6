import { outlineArea } from '../design/index.ts';
import type { Measure } from './measure.ts';
import { printAnalysis } from './analyses/printing.ts';

export const packingDensity: Measure = {
  id: 'packingDensity',
  label: 'packing density',
  unit: '-',
  better: 'higher',
  meaning: 'Volume of channels and pockets over the volume of the plate without them.',
  validity:
    'Rim and ligaments count as plate, mounting holes do not. Fast form: pockets by their mean; exact form: by pixels of the layer raster, as mass_g.',
  source: 'Geometry.',
  standing: 'exact',
  evaluate: (assessment) => {
    const { outline, holes, thickness_mm } = assessment.samples.plate;
    let face_mm2 = outlineArea(outline);
    for (const { diameter_mm: d } of holes) face_mm2 -= (Math.PI * d * d) / 4;
    return 1 - assessment.get(printAnalysis).solidVolume_mm3 / (face_mm2 * thickness_mm);
  },
};
