/** Briefs and designs that cannot be: each named with its field, value, bound and remedy. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { briefWith } from '../support/briefs.ts';
import { aFolder, anfract } from '../support/cli.ts';
import { writeSmallBrief } from '../support/small-brief-file.ts';

const curve = (...points: readonly (readonly [number, number])[]) => ({
  kind: 'fan',
  curve: points.map(([flow_m3_per_h, pressure_Pa]) => ({ flow_m3_per_h, pressure_Pa })),
});

/** What is wrong, the change that makes it so, and what the message must say. */
const CASES: readonly (readonly [string, Readonly<Record<string, unknown>>, RegExp])[] = [
  ['ports larger than the plate', { 'routes.bore_mm': { min: 90, max: 95 } }, /bore_mm.*90/s],
  ['walls thicker than the ligament', { 'process.minimumWall_mm': 9 }, /minimumWall_mm.*9/s],
  ['zero flow', { 'air.supply': { kind: 'flow', flow_m3_per_h: 0 } }, /flow_m3_per_h is 0/],
  [
    'a fan curve that goes back in flow',
    { 'air.supply': curve([0, 40], [20, 30], [10, 20], [30, 0]) },
    /curve\[2\]\.flow_m3_per_h is 10/,
  ],
  [
    'an absurd size',
    { 'plate.outline': { kind: 'round', diameter_mm: 1e9 } },
    /diameter_mm is 1000000000/,
  ],
  [
    'a run that would exhaust memory',
    { 'search.population': 5000, 'search.archive': 5000, 'routes.maxChannels': 1000 },
    /population|maxChannels/,
  ],
  [
    'mounting holes outside the plate',
    { 'plate.mounting': { kind: 'holes', holes: [{ x_mm: 60, y_mm: 0, diameter_mm: 4 }] } },
    /holes\[0\]/,
  ],
  ['a rim wider than the plate', { 'plate.rim_mm': 45 }, /rim_mm is 45/],
  ['a frame larger than the plate', { 'plate.mounting': { kind: 'frame', frame_mm: 140 } }, /140/],
  [
    'an outline that crosses itself',
    {
      'plate.outline': {
        kind: 'polygon',
        points_mm: [
          [-20, -20],
          [20, 20],
          [20, -20],
          [-20, 20],
        ],
      },
    },
    /points_mm/,
  ],
  [
    'mass shares that do not add up',
    {
      'dust.classes': [
        { diameter_um: 10, massShare: 0.2 },
        { diameter_um: 20, massShare: 0.2 },
      ],
    },
    /0\.4/,
  ],
  ['an objective that needs a fan', { 'goals.objectives': ['operatingFlow_m3_per_h'] }, /fan/],
  [
    'contradictory limits',
    { 'goals.limits': [{ measure: 'mass_g', atLeast: 9, atMost: 3 }] },
    /9.*3|3.*9/s,
  ],
];

describe('anfract brief check', () => {
  it.each(CASES)('refuses %s', async (_what, changes, message) => {
    const folder = aFolder();
    writeFileSync(join(folder, 'brief.json'), JSON.stringify(briefWith(changes)));
    const ended = await anfract(folder, 'brief', 'check', 'brief.json');
    expect(ended.code, ended.stderr).toBe(2);
    expect(ended.stderr).toMatch(message);
    expect(ended.stdout).toBe('');
    expect(ended.stderr).not.toMatch(/\n\s+at /);
  });
});

describe('anfract, given a damaged run', () => {
  it('names the file and keeps it', async () => {
    const folder = aFolder();
    const brief = writeSmallBrief(folder, { generations: 2 });
    const run = join(folder, 'run');
    await anfract(folder, 'evolve', brief, '--out', run, '--no-meshes');
    const path = join(run, 'front.json');
    const half = readFileSync(path, 'utf8').slice(0, 900);
    writeFileSync(path, half);
    const shown = await anfract(folder, 'show', run);
    expect(shown.code).toBe(2);
    expect(shown.stderr).toContain('front.json');
    expect(readFileSync(path, 'utf8')).toBe(half);
  });

  it('goes on from the checkpoint before when the last one is torn', async () => {
    const folder = aFolder();
    const brief = writeSmallBrief(folder, { generations: 6 });
    const run = join(folder, 'run');
    await anfract(folder, 'evolve', brief, '--out', run, '--no-meshes');
    const whole = readFileSync(join(run, 'front.json'), 'utf8');
    const checkpoint = join(run, 'checkpoint.json');
    writeFileSync(checkpoint, readFileSync(checkpoint, 'utf8').slice(0, 2000));
    const resumed = await anfract(folder, 'evolve', '--resume', run, '--no-meshes');
    expect(resumed.code, resumed.stderr).toBe(0);
    expect(resumed.stderr).toContain('previous checkpoint');
    expect(readFileSync(join(run, 'front.json'), 'utf8')).toBe(whole);
  });
});

describe('anfract, given a design of one’s own', () => {
  it('scores a plate drawn by hand with the numbers it is known to have', async () => {
    const folder = aFolder();
    // One straight 5 mm hole, 20 mm long, in a disc of 40 mm: 1240 kg/m3 of plain geometry.
    const design = {
      format: 'anfract-design',
      version: 1,
      name: 'one hole',
      brief: {
        plate: { outline: { kind: 'round', diameter_mm: 40 }, thickness_mm: 20 },
        air: { supply: { kind: 'flow', flow_m3_per_h: 0.25 } },
      },
      channels: [
        {
          points_mm: [
            [0, 0, 0],
            [0, 0, 20],
          ],
          section: { kind: 'round' },
          bore_mm: 5,
        },
      ],
    };
    writeFileSync(join(folder, 'hole.json'), JSON.stringify(design));
    const ended = await anfract(folder, 'measure', 'hole.json', '--json');
    expect(ended.code, ended.stderr).toBe(0);
    const { readings } = JSON.parse(ended.stdout);
    const solid_mm3 = Math.PI * (20 ** 2 - 2.5 ** 2) * 20;
    expect(readings.mass_g).toBeCloseTo(solid_mm3 * 1.24e-3, 0);
    expect(readings.overlapDepth_mm).toBe(0);
    expect(readings.lightLeak).toBeGreaterThan(0);
  });

  it('names the channel and the point that leave the plate', async () => {
    const folder = aFolder();
    const design = {
      format: 'anfract-design',
      version: 1,
      name: 'short',
      brief: {
        plate: { outline: { kind: 'round', diameter_mm: 40 }, thickness_mm: 20 },
        air: { supply: { kind: 'flow', flow_m3_per_h: 1 } },
      },
      channels: [
        {
          points_mm: [
            [0, 0, 0],
            [0, 0, 12],
          ],
          section: { kind: 'round' },
          bore_mm: 5,
        },
      ],
    };
    writeFileSync(join(folder, 'short.json'), JSON.stringify(design));
    const ended = await anfract(folder, 'mesh', 'short.json');
    expect(ended.code).toBe(2);
    expect(ended.stderr).toMatch(/channels\[0\]\.points_mm/);
    expect(ended.stderr).toMatch(/12/);
  });
});
