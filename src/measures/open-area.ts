import { openingsAnalysis } from './analyses/openings.ts';
import type { Measure } from './measure.ts';

export const openArea: Measure = {
  id: 'openArea',
  label: 'open area',
  unit: '-',
  better: 'higher',
  meaning:
    'Area of the ports on the more closed face over the area inside the rim; a flared port counts as the narrowest place of its channel.',
  validity: 'Ports that overlap are counted twice; a valid plate has none.',
  source: 'Geometry, exact.',
  standing: 'exact',
  evaluate: (assessment) => assessment.get(openingsAnalysis).openArea,
};
