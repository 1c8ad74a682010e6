/** Conductivity and service temperature of printable materials: typical values, from memory. */

export interface HeatMaterial {
  /** Word for people. */
  readonly label: string;
  /** Conductivity of the printed solid, all directions alike [W/(m K)]. */
  readonly conductivity_W_per_mK: number;
  /** Temperature that a lasting part should not pass [C]: for plastics below the glass transition. */
  readonly serviceTemperature_C: number;
  /** Whether it softens and burns like a plastic. */
  readonly plastic: boolean;
}

/**
 * Typical values, all from memory and without a source: the material's own data sheet decides, and a
 * brief may state its own `conductivity_W_per_mK` and `serviceTemperature_C`. Printed plastics
 * conduct some 10-30 % less across their layers than along them, and far less when printed with an
 * open infill (common practice, no source).
 */
export const HEAT_MATERIALS = {
  pla: {
    label: 'PLA',
    conductivity_W_per_mK: 0.2,
    serviceTemperature_C: 50,
    plastic: true,
  },
  petg: { label: 'PETG', conductivity_W_per_mK: 0.2, serviceTemperature_C: 65, plastic: true },
  abs: { label: 'ABS', conductivity_W_per_mK: 0.18, serviceTemperature_C: 85, plastic: true },
  asa: { label: 'ASA', conductivity_W_per_mK: 0.18, serviceTemperature_C: 85, plastic: true },
  pa12: { label: 'PA 12', conductivity_W_per_mK: 0.25, serviceTemperature_C: 100, plastic: true },
  pc: { label: 'PC', conductivity_W_per_mK: 0.2, serviceTemperature_C: 110, plastic: true },
  metalFilledPla: {
    label: 'PLA filled with metal powder',
    conductivity_W_per_mK: 0.6,
    serviceTemperature_C: 50,
    plastic: true,
  },
  conductivePlastic: {
    label: 'plastic filled for conduction',
    conductivity_W_per_mK: 4,
    serviceTemperature_C: 100,
    plastic: true,
  },
  stainlessSteel: {
    label: 'stainless steel, sintered',
    conductivity_W_per_mK: 15,
    serviceTemperature_C: 400,
    plastic: false,
  },
  aluminium: {
    label: 'aluminium-silicon alloy, sintered',
    conductivity_W_per_mK: 130,
    serviceTemperature_C: 200,
    plastic: false,
  },
  copperAlloy: {
    label: 'copper-chromium alloy, sintered',
    conductivity_W_per_mK: 300,
    serviceTemperature_C: 300,
    plastic: false,
  },
} as const satisfies Readonly<Record<string, HeatMaterial>>;

export type HeatMaterialName = keyof typeof HEAT_MATERIALS;

/** Names as they stand in a brief. */
export const HEAT_MATERIAL_NAMES: readonly HeatMaterialName[] = [
  'pla',
  'petg',
  'abs',
  'asa',
  'pa12',
  'pc',
  'metalFilledPla',
  'conductivePlastic',
  'stainlessSteel',
  'aluminium',
  'copperAlloy',
];
