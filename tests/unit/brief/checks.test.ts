/** Contradictions between values of a brief that are each allowed by themselves. */
import { describe, expect, it } from 'vitest';
import { faultsWith } from '../../support/briefs.ts';

type Changes = Readonly<Record<string, unknown>>;
const messages = (changes: Changes): string[] => faultsWith(changes).map((fault) => fault.message);
const paths = (changes: Changes): string[] => faultsWith(changes).map((fault) => fault.path);

const fan = (points: readonly (readonly [number, number])[], design?: number): Changes => ({
  'air.supply': {
    kind: 'fan',
    curve: points.map(([flow, pressure]) => ({ flow_m3_per_h: flow, pressure_Pa: pressure })),
    ...(design === undefined ? {} : { designFlow_m3_per_h: design }),
  },
});

const square = (side: number): Changes => ({
  'plate.outline': { kind: 'rectangle', width_mm: side, height_mm: side },
});

const shares = (list: readonly number[]): Changes => ({
  'dust.classes': list.map((massShare, i) => ({ diameter_um: i + 1, massShare })),
});

describe('plate', () => {
  it('refuses a thickness range the wrong way round', () => {
    expect(messages({ 'plate.thickness_mm': { min_mm: 20, max_mm: 5 } })).toEqual([
      'plate.thickness_mm.min_mm is 20; it must be at most plate.thickness_mm.max_mm, ' +
        'which is 5. Swap the two or give one value.',
    ]);
  });

  it('refuses a rim that leaves nothing, with the radius it may not reach', () => {
    expect(messages({ 'plate.rim_mm': 40 })[0]).toMatch(
      /^plate\.rim_mm is 40; it must be less than 40,/u,
    );
  });

  it('refuses ports wider than the room inside the rim: 80 - 2 * 3 = 74', () => {
    expect(paths({ 'routes.bore_mm': { min: 2, max: 74 } })).toEqual([]);
    expect(messages({ 'routes.bore_mm': { min: 2, max: 74.1 } })[0]).toMatch(
      /^routes\.bore_mm\.max is 74\.1; it must be at most 74, /u,
    );
  });

  it('finds the widest circle of a polygon: 3-4-5 triangle has the inradius 1 per unit', () => {
    // Inradius of a right triangle (a + b - c) / 2: (60 + 80 - 100) / 2 = 20.
    const points = [
      [-20, -20],
      [40, -20],
      [-20, 60],
    ];
    const plate = { 'plate.outline': { kind: 'polygon', points_mm: points }, 'plate.rim_mm': 4 };
    expect(paths({ ...plate, 'routes.bore_mm': { min: 2, max: 31.9 } })).toEqual([]);
    expect(paths({ ...plate, 'routes.bore_mm': { min: 2, max: 32.1 } })).toEqual([
      'routes.bore_mm.max',
    ]);
  });

  it.each([
    [
      'crosses itself',
      [
        [0, 0],
        [40, 40],
        [40, 0],
        [0, 40],
      ],
    ],
    [
      'repeats a corner',
      [
        [0, 0],
        [40, 0],
        [40, 0],
        [0, 40],
      ],
    ],
    [
      'folds back',
      [
        [0, 0],
        [40, 0],
        [20, 0],
        [20, 40],
      ],
    ],
    [
      'touches itself',
      [
        [0, 0],
        [40, 0],
        [40, 40],
        [20, 0],
        [0, 40],
      ],
    ],
    [
      'is flat',
      [
        [0, 0],
        [40, 0],
        [20, 1],
      ],
    ],
  ])('refuses a polygon that %s', (_, points) => {
    expect(paths({ 'plate.outline': { kind: 'polygon', points_mm: points } })).toContain(
      'plate.outline.points_mm',
    );
  });

  it('accepts a concave polygon either way round', () => {
    const points = [
      [-40, -40],
      [40, -40],
      [40, 40],
      [0, 0],
      [-40, 40],
    ];
    for (const corners of [points, points.toReversed()]) {
      expect(paths({ 'plate.outline': { kind: 'polygon', points_mm: corners } })).toEqual([]);
    }
  });

  it('refuses corners rounder than the plate', () => {
    const outline = { kind: 'rectangle', width_mm: 40, height_mm: 60, cornerRadius_mm: 20.5 };
    expect(messages({ 'plate.outline': outline })[0]).toContain(
      'is 20.5; it must be at most half the shorter side, 20.',
    );
  });

  it.each([40, 50, 60, 70, 80, 92, 120, 140])(
    'fits the holes of a %d mm frame into a plate of that side',
    (side) => {
      const mounting = { kind: 'frame', frame_mm: side };
      expect(paths({ ...square(side), 'plate.mounting': mounting })).toEqual([]);
      expect(paths({ ...square(side * 0.9), 'plate.mounting': mounting })).toEqual([
        'plate.mounting.frame_mm',
      ]);
    },
  );

  it('says how much solid a hole leaves at the edge: 40 - 38 - 2 = 0', () => {
    const holes = [{ x_mm: 38, y_mm: 0, diameter_mm: 4 }];
    expect(messages({ 'plate.mounting': { kind: 'holes', holes } })[0]).toBe(
      'plate.mounting.holes[0] is a 4 mm hole at x 38, y 0 with 0 mm of solid to the edge of the ' +
        'plate; it must leave at least process.minimumWall_mm, 0.8 mm. Move the hole inwards, make ' +
        'it smaller or the plate larger.',
    );
  });

  it('says how far two holes are apart: 5 - (4 + 5) / 2 = 0.5', () => {
    const holes = [
      { x_mm: 0, y_mm: 0, diameter_mm: 4 },
      { x_mm: 3, y_mm: 4, diameter_mm: 5 },
    ];
    expect(messages({ 'plate.mounting': { kind: 'holes', holes } })).toEqual([
      'plate.mounting.holes[1] is a hole 0.5 mm from plate.mounting.holes[0]; it must leave at ' +
        'least process.minimumWall_mm, 0.8 mm, between holes. Move the two holes apart or remove one.',
    ]);
  });
});

describe('air and dust', () => {
  it('accepts a curve with a dip', () => {
    expect(
      paths(
        fan([
          [0, 40],
          [10, 22],
          [14, 25],
          [30, 0],
        ]),
      ),
    ).toEqual([]);
  });

  it('names each point whose flow does not rise', () => {
    expect(
      paths(
        fan([
          [0, 40],
          [10, 30],
          [10, 20],
          [5, 10],
          [30, 0],
        ]),
      ),
    ).toEqual(['air.supply.curve[2].flow_m3_per_h', 'air.supply.curve[3].flow_m3_per_h']);
  });

  it('names each point above the start of the curve', () => {
    expect(
      messages(
        fan([
          [0, 40],
          [10, 41],
          [30, 0],
        ]),
      )[0],
    ).toMatch(
      /^air\.supply\.curve\[1\]\.pressure_Pa is 41; it must be at most 40, the pressure of point 0\./u,
    );
  });

  it('refuses a curve that does not fall or ends above its dip', () => {
    expect(
      paths(
        fan([
          [0, 40],
          [10, 40],
        ]),
      ),
    ).toEqual(['air.supply.curve[1].pressure_Pa']);
    expect(
      paths(
        fan([
          [0, 40],
          [10, 10],
          [20, 15],
        ]),
      ),
    ).toEqual(['air.supply.curve[2].pressure_Pa']);
  });

  it('refuses a design flow beyond the curve', () => {
    expect(
      messages(
        fan(
          [
            [0, 40],
            [30, 0],
          ],
          31,
        ),
      )[0],
    ).toMatch(/^air\.supply\.designFlow_m3_per_h is 31; it must be at most 30,/u);
  });

  it('wants mass shares that add up to 1, to rounding', () => {
    expect(paths(shares([0.333, 0.333, 0.334]))).toEqual([]);
    expect(paths(shares([0.333, 0.333, 0.333]))).toEqual([]);
    expect(messages(shares([0.5, 0.4]))).toEqual([
      'dust.classes is a list whose mass shares add up to 0.9; it must add up to 1 within 0.001. ' +
        'Divide every share by that sum.',
    ]);
  });
});

describe('process and routes', () => {
  it('refuses walls thicker than any ligament, with the widest pitch', () => {
    const [message] = messages({
      'process.minimumWall_mm': 2,
      'routes.ligament_mm': { min: 0.8, max: 1.5 },
      'routes.bore_mm': { min: 2, max: 4 },
    });
    expect(message).toMatch(
      /^routes\.ligament_mm\.max is 1\.5; it must be at least process\.minimumWall_mm, which is 2\. At the widest pitch of 5\.5 mm/u,
    );
  });

  it.each([
    [{ 'process.minimumWall_mm': 0.3 }, 'process.minimumWall_mm'],
    [{ 'process.minimumFeature_mm': 0.3 }, 'process.minimumFeature_mm'],
    [{ 'process.layerHeight_mm': 0.5 }, 'process.layerHeight_mm'],
    [{ 'routes.bore_mm': { min: 0.7, max: 8 } }, 'routes.bore_mm.min'],
    [
      { 'routes.bore_mm': { min: 0.9, max: 8 }, 'process.holeShrinkage_mm': 1 },
      'routes.bore_mm.min',
    ],
    [{ 'routes.bore_mm': { min: 5, max: 4 } }, 'routes.bore_mm.min'],
    [{ 'routes.motifs': ['alike', 'alike'] }, 'routes.motifs[1]'],
  ])('refuses %j', (changes, path) => {
    expect(paths(changes)).toEqual([path]);
  });

  it('refuses a search that would not fit in memory, with the sum', () => {
    // (5000 + 5000) designs * 300 channels * 32 stations * 40 bytes = 3.84 GB.
    expect(messages({ search: { population: 5000, archive: 5000 } })[0]).toContain('3.84 GB');
    expect(paths({ search: { population: 1000, archive: 1000 } })).toEqual([]);
  });

  it('refuses a raster that would not end, and accepts a large plate at common settings', () => {
    const large = { 'plate.outline': { kind: 'rectangle', width_mm: 600, height_mm: 600 } };
    expect(paths({ ...large, 'plate.thickness_mm': 20 })).toEqual([]);
    const fine = { 'process.lineWidth_mm': 0.1, 'process.layerHeight_mm': 0.05 };
    // 600/0.05 * 600/0.05 * 20/0.05 = 5.76e10.
    expect(messages({ ...large, ...fine, 'plate.thickness_mm': 20 })[0]).toContain(
      '57600000000 cells',
    );
  });
});
