/** Cross-checks of air and dust: fan curve, design flow, mass shares. */
import type { Check } from './check.ts';
import { fault, shownSum } from './faults.ts';
import type { Fault } from './faults.ts';

/** How far mass shares may miss 1, so that rounded shares pass. */
const SHARE_TOLERANCE = 0.001;

const CURVE = 'air.supply.curve';

const fanCurve: Check = {
  reads: ['air.supply'],
  run: ({ air: { supply } }) => {
    if (supply.kind !== 'fan') return [];
    const curve = supply.curve;
    const faults: Fault[] = [];
    const shutOff = curve[0].pressure_Pa;
    for (let i = 1; i < curve.length; i++) {
      const { flow_m3_per_h: flow, pressure_Pa: pressure } = curve[i];
      const before = curve[i - 1].flow_m3_per_h;
      if (flow <= before) {
        const allowed = `be greater than ${before}, the flow of point ${i - 1}`;
        const remedy = 'List the points with flow strictly rising, each flow once.';
        faults.push(fault(`${CURVE}[${i}].flow_m3_per_h`, String(flow), allowed, remedy));
      }
      if (pressure > shutOff) {
        const allowed = `be at most ${shutOff}, the pressure of point 0`;
        const remedy =
          'A dip (stall) inside the curve is allowed, a rise above its start is not: check this ' +
          'point, and that the first one is at the least flow.';
        faults.push(fault(`${CURVE}[${i}].pressure_Pa`, String(pressure), allowed, remedy));
      }
    }
    const last = curve.length - 1;
    const end = curve[last].pressure_Pa;
    const floor = Math.min(...curve.slice(0, last).map((entry) => entry.pressure_Pa));
    if (end > floor || end >= shutOff) {
      const allowed = `be the least of the curve, below ${shutOff} and at most ${floor}`;
      const remedy = 'A fan gives its greatest flow at its least pressure: carry the curve on.';
      faults.push(fault(`${CURVE}[${last}].pressure_Pa`, String(end), allowed, remedy));
    }
    const most = curve[last].flow_m3_per_h * supply.speedShare;
    const design = supply.designFlow_m3_per_h;
    if (design !== undefined && design > most) {
      const at = supply.speedShare === 1 ? '' : ' at this speedShare';
      const allowed = `be at most ${shownSum(most)}, the greatest flow of the curve${at}`;
      const remedy = 'Lower it, leave it out for 60 % of the free flow, or carry the curve on.';
      faults.push(fault('air.supply.designFlow_m3_per_h', String(design), allowed, remedy));
    }
    return faults;
  },
};

const sweptRing: Check = {
  reads: ['air.supply'],
  run: ({ air: { supply } }) => {
    if (supply.kind !== 'fan' || supply.swept === undefined) return [];
    const { hub_mm: hub, diameter_mm: diameter } = supply.swept;
    if (hub < diameter) return [];
    const allowed = `be less than air.supply.swept.diameter_mm, which is ${diameter}`;
    const remedy = 'Hubs take about 35 to 45 % of the diameter (common practice, no source).';
    return [fault('air.supply.swept.hub_mm', String(hub), allowed, remedy)];
  },
};

const massShares: Check = {
  reads: ['dust.classes'],
  run: ({ dust: { classes } }) => {
    if (classes === undefined) return [];
    const sum = classes.reduce((total, entry) => total + entry.massShare, 0);
    const faults: Fault[] = [];
    if (Math.abs(sum - 1) > SHARE_TOLERANCE) {
      const found = `a list whose mass shares add up to ${shownSum(sum)}`;
      const allowed = `add up to 1 within ${SHARE_TOLERANCE}`;
      faults.push(fault('dust.classes', found, allowed, 'Divide every share by that sum.'));
    }
    const seen = new Map<number, number>();
    for (const [i, { diameter_um: size }] of classes.entries()) {
      const first = seen.get(size);
      if (first === undefined) seen.set(size, i);
      else {
        const allowed = `differ from dust.classes[${first}].diameter_um`;
        const remedy = 'Put both shares into one class.';
        faults.push(fault(`dust.classes[${i}].diameter_um`, String(size), allowed, remedy));
      }
    }
    return faults;
  },
};

export const AIR_CHECKS: readonly Check[] = [fanCurve, sweptRing, massShares];
