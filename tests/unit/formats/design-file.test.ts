/** Design files: friendly defaults, faults, exact round trip. */
import { describe, expect, it } from 'vitest';
import { briefTemplate, fault } from '../../../src/brief/index.ts';
import type { Design } from '../../../src/design/index.ts';
import {
  designJsonSchema,
  readDesign,
  readDesignFile,
  writeDesignFile,
} from '../../../src/formats/index.ts';
import { aBrief } from '../../support/briefs.ts';
import { schemaFaults } from '../../support/json-schema.ts';

const PLATE = { outline: { kind: 'round', diameter_mm: 60 }, thickness_mm: 10 };
const AIR = { supply: { kind: 'flow', flow_m3_per_h: 10 } };
const STRAIGHT = {
  points_mm: [
    [0, 0, 0],
    [0, 0, 10],
  ],
  bore_mm: 4,
};

const least = (changes: Readonly<Record<string, unknown>> = {}): Record<string, unknown> => ({
  format: 'anfract-design',
  version: 1,
  brief: { plate: PLATE, air: AIR },
  channels: [STRAIGHT],
  ...changes,
});

const paths = (value: unknown): string[] => {
  const read = readDesign(value);
  return read.ok ? [] : read.faults.map((entry) => entry.path);
};

const bent: Design = {
  plate: {
    outline: { kind: 'rectangle', width_mm: 80, height_mm: 60, cornerRadius_mm: 3 },
    thickness_mm: 12.3,
    rim_mm: 2.5,
    holes: [{ x_mm: 35, y_mm: 25, diameter_mm: 3 }],
    build: 'edge',
  },
  channels: [
    {
      points_mm: [
        [0.1, 1 / 3, 0],
        [1, -2, 6],
        [0, 0, 12.3],
      ],
      inletDirection: [0.6, 0, 0.8],
      outletDirection: null,
      section: { kind: 'slot', aspect: 2.5 },
      bore_mm: [2, 2.2, 1 / 0.45],
      roll_deg: -33.3,
      pockets: [{ at: 0.4, length_mm: 4, depth_mm: 1, width_deg: 90, side_deg: 200 }],
      placements: [
        { x_mm: -20, y_mm: 3, turn_deg: 90, mirrored: true },
        { x_mm: 12.7, y_mm: 0, turn_deg: 0, mirrored: false },
      ],
    },
    {
      points_mm: [
        [0, -20, 0],
        [0, -20, 12.3],
      ],
      inletDirection: [0, 0, 1],
      outletDirection: [0, 0, 1],
      section: { kind: 'polygon', sides: 6 },
      bore_mm: [3],
      roll_deg: 0,
      pockets: [],
      placements: [{ x_mm: 0, y_mm: 0, turn_deg: 0, mirrored: false }],
    },
  ],
};

describe('readDesign()', () => {
  it('fills in directions, section, roll, pockets, placement, thickness, build and holes', () => {
    const read = readDesign(least());
    expect(read.ok ? read.file.design : read.faults).toEqual({
      plate: {
        outline: PLATE.outline,
        thickness_mm: 10,
        rim_mm: 3,
        holes: [],
        build: 'flat',
      },
      channels: [
        {
          points_mm: STRAIGHT.points_mm,
          inletDirection: [0, 0, 1],
          outletDirection: [0, 0, 1],
          section: { kind: 'round' },
          bore_mm: [4],
          roll_deg: 0,
          pockets: [],
          placements: [{ x_mm: 0, y_mm: 0, turn_deg: 0, mirrored: false }],
        },
      ],
    });
  });

  it('reads the commented starting brief as the brief of a design', () => {
    const brief: unknown = JSON.parse(briefTemplate());
    const channels = [
      {
        ...STRAIGHT,
        points_mm: [
          [0, 0, 0],
          [0, 0, 15],
        ],
        '// note': 'one bore',
      },
    ];
    expect(paths(least({ brief, channels, thickness_mm: 15 }))).toEqual([]);
  });

  it('makes directions of any length unit vectors', () => {
    const read = readDesign(least({ channels: [{ ...STRAIGHT, inletDirection: [3, 0, 4] }] }));
    expect(read.ok && read.file.design.channels[0].inletDirection).toEqual([0.6, 0, 0.8]);
  });

  it('takes the thickness of the design where the brief leaves it out', () => {
    const brief = { plate: { outline: PLATE.outline }, air: AIR };
    const read = readDesign(least({ brief, thickness_mm: 10 }));
    expect(read.ok && read.file.brief.plate.thickness_mm).toBe(10);
  });

  it.each([
    [{ thickness_mm: 11 }, ['thickness_mm']],
    [{ build: 'edge' }, ['build']],
    [
      { brief: { plate: { ...PLATE, thickness_mm: { min_mm: 8, max_mm: 12 } }, air: AIR } },
      ['thickness_mm'],
    ],
    [{ brief: { plate: { ...PLATE, rim: 3 }, air: AIR } }, ['brief.plate.rim']],
    [{ channels: [] }, ['channels']],
    [{ channels: [{ ...STRAIGHT, bore_mm: 0 }] }, ['channels[0].bore_mm']],
    [{ channels: [{ ...STRAIGHT, bore: 4 }] }, ['channels[0].bore']],
    [{ channels: [{ ...STRAIGHT, inletDirection: [0, 0, 0] }] }, ['channels[0].inletDirection']],
    [{ channels: [{ ...STRAIGHT, inletDirection: [0, 0, -1] }] }, ['channels[0].inletDirection']],
    [{ channels: [{ ...STRAIGHT, section: { kind: 'oval' } }] }, ['channels[0].section.kind']],
    [
      {
        channels: [
          {
            ...STRAIGHT,
            points_mm: [
              [0, 0, 1],
              [0, 0, 9],
            ],
          },
        ],
      },
      ['channels[0].points_mm[0]', 'channels[0].points_mm[1]'],
    ],
    [
      {
        channels: [
          {
            ...STRAIGHT,
            points_mm: [
              [0, 0, 0],
              [0, NaN, 10],
            ],
          },
        ],
      },
      ['channels[0].points_mm[1][1]'],
    ],
    [
      {
        channels: [
          {
            ...STRAIGHT,
            points_mm: [
              [0, 0, 0],
              [0, 0],
            ],
          },
        ],
      },
      ['channels[0].points_mm[1]'],
    ],
    [{ version: 2, channels: [] }, ['version']],
    [{ format: 'anfract-front' }, ['format']],
  ])('finds the fault of %j', (changes, places) => {
    expect(paths(least(changes))).toEqual(places);
  });

  it('tells the faults of the brief and of the channels at once', () => {
    const brief = { plate: { ...PLATE, rim_mm: -1 }, air: AIR };
    const channels = [{ ...STRAIGHT, bore_mm: 0 }];
    expect(paths(least({ brief, channels }))).toEqual([
      'channels[0].bore_mm',
      'brief.plate.rim_mm',
    ]);
  });

  it('refuses more than 2000 placed channels', () => {
    const at = Array.from({ length: 1001 }, (_, i) => ({ x_mm: i / 100, y_mm: 0 }));
    const two = { ...STRAIGHT, at };
    const read = readDesign(least({ channels: [two, two] }));
    expect(read.ok ? '' : read.faults[0].message).toContain('2002 channels');
  });

  it('speaks of the brief inside with its path', () => {
    const read = readDesign(least({ brief: { plate: { ...PLATE, rim_mm: -1 }, air: AIR } }));
    const wanted = fault(
      'brief.plate.rim_mm',
      '-1',
      'lie between 0 and 100',
      'Solid border kept free of channels.',
    );
    expect(read).toEqual({ ok: false, faults: [wanted] });
  });
});

describe('writeDesignFile()', () => {
  const brief = aBrief({
    'plate.outline': bent.plate.outline,
    'plate.thickness_mm': { min_mm: 8, max_mm: 20 },
    'plate.build': 'any',
  });
  const file = { name: 'bent', brief, design: bent, genes: { pitch_mm: 0.1, turns: 3 } };

  it('reads back to the same design to the last bit, holes and rim of the design included', () => {
    const back = readDesignFile(writeDesignFile(file));
    expect(back.design).toEqual(bent);
    expect(back.genes).toEqual(file.genes);
    expect(back.name).toBe('bent');
  });

  it('writes the same bytes for what it read', () => {
    const text = writeDesignFile(file);
    expect(writeDesignFile(readDesignFile(text))).toBe(text);
  });

  it('is accepted by its own JSON Schema, as is the least file by hand', () => {
    const schema = designJsonSchema();
    expect(schemaFaults(schema, JSON.parse(writeDesignFile(file)))).toEqual([]);
    expect(schemaFaults(schema, least({ '//': 'note' }))).toEqual([]);
    expect(schemaFaults(schema, least({ channels: [{ bore_mm: 4 }] }))).not.toEqual([]);
  });

  it('is refused as half written wherever it is cut', () => {
    const text = writeDesignFile(file);
    for (let cut = 1; cut < text.length - 2; cut += 97) {
      expect(() => readDesignFile(text.slice(0, cut), 'd.json')).toThrow(
        /^d\.json: 1 fault\n {2}line /u,
      );
    }
  });
});
