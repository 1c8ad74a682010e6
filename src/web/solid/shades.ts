/** What surfaces can be coloured by, and over which range. */
import type { ShadeKind } from '../../engine/index.ts';

interface ShadeInfo {
  readonly label: string;
  readonly unit: string;
  /** Shown numbers per unit of the value. */
  readonly scale: number;
  readonly meaning: string;
  /** Whether the air has it too. */
  readonly ofAir: boolean;
}

export const SHADES: Readonly<Record<ShadeKind, ShadeInfo>> = {
  velocity: {
    label: 'Air velocity',
    unit: 'm/s',
    scale: 1,
    meaning:
      'Flow over the channel\u2019s section there, pockets not counted, at the design flow. A mean: in the middle of a channel the air is up to twice as fast.',
    ofAir: true,
  },
  thickness: {
    label: 'Wall thickness',
    unit: 'mm',
    scale: 1,
    meaning:
      'From the surface straight into the part until it ends. Walls aslant can be thinner: the measure \u201cthinnest wall\u201d counts.',
    ofAir: false,
  },
  overhang: {
    label: 'Overhang',
    unit: '\u00b0',
    scale: 1,
    meaning:
      'How far a surface that faces the bed leans out from plumb; 90 is a flat ceiling. Plumb walls, surfaces that face up and the bed itself have none.',
    ofAir: true,
  },
  dust: {
    label: 'Dust kept',
    unit: '%',
    scale: 100,
    meaning:
      'Share of the dust entering a channel that stays: in a pocket, shown on its wall; on bare walls, all of them together. An estimate that ranks.',
    ofAir: true,
  },
};

export const SHADE_KINDS = Object.keys(SHADES) as ShadeKind[];

export interface ShadeRange {
  readonly low: number;
  readonly high: number;
  /** Some values lie above: the last colour stands for them too. */
  readonly isOpen: boolean;
}

/** Above this, thickness is no thin wall whose shade matters [mm]. */
const THICK_MM = 8;

/** A common range for all bodies shown, so that colours compare across designs. */
export function shadeRange(shade: ShadeKind, bodies: readonly Float32Array[]): ShadeRange {
  if (shade === 'overhang') return { low: 0, high: 90, isOpen: false };
  let low = Infinity;
  let high = -Infinity;
  for (const values of bodies) {
    for (const value of values) {
      if (value < low) low = value;
      if (value > high) high = value;
    }
  }
  if (low > high) return { low: 0, high: 1, isOpen: false };
  const from = shade === 'velocity' && low > 0.5 * high && low < high ? low : 0;
  const to = shade === 'thickness' ? Math.min(THICK_MM, high) : high;
  return { low: from, high: to > from ? to : from + 1e-6, isOpen: to < high };
}

export function shareOf(value: number, { low, high }: ShadeRange): number {
  return Math.min(1, Math.max(0, (value - low) / (high - low)));
}
