/** What drives the air of a brief, as the physics reads it. */
import type { Brief } from '../../brief/index.ts';
import { cubicMetresPerSecond } from '../../numeric/index.ts';
import { fanAtSpeed, fanInAir, freeFlow } from '../../physics/index.ts';
import type { FanCurve } from '../../physics/index.ts';

type Supply = Brief['air']['supply'];

/** Design flow of a fan brief that names none, as a share of the fan's free flow. */
const DESIGN_SHARE = 0.6;

/** Fan curve of the brief at its speed, in air of the density at which curves are quoted; or null. */
function quotedFan(supply: Supply): FanCurve | null {
  if (supply.kind !== 'fan') return null;
  const curve = {
    flow_m3_per_s: Float64Array.from(supply.curve, (p) => cubicMetresPerSecond(p.flow_m3_per_h)),
    pressure_Pa: Float64Array.from(supply.curve, (p) => p.pressure_Pa),
  };
  return fanAtSpeed(curve, supply.speedShare);
}

/** Fan curve of the brief at its speed and in the air at hand, or null. */
export function fanOf(brief: Brief, density_kg_per_m3: number): FanCurve | null {
  const fan = quotedFan(brief.air.supply);
  return fan && fanInAir(fan, density_kg_per_m3);
}

/** Flow at which pressure drop is quoted: the brief's, or 60 % of the fan's free flow. */
export function designFlow_m3_per_s({ air: { supply } }: Brief): number {
  if (supply.kind === 'flow') return cubicMetresPerSecond(supply.flow_m3_per_h);
  if (supply.designFlow_m3_per_h !== undefined) {
    return cubicMetresPerSecond(supply.designFlow_m3_per_h);
  }
  const fan = quotedFan(supply);
  return fan === null ? Number.NaN : DESIGN_SHARE * freeFlow(fan);
}
