/** Light in a brief: what the printed walls throw back. */
import * as z from 'zod';
import { bounded } from './schema-plate.ts';

export const lightSchema = z
  .strictObject({
    wallReflectance: bounded(
      0,
      1,
      'Share of the light that a wall throws back in all directions: black about .05, grey .3, white .7 to .85 (typical of printed plastic, from memory).',
    ).default(0.05),
    gloss: bounded(
      0,
      1,
      'Share of the surface that mirrors like polished plastic (Fresnel, refractive index 1.5): 0 dull, .3 satin, 1 polished.',
    ).default(0),
  })
  .describe(
    'Light that bounces through the plate; left out: only where a goal names diffuseLight, with black dull walls.',
  );

/** What a brief without the section means. */
export const LIGHT_DEFAULTS = lightSchema.parse({});
