/** Turbulent friction read from a table, for loops that ask it per panel and flow. */
import { log10 } from '../numeric/index.ts';
import { readTable, tabulate } from './table.ts';

/** 1/sqrt f of Haaland over the fourth root of its argument (e/3.7)^1.11 + 6.9/Re. */
export const INVERSE_ROOT = tabulate((u) => -7.2 * log10(u), 0.04, 0.96, 256);

/** Darcy factor of Haaland from its ready roughness term; `haalandFriction` within 1e-6. */
export function turbulentFriction(Re: number, rough: number): number {
  const inverse = readTable(INVERSE_ROOT, Math.sqrt(Math.sqrt(rough + 6.9 / Re)));
  return 1 / (inverse * inverse);
}
