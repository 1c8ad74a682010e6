import { expect, it } from 'vitest';
import { readBrief } from '../../../src/brief/index.ts';
import { briefWith } from '../../support/briefs.ts';

const ROUND = { 'plate.outline': { kind: 'round', diameter_mm: 60 } };

function faultsOf(changes: Readonly<Record<string, unknown>>): string[] {
  const read = readBrief(briefWith({ ...ROUND, ...changes }));
  return read.ok ? [] : read.faults.map((fault) => fault.message);
}

it('a brief without a push stays without one, an empty section takes the defaults', () => {
  const without = readBrief(briefWith(ROUND));
  expect(without.ok && without.brief.strength).toBeUndefined();
  const given = readBrief(briefWith({ ...ROUND, strength: {} }));
  expect(given.ok && given.brief.strength).toEqual({
    push_N: 100,
    padRadius_mm: 10,
    support: 'simple',
    modulus_GPa: 2,
    strength_MPa: 40,
    acrossLayers: 0.5,
    safetyFactor: 3,
    lasting: false,
  });
});

it('a pad wider than the plate is told with both numbers and the remedy', () => {
  expect(faultsOf({ 'strength.padRadius_mm': 30 })).toEqual([]);
  const [message] = faultsOf({ 'strength.padRadius_mm': 31 });
  expect(message).toContain('strength.padRadius_mm is 31');
  expect(message).toContain('at most 30');
  expect(message).toContain('use a smaller one');
});

it('a push without its unit is told with the nearest key', () => {
  expect(faultsOf({ 'strength.push': 50 }).join()).toContain('push_N');
});
