/** The plate as what passes it meets it: bores narrowed to the tips of the teeth. */
import { tipSamples } from '../../design/index.ts';
import type { PlateSamples } from '../../design/index.ts';
import type { Analysis } from '../assessment.ts';

/** The samples themselves for a plate without teeth. */
export const tipsAnalysis: Analysis<PlateSamples> = {
  name: 'tips',
  run: ({ samples }) => tipSamples(samples),
};
