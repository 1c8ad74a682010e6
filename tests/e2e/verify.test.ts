/** `anfract verify` end to end: a real flow in a short wide bore, found again, stopped, refused. */
import { spawn } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readVerifyFile, writeDesignFile } from '../../src/formats/index.ts';
import { MAIN, aFolder, anfract } from '../support/cli.ts';
import { aBrief, aChannel, aDesign, aGrid } from '../support/plates.ts';

/** Four bores of 10 mm through 4 mm: about 10 000 cells. */
function drawPlate(folder: string): void {
  const channel = aChannel({
    bore_mm: [10],
    points_mm: [
      [0, 0, 0],
      [0, 0, 4],
    ],
    placements: aGrid(2, 20),
  });
  const design = aDesign({ plate: { thickness_mm: 4 }, channels: [channel] });
  const usual = aBrief();
  const brief = { ...usual, plate: { ...usual.plate, thickness_mm: 4 } };
  const file = { name: 'wide holes', brief, design, genes: null };
  writeFileSync(join(folder, 'wide holes.json'), writeDesignFile(file));
}

const ASK = ['verify', 'wide holes.json', '--cells', '10', '--velocity', '1'] as const;

describe('anfract verify', () => {
  it('computes a flow, keeps it with its field, and finds it again at once', async () => {
    const folder = aFolder();
    drawPlate(folder);
    const first = await anfract(folder, ...ASK);
    expect(first.stderr).toMatch(/Computing 1 flow with 1 worker/);
    expect(first.code).toBe(0);
    const file = join(folder, 'wide holes.verify.json');
    const [flow] = readVerifyFile(readFileSync(file, 'utf8'));
    // A thick-edged orifice: loss factor 1 to 3 velocity pressures (Idelchik 1994, diagrams 8-1 and 8-2;
    // 0.6 Pa here), whatever the share of it that neighbouring jets win back.
    const loss = flow.pressureDrop_Pa / (0.5 * flow.density_kg_per_m3);
    expect(loss).toBeGreaterThan(1);
    expect(loss).toBeLessThan(3);
    expect(flow.velocity_m_per_s).toBeCloseTo(1, 6);
    expect(first.stdout).toContain(`trust`);
    expect(readFileSync(join(folder, flow.field ?? ''), 'utf8')).toContain('<ImageData');
    expect(readFileSync(join(folder, flow.slice ?? ''), 'utf8')).toContain('<svg');

    const again = await anfract(folder, ...ASK);
    expect(again.stderr).toMatch(/1 of 1 flows was computed before/);
    expect(again.stdout).toBe(first.stdout);
    const asData = await anfract(folder, ...ASK, '--json');
    expect(JSON.parse(asData.stdout)).toMatchObject({ cases: [flow], failed: [] });
    expect(asData.stderr).toBe('');

    writeFileSync(file, readFileSync(file, 'utf8').split('"grids"')[0]);
    const torn = await anfract(folder, ...ASK);
    expect(torn.code).toBe(2);
    expect(torn.stderr).toMatch(/verify\.json.*\n.*only half written/);
  }, 120_000);

  it('stops at once on Ctrl-C and says how to go on', async () => {
    const folder = aFolder();
    drawPlate(folder);
    const words = ['verify', 'wide holes.json', '--cells', '40', '--velocity', '1'];
    const running = spawn(process.execPath, [MAIN, ...words], { cwd: folder });
    let stderr = '';
    running.stderr.setEncoding('utf8').on('data', (text: string) => {
      if (stderr === '' && text.includes('Computing')) running.kill('SIGINT');
      stderr += text;
    });
    const code = await new Promise((done) => {
      running.once('close', done);
    });
    expect(code).toBe(130);
    expect(stderr).toMatch(/Stopped; 0 of 1 flows are computed and kept/);
    expect(stderr).toContain(
      "Go on with  anfract verify 'wide holes.json' --cells 40 --velocity 1",
    );
  }, 60_000);

  it.each([
    [['--velocity', '30'], /above 1320.*nearest velocity it answers for is \d\.\d\d m\/s/],
    [['--velocity', '1', '--workers', '1', '--memory', '2'], /memory is \d+ MB for 1 at once/],
    [['--velocity', '1,1'], /must stand once/],
    [['--velocity', '0'], /above 0/],
  ])('refuses %j', async (options, words) => {
    const folder = aFolder();
    drawPlate(folder);
    const ended = await anfract(folder, 'verify', 'wide holes.json', ...options);
    expect(ended.code).toBe(2);
    expect(ended.stderr.replaceAll('\n', ' ')).toMatch(words);
  });
});
