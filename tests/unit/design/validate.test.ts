import { expect, test } from 'vitest';
import { designFaults } from '../../../src/design/index.ts';
import { aChannel, aDesign, anSBend } from '../../support/plates.ts';

test('designFaults() finds nothing wrong with sound designs', () => {
  expect(designFaults(aDesign())).toEqual([]);
  expect(designFaults(aDesign({ channels: [anSBend({ inletDirection: null })] }))).toEqual([]);
});

test('designFaults() names every fault with its path', () => {
  const channels = [
    aChannel({
      points_mm: [
        [0, 0, 1],
        [0, 0, 19],
      ],
      bore_mm: [0, Number.NaN],
      inletDirection: [0, 0, 2],
      section: { kind: 'polygon', sides: 2.5 },
      pockets: [{ at: 2, length_mm: 5, depth_mm: 1, width_deg: 90, side_deg: 0 }],
    }),
  ];
  const paths = designFaults(aDesign({ channels })).map((fault) => fault.path);
  expect(paths).toEqual([
    'channels[0].points_mm[0]',
    'channels[0].points_mm[1]',
    'channels[0].inletDirection',
    'channels[0].section.sides',
    'channels[0].bore_mm[0]',
    'channels[0].bore_mm[1]',
    'channels[0].pockets[0].at',
  ]);
});

test('a fault says what was found, and what would be right', () => {
  const [fault] = designFaults(aDesign({ plate: { thickness_mm: 70 } }));
  expect(fault.message).toBe('plate.thickness_mm is 70; it must lie between 0.8 and 60.');
});

test('designFaults() refuses coinciding points and a plate without channels', () => {
  const points_mm: [number, number, number][] = [
    [0, 0, 0],
    [0, 0, 0],
    [0, 0, 20],
  ];
  const [twice] = designFaults(aDesign({ channels: [aChannel({ points_mm })] }));
  expect(twice.path).toBe('channels[0].points_mm[1]');
  expect(designFaults(aDesign({ channels: [] })).map((fault) => fault.path)).toEqual(['channels']);
});
