/** `anfract verify` end to end: a real flow in a short wide bore, found again, stopped, refused. */
import { spawn } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { designOf, plateDigest } from '../../src/engine/index.ts';
import {
  readFrontFile,
  readVerifyFile,
  writeDesignFile,
  writeVerifyFile,
} from '../../src/formats/index.ts';
import type { VerifyCase } from '../../src/formats/index.ts';
import { MAIN, aFolder, anfract } from '../support/cli.ts';
import { aComputedFlow } from '../support/computed-flows.ts';
import { writeSmallBrief } from '../support/small-brief-file.ts';
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

/** Runs a command and sends Ctrl-C when a remark appears. */
async function interruptAt(
  cwd: string,
  words: readonly string[],
  remark: string,
): Promise<{ code: unknown; stderr: string }> {
  const running = spawn(process.execPath, [MAIN, ...words], { cwd });
  let stderr = '';
  running.stdout.resume();
  running.stderr.setEncoding('utf8').on('data', (text: string) => {
    const before = stderr.includes(remark);
    stderr += text;
    if (!before && stderr.includes(remark)) running.kill('SIGINT');
  });
  const code = await new Promise((done) => {
    running.once('close', done);
  });
  return { code, stderr };
}

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
    const words = ['verify', 'wide holes.json', '--cells', '20', '--velocity', '1'];
    const { code, stderr } = await interruptAt(folder, words, 'Computing');
    expect(code).toBe(130);
    expect(stderr).toMatch(/Stopped; 0 of 1 flows are computed and kept/);
    expect(stderr).toContain(
      "Go on with  anfract verify 'wide holes.json' --cells 20 --velocity 1",
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

describe('computed flows of a run', () => {
  it('are cited by show, measure and report, and left out once the plate is another', async () => {
    const folder = aFolder();
    writeSmallBrief(folder, { generations: 3 });
    await anfract(folder, 'evolve', 'brief.json', '--out', 'run', '--no-meshes', '--quiet');
    const front = readFrontFile(readFileSync(join(folder, 'run/front.json'), 'utf8'));
    const digest = plateDigest(front.brief, designOf(front, front.designs[0]));
    const slice = '<svg xmlns="http://www.w3.org/2000/svg"><title>an invented slice</title></svg>';
    const flow = aComputedFlow({ digest, estimate_Pa: 123.4 });
    const put = (flows: readonly VerifyCase[]): void =>
      writeFileSync(join(folder, 'run/verify.json'), writeVerifyFile('0.1.0', flows));
    put([flow]);
    writeFileSync(join(folder, 'run/pictures', flow.slice ?? ''), slice);

    expect((await anfract(folder, 'show', 'run')).stdout).toMatch(/computed, estimate \+20 %/);
    const measured = await anfract(folder, 'measure', 'run', 'd001');
    expect(measured.stdout).toMatch(/Computed flow against the estimate\n.*trust\n.*\n.*123\.4/);
    expect(measured.stdout).toContain('An invented verdict.');
    const data: unknown = JSON.parse(
      (await anfract(folder, 'measure', 'run', 'd001', '--json')).stdout,
    );
    expect(data).toMatchObject({ flows: [flow] });
    await anfract(folder, 'report', 'run', 'd001');
    const report = readFileSync(join(folder, 'run/report.html'), 'utf8');
    expect(report).toContain('an invented slice');
    expect(report).toContain('An invented verdict.');

    put([{ ...flow, digest: 'f'.repeat(64) }]);
    expect((await anfract(folder, 'show', 'run')).stdout).not.toMatch(/computed,/);
    expect((await anfract(folder, 'measure', 'run', 'd001')).stdout).not.toContain('123.4');

    writeFileSync(join(folder, 'run/verify.json'), '{ "format": "anfract-ver');
    const shown = await anfract(folder, 'show', 'run');
    expect(shown.code).toBe(0);
    expect(shown.stderr).toMatch(/Computed flows are not shown.*verify\.json/);
    const refused = await anfract(folder, 'measure', 'run', 'd001');
    expect(refused.code).toBe(2);
    expect(refused.stderr).toMatch(/only half written/);
  }, 60_000);

  it('begin at the end of an evolution; Ctrl-C keeps the front', async () => {
    const folder = aFolder();
    writeSmallBrief(folder, { generations: 2 });
    const words = ['evolve', 'brief.json', '--out', 'run', '--no-meshes', '--verify-front', '2'];
    const { code, stderr } = await interruptAt(folder, words, 'Ctrl-C keeps what is solved');
    expect(code).toBe(130);
    expect(stderr).toMatch(/Computing flows of d\d+(, d\d+)?\./);
    expect(stderr).toMatch(/The front is written\. Go on with {2}anfract verify \S+run d\d+/);
    const front = readFrontFile(readFileSync(join(folder, 'run/front.json'), 'utf8'));
    expect(front.designs.length).toBeGreaterThan(1);
  }, 60_000);
});
