import { describe, expect, it } from 'vitest';
import { FAN_LIBRARY } from '../../../src/brief/index.ts';
import { aBrief, faultsWith } from '../../support/briefs.ts';

describe('FAN_LIBRARY', () => {
  it.each(FAN_LIBRARY.map((fan) => [fan.name, fan] as const))(
    '%s is a supply that a brief accepts',
    (_name, { curve, swept }) => {
      const supply = { kind: 'fan', curve, swept, speedShare: 0.9 };
      expect(aBrief({ 'air.supply': supply }).air.supply.kind).toBe('fan');
    },
  );
});

describe('air.supply', () => {
  const [{ curve }] = FAN_LIBRARY;

  it('refuses a hub as wide as the ring', () => {
    const swept = { diameter_mm: 40, hub_mm: 40 };
    const faults = faultsWith({ 'air.supply': { kind: 'fan', curve, swept } });
    expect(faults.map((fault) => fault.path)).toEqual(['air.supply.swept.hub_mm']);
  });

  it('bounds the design flow by the free flow at the speed given', () => {
    const most = curve[curve.length - 1].flow_m3_per_h;
    const half = { kind: 'fan', curve, speedShare: 0.5, designFlow_m3_per_h: 0.6 * most };
    const [fault] = faultsWith({ 'air.supply': half });
    expect(fault.message).toContain(`at most ${0.5 * most}`);
  });
});
