import { describe, expect, it } from 'vitest';
import {
  HEAT_MATERIALS,
  HEAT_MATERIAL_NAMES,
  heatCautions,
  heatSolid,
} from '../../../src/brief/index.ts';
import { aBrief, faultsWith } from '../../support/briefs.ts';

const LOAD = { kind: 'load', heat_W: 5 };

describe('heat in a brief', () => {
  it('may be left out, and then stays out', () => {
    expect(aBrief().heat).toBeUndefined();
    expect(heatCautions(aBrief())).toEqual([]);
  });

  it('has defaults for the face and the joint', () => {
    const { heat } = aBrief({ heat: { source: LOAD, material: 'aluminium' } });
    expect(heat?.hotFace).toBe('outlet');
    expect(heat?.contactResistance_mm2K_per_W).toBe(30);
  });

  it('needs a material or a conductivity', () => {
    const [found] = faultsWith({ heat: { source: LOAD } });
    expect(found.message).toBe(
      'heat is without a conductivity; it must have material or conductivity_W_per_mK. Name a material, or give the conductivity of the printed solid in W/(m K).',
    );
    expect(faultsWith({ heat: { source: LOAD, conductivity_W_per_mK: 2 } })).toEqual([]);
  });

  it('refuses a hot body that is not warmer than the air', () => {
    const source = { kind: 'face', temperature_C: 20 };
    const [found] = faultsWith({ heat: { source, material: 'pla' }, 'air.temperature_C': 20 });
    expect(found.path).toBe('heat.source.temperature_C');
    expect(found.message).toContain('it must be greater than air.temperature_C, which is 20.');
  });

  it('refuses no heat at all, unknown materials and unknown keys', () => {
    const heat = { source: { kind: 'load', heat_W: 0 }, material: 'cheese', hotface: 'inlet' };
    const paths = faultsWith({ heat }).map((entry) => entry.path);
    expect(paths).toContain('heat.source.heat_W');
    expect(paths).toContain('heat.material');
    expect(paths).toContain('heat.hotface');
  });

  it('still checks the rest of a brief whose heat is at fault', () => {
    const faults = faultsWith({
      heat: { source: { kind: 'load', heat_W: -1 }, material: 'pla' },
      'process.minimumWall_mm': 0.2,
    });
    expect(faults.map((entry) => entry.path)).toContain('process.minimumWall_mm');
  });

  it('heatSolid() puts the numbers of the brief before those of the material', () => {
    const { heat } = aBrief({
      heat: { source: LOAD, material: 'pla', conductivity_W_per_mK: 0.3, serviceTemperature_C: 45 },
    });
    if (heat === undefined) throw new Error('no heat');
    expect(heatSolid(heat)).toEqual({
      conductivity_W_per_mK: 0.3,
      serviceTemperature_C: 45,
      plastic: true,
    });
  });

  it('warns of burns always, of plastic, and of a body hotter than the plate stands', () => {
    const cautions = (heat: object): string => heatCautions(aBrief({ heat })).join(' ');
    expect(cautions({ source: LOAD, material: 'aluminium' })).toContain('qualified person');
    expect(cautions({ source: LOAD, material: 'aluminium' })).not.toContain('plastic');
    expect(cautions({ source: LOAD, material: 'petg' })).toContain('softens and can burn');
    const hot = { source: { kind: 'face', temperature_C: 80 }, material: 'petg' };
    expect(cautions(hot)).toContain(
      'The hot body at 80 C is above the service temperature of the plate, 65 C',
    );
  });

  it('lists every material once', () => {
    expect(HEAT_MATERIAL_NAMES.toSorted()).toEqual(Object.keys(HEAT_MATERIALS).toSorted());
  });
});
