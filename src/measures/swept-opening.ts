import { sweptRingAnalysis } from './analyses/swept-ring.ts';
import type { Measure } from './measure.ts';

export const sweptOpening: Measure = {
  id: 'sweptOpening',
  label: 'openings under the blades',
  unit: '-',
  better: 'higher',
  meaning:
    'Share of the inlet ports (by area) that lies within the ring swept by the blades, outside hub and corners.',
  validity:
    'Geometry of a fan close to the plate, ports taken as discs. Ports outside the ring see less flow: the flow split charges them 1.1 velocity heads of the ring (a mitre; own heuristic).',
  source: 'Geometry; common practice, no source, for the shadow of hub and corners.',
  standing: 'common practice',
  unavailable: ({ air: { supply } }) =>
    supply.kind === 'fan' && supply.swept !== undefined
      ? null
      : 'It needs the ring of the blades: add air.supply.swept with diameter_mm and hub_mm to a fan.',
  evaluate: (assessment) => assessment.get(sweptRingAnalysis),
  outside: (assessment) => {
    const share = assessment.get(sweptRingAnalysis);
    return share < 0.9
      ? `${Math.round(100 * (1 - share))} % of the port area lies in the shadow of the hub or the corners, where the flow is only roughly known`
      : null;
  },
};
