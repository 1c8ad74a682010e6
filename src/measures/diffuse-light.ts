import { diffuseAnalysis } from './analyses/diffuse.ts';
import type { Measure } from './measure.ts';
import { notAsked, notThrough } from './on-demand.ts';

export const diffuseLight: Measure = {
  id: 'diffuseLight',
  label: 'diffuse light',
  unit: '-',
  better: 'lower',
  meaning:
    'Share of diffuse light entering the ports that leaves behind the plate, straight or after any number of bounces off the walls.',
  validity:
    'Walls of even reflectance light.wallReflectance (.05 black, .3 grey, .7 to .85 white printed plastic; typical, from memory), opaque, dull unless light.gloss says otherwise; layer lines and light through thin walls are left out; below a millionth reads a millionth. Inside the search a coarse exchange of light between rings of an unfolded round tube stands in; archived designs are traced.',
  source:
    'Ray tracing with quasi-random rays (Halton, Cranley & Patterson 1976), some 2000 to 30000 a plate, and the exact view factor of the ports; agrees with Clausing 1932 for white tubes.',
  standing: 'handbook',
  unavailable: (brief) =>
    notThrough(brief, diffuseLight.id) ?? notAsked(brief, diffuseLight.id, 'light'),
  evaluate: (assessment) => assessment.get(diffuseAnalysis).plate,
  outside: (assessment) => {
    const { plate, error } = assessment.get(diffuseAnalysis);
    const reasons: string[] = [];
    if (error > 0.1 * plate) {
      reasons.push(
        `too few rays come through: ${plate.toExponential(1)} is uncertain by ${error.toExponential(1)}`,
      );
    }
    if (assessment.samples.teeth !== null) {
      reasons.push('light bounces off the walls the teeth stand on, not off the teeth in its way');
    }
    return reasons.length > 0 ? reasons.join('; ') : null;
  },
};
