/** Cross-checks of dust: a way down that has a direction, lips and turns for pockets that may be. */
import type { Check } from './check.ts';
import { fault } from './faults.ts';
import type { Fault } from './faults.ts';

const down: Check = {
  reads: ['dust.down'],
  run: ({ dust }) => {
    if (dust.down === undefined || typeof dust.down === 'string') return [];
    const [x, y, z] = dust.down;
    if (x * x + y * y + z * z > 1e-12) return [];
    const remedy = 'Write [0, 0, 1] for air that blows down through a lying plate.';
    return [fault('dust.down', '[0, 0, 0]', 'have a length greater than 0.000001', remedy)];
  },
};

const pocketWays: Check = {
  reads: ['routes.pockets', 'routes.pocketLips', 'routes.pocketTurns', 'routes.sidePockets'],
  run: ({ routes }) => {
    if (routes.pockets) return [];
    return (['pocketLips', 'pocketTurns', 'sidePockets'] as const).flatMap((name): Fault[] => {
      if (routes[name] !== true) return [];
      const remedy = 'Set routes.pockets to true, or leave it out.';
      return [fault(`routes.${name}`, 'true', 'go with pockets', remedy)];
    });
  },
};

const sidePockets: Check = {
  reads: ['routes.sidePockets', 'air.route'],
  run: ({ routes, air: { route } }) => {
    if (routes.sidePockets !== true) return [];
    if (route.kind === 'side' && route.merge !== 'plenum') return [];
    const found = route.kind === 'side' ? "true with merge 'plenum'" : 'true';
    const allowed = 'go with exits in the rim that channels have to themselves';
    const remedy = "Set air.route to side with merge 'none' or 'any', or leave it out.";
    return [fault('routes.sidePockets', found, allowed, remedy)];
  },
};

const teeth: Check = {
  reads: ['routes.teeth', 'routes.sections', 'air.route'],
  run: ({ routes, air }) => {
    if (routes.teeth !== true) return [];
    if (air.route.kind === 'side') {
      const remedy = 'Teeth stand in channels from face to face: leave routes.teeth out.';
      return [fault('routes.teeth', 'true', 'be left out with side exits', remedy)];
    }
    if (routes.sections.some((section) => section !== 'slot')) return [];
    const remedy = "Allow 'round', 'teardrop' or 'polygon' in routes.sections.";
    return [fault('routes.teeth', 'true', 'go with a section about as wide as high', remedy)];
  },
};

export const DUST_CHECKS: readonly Check[] = [down, pocketWays, sidePockets, teeth];
