/** Cross-checks of heat: a material or a conductivity, a hot body warmer than the air. */
import type { Check } from './check.ts';
import { fault } from './faults.ts';
import { HEAT_MATERIALS } from './heat-materials.ts';
import type { HeatMaterial } from './heat-materials.ts';
import type { Brief } from './schema.ts';

export type HeatBrief = NonNullable<Brief['heat']>;

/** What the plate is made of, as far as heat cares: the brief's own numbers before the material's. */
export interface HeatSolid {
  readonly conductivity_W_per_mK: number;
  /** Null when the brief names neither a material nor a temperature. */
  readonly serviceTemperature_C: number | null;
  readonly plastic: boolean;
}

/** @throws RangeError if neither material nor conductivity is given, which a checked brief has not. */
export function heatSolid(heat: HeatBrief): HeatSolid {
  const named: HeatMaterial | null = heat.material ? HEAT_MATERIALS[heat.material] : null;
  const conductivity = heat.conductivity_W_per_mK ?? named?.conductivity_W_per_mK;
  if (conductivity === undefined) {
    throw new RangeError('heat names neither a material nor a conductivity');
  }
  return {
    conductivity_W_per_mK: conductivity,
    serviceTemperature_C: heat.serviceTemperature_C ?? named?.serviceTemperature_C ?? null,
    plastic: named?.plastic ?? false,
  };
}

const solid: Check = {
  reads: ['heat.material', 'heat.conductivity_W_per_mK'],
  run: ({ heat }) => {
    if (heat === undefined) return [];
    if (heat.material !== undefined || heat.conductivity_W_per_mK !== undefined) return [];
    const remedy = 'Name a material, or give the conductivity of the printed solid in W/(m K).';
    return [
      fault('heat', 'without a conductivity', 'have material or conductivity_W_per_mK', remedy),
    ];
  },
};

const warmer: Check = {
  reads: ['heat.source', 'air.temperature_C'],
  run: ({ heat, air }) => {
    if (heat?.source.kind !== 'face') return [];
    const { temperature_C: face } = heat.source;
    if (face > air.temperature_C) return [];
    const allowed = `be greater than air.temperature_C, which is ${air.temperature_C}`;
    const remedy = 'The hot body must be warmer than the air that comes in.';
    return [fault('heat.source.temperature_C', String(face), allowed, remedy)];
  },
};

export const HEAT_CHECKS: readonly Check[] = [solid, warmer];

/** A surface warmer than this burns skin that stays on it (metal, 1 s: about 65 C; 10 min: 48 C). */
const BURNING_C = 48;

/**
 * Warnings that belong to every plate with a hot face, in whole sentences; none without heat.
 *
 * Burn threshold: ISO 13732-1:2006, 10 minutes or longer on any material, from memory.
 */
export function heatCautions(brief: Brief): string[] {
  const { heat } = brief;
  if (heat === undefined) return [];
  const { serviceTemperature_C: service, plastic } = heatSolid(heat);
  const warnings = [
    `Hot surfaces burn from about ${BURNING_C} C on long touch (ISO 13732-1, from memory), and a blocked or stopped fan lets the whole plate come near the temperature of the hot body: guard it, and have a qualified person judge heat, fire and electrical safety by the local codes.`,
  ];
  if (plastic) {
    warnings.push(
      'The plate is of plastic, which softens and can burn: it must not be what holds a hot or live part in place, nor meet a source that can overheat without a cut-out.',
    );
  }
  if (heat.source.kind === 'face' && service !== null && heat.source.temperature_C > service) {
    warnings.push(
      `The hot body at ${heat.source.temperature_C} C is above the service temperature of the plate, ${service} C: it will creep or melt at the hot face.`,
    );
  }
  return warnings;
}
