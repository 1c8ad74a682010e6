/** Commands around a search: plain plates, bench calibration, fans. Needs the built program. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { HtmlValidate } from 'html-validate';
import { describe, expect, it } from 'vitest';
import { aFolder, anfract } from '../support/cli.ts';
import { writeSmallBrief } from '../support/small-brief-file.ts';

describe('anfract baseline', () => {
  it('shows plain plates of a brief, writes them, and compares the front of a run', async () => {
    const folder = aFolder();
    const brief = writeSmallBrief(folder);
    const drawn = join(folder, 'drawn');
    const swept = await anfract(folder, 'baseline', brief, '--out', drawn, '--workers', '1');
    expect(swept.code, swept.stderr).toBe(0);
    expect(swept.stdout).toMatch(/straight holes.*slots.*tilted slots/s);
    const measured = await anfract(folder, 'measure', join(drawn, 'b001.design.json'), '--json');
    expect(measured.code, measured.stderr).toBe(0);

    const run = join(folder, 'run');
    await anfract(folder, 'evolve', brief, '--out', run, '--no-meshes', '--quiet');
    const compared = await anfract(folder, 'baseline', run, '--json');
    expect(compared.code, compared.stderr).toBe(0);
    const { comparison, families } = JSON.parse(compared.stdout);
    expect(comparison.front).toBe(
      JSON.parse(readFileSync(join(run, 'front.json'), 'utf8')).hypervolume.value,
    );
    expect(families[0].plates[0].readings).toEqual(
      Object.values(JSON.parse(measured.stdout).readings),
    );
  });
});

describe('anfract calibrate', () => {
  it('fits readings of a coupon, writes the factors into a brief, and later runs cite them', async () => {
    const folder = aFolder();
    const brief = writeSmallBrief(folder);
    await anfract(folder, 'baseline', brief, '--out', join(folder, 'drawn'), '--workers', '1');
    const coupon = join(folder, 'drawn', 'b001.design.json');
    const readings = join(folder, 'bench.csv');
    const args = ['calibrate', coupon, '--readings', readings, '--source', 'coupon 7, bench A'];
    // Readings far off the drawing: shown, but not written.
    writeFileSync(readings, 'flow_m3_per_h,pressure_Pa\n1,20000\n2,65000\n3,130000\n4,220000\n');
    const far = await anfract(folder, ...args, '--json', '--into', brief);
    expect(far.code).toBe(2);
    expect(far.stderr).toContain('Nothing was written');
    const rows: { flow_m3_per_h: number; estimated_Pa: number }[] = JSON.parse(far.stdout).readings;
    const table = rows.map((row) => `${row.flow_m3_per_h},${1.2 * row.estimated_Pa}`);
    writeFileSync(readings, ['flow_m3_per_h,pressure_Pa', ...table].join('\n'));
    const fitted = await anfract(folder, ...args, '--into', brief);
    expect(fitted.code, fitted.stderr).toBe(0);
    expect(fitted.stdout).toMatch(/wall friction/);
    const check = await anfract(folder, 'brief', 'check', brief);
    expect(check.code, check.stderr).toBe(0);
    expect(check.stdout).toContain('calibrated by coupon 7, bench A');
    const wrong = await anfract(folder, 'calibrate', coupon, '--readings', brief);
    expect(wrong.code).toBe(2);
  });
});

describe('anfract coupon', () => {
  it('cuts a small plate out of a design, which measures and meshes as one of its own', async () => {
    const folder = aFolder();
    const brief = writeSmallBrief(folder);
    await anfract(folder, 'baseline', brief, '--out', join(folder, 'drawn'), '--workers', '1');
    const plate = join(folder, 'drawn', 'b001.design.json');
    const cut = await anfract(folder, 'coupon', plate, '--size', '14x14', '--out', folder);
    expect(cut.code, cut.stderr).toBe(0);
    expect(cut.stdout).toMatch(/whole channels/);
    const measured = await anfract(folder, 'measure', join(folder, 'b001-coupon.design.json'));
    expect(measured.code, measured.stderr).toBe(0);
    expect(measured.stdout).toContain('Batches');
    const tiny = await anfract(folder, 'coupon', plate, '--size', '2x2');
    expect([tiny.code, tiny.stderr]).toEqual([2, expect.stringContaining('nearest channel')]);
    const odd = await anfract(folder, 'coupon', plate, '--size', 'small');
    expect([odd.code, odd.stderr]).toEqual([2, expect.stringContaining('two numbers')]);
  });
});

describe('anfract report', () => {
  it('writes one HTML file that stands alone and passes an HTML checker', async () => {
    const folder = aFolder();
    const hostile = JSON.parse(readFileSync(writeSmallBrief(folder, { generations: 2 }), 'utf8'));
    hostile.name = '<script>alert("plate")</script> & co';
    const brief = join(folder, 'hostile.json');
    writeFileSync(brief, JSON.stringify(hostile));
    const run = join(folder, 'run');
    await anfract(folder, 'evolve', brief, '--out', run, '--no-meshes', '--quiet');
    const written = await anfract(folder, 'report', run, 'd001', '--out', join(folder, 'r.html'));
    expect(written.code, written.stderr).toBe(0);
    const html = readFileSync(join(folder, 'r.html'), 'utf8');
    const checker = new HtmlValidate({ extends: ['html-validate:recommended'] });
    const report = await checker.validateString(html);
    expect(report.results.flatMap((file) => file.messages.map((entry) => entry.message))).toEqual(
      [],
    );
    expect(html).not.toMatch(/<script|<link|<img|src=|@import/i);
    expect(html).not.toMatch(/https?:\/\/(?!www\.w3\.org\/)/);
    // Drawing, open view, pressure, dust, sound, light, layers, one layer; and the front.
    expect(html.match(/<figure>/g)?.length).toBe(9);
    expect(html).toContain('pressure over flow');
    expect(html).toContain('Printing it');
    const missing = await anfract(folder, 'report', run, 'd999');
    expect(missing.code).toBe(2);
  });
});

describe('anfract fan', () => {
  it('prints a supply that a brief takes, and names the nearest fan', async () => {
    const folder = aFolder();
    const brief = JSON.parse(readFileSync(writeSmallBrief(folder), 'utf8'));
    const fan = await anfract(folder, 'fan', 'brisk-80', '--speed', '0.8');
    expect(fan.code, fan.stderr).toBe(0);
    const driven = join(folder, 'driven.json');
    brief.air.supply = JSON.parse(fan.stdout);
    writeFileSync(driven, JSON.stringify(brief));
    expect((await anfract(folder, 'brief', 'check', driven)).code).toBe(0);
    const missing = await anfract(folder, 'fan', 'brisk-8');
    expect([missing.code, missing.stderr]).toEqual([2, expect.stringContaining('brisk-80')]);
  });
});
