/** Fronts from files, side by side; what leaves the page and comes back; the list of a server's runs. */
import {
  appendFileSync,
  cpSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { unzipSync, zipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { frontDigest, readFrontFile, readNotesFile } from '../../../src/formats/index.ts';
import { aFolder, anfract } from '../../support/cli.ts';
import { bytesOf, drop, goTo, pageTests, reason, skipped, taken } from '../../support/page.ts';
import type { Dropped } from '../../support/page.ts';
import { smallBrief } from '../../support/small-brief.ts';

const RUNS = mkdtempSync(join(tmpdir(), 'anfract-runs-'));

function frontText(run: string): string {
  return readFileSync(join(RUNS, run, 'front.json'), 'utf8');
}

function digestOf(run: string): string {
  return frontDigest(readFrontFile(frontText(run)));
}

function bothFronts(): Dropped[] {
  return ['one', 'two'].map((run) => ({ name: `${run}.front.json`, content: frontText(run) }));
}

/** A run folder as anybody's zip program packs it. */
function zipOf(run: string): Buffer {
  const files: Record<string, Uint8Array> = {};
  for (const name of readdirSync(join(RUNS, run), { recursive: true, encoding: 'utf8' })) {
    if (/\.\w+$/u.test(name)) files[`${run}/${name}`] = readFileSync(join(RUNS, run, name));
  }
  return Buffer.from(zipSync(files));
}

describe.skipIf(skipped)(`comparing on the page${reason}`, () => {
  beforeAll(async () => {
    for (const seed of ['one', 'two']) {
      writeFileSync(join(RUNS, 'brief.json'), JSON.stringify(smallBrief({ generations: 3, seed })));
      const args = ['brief.json', '--out', seed, '--no-meshes', '--quiet'];
      const { code, stderr } = await anfract(RUNS, 'evolve', ...args);
      expect([code, stderr]).toEqual([0, '']);
    }
    // A run that goes on: no front yet.
    cpSync(join(RUNS, 'two'), join(RUNS, 'going'), { recursive: true });
    for (const name of ['front.json', 'front.csv', 'report.html', 'pictures']) {
      rmSync(join(RUNS, 'going', name), { recursive: true });
    }
  }, 120_000);
  afterAll(() => rmSync(RUNS, { recursive: true, force: true }));
  const { visit } = pageTests(RUNS);

  it('counts the joint front of two dropped files as the terminal does', async () => {
    const { page, faults } = await visit({ hash: '#/compare' });
    await drop(page, bothFronts());
    const joint = page.getByRole('region', { name: 'Joint front' });
    await joint.waitFor();
    const { stdout } = await anfract(RUNS, 'compare', 'one', 'two', '--json');
    const found: {
      fronts: { name: string; compared: number; joint: string[]; hypervolume: number }[];
      dominated: number[][];
    } = JSON.parse(stdout);
    const rows = await joint.locator('tbody tr').all();
    expect(rows).toHaveLength(2);
    for (const [i, row] of rows.entries()) {
      const cells = await row.locator('td').allTextContents();
      const { name, compared, joint: survivors } = found.fronts[i];
      expect(await row.locator('th').textContent()).toContain(name);
      expect(cells.slice(0, 2)).toEqual([String(compared), String(survivors.length)]);
      expect(survivors.length).toBeGreaterThan(0);
    }
    const beaten = page.getByRole('region', { name: 'Who beats whom' }).locator('tbody tr');
    expect(await beaten.nth(0).locator('td').nth(1).textContent()).toBe(
      String(found.dominated[0][1]),
    );
    await page.getByText('What the fronts attain').waitFor();
    // The staircases stand in the plot itself: in its picture each is a line that its key names.
    const svg = await taken(page, () =>
      page.getByRole('button', { name: /^Save as SVG: .* over/u }).click(),
    );
    const picture = (await bytesOf(svg)).toString();
    expect(picture.match(/<text[^>]*>[^<]*% *: \d of 2<\/text>/gu)).toHaveLength(2);
    const places = '(?:-?[\\d.]+ -?[\\d.]+L){2,}-?[\\d.]+ -?[\\d.]+';
    const lines = picture.match(new RegExp(`<path d="M${places}"[^>]*stroke-linejoin`, 'gu'));
    expect(lines).toHaveLength(2);
    const png = await taken(page, () =>
      page.getByRole('button', { name: /^Save as PNG: .* over/u }).click(),
    );
    expect([...(await bytesOf(png)).subarray(1, 4)]).toEqual([...Buffer.from('PNG')]);
    expect(faults).toEqual([]);
  });

  it('says of each broken file what is wrong with it, and opens the sound ones', async () => {
    const { page, faults } = await visit({ hash: '#/compare' });
    const text = frontText('one');
    await drop(page, [
      { name: 'cut.json', content: text.slice(0, text.length / 2) },
      {
        name: '<img src=x onerror=alert(1)>.json',
        content: '{"format":"anfract-brief","version":1}',
      },
      { name: 'newer.json', content: text.replace('"version": 1', '"version": 9') },
      { name: 'edited.json', content: text.replace('"evaluations": ', '"evaluations": -') },
      { name: 'mail.zip', content: Buffer.from(zipSync({ 'a.txt': new Uint8Array(3) })) },
      { name: 'one.front.json', content: text },
    ]);
    const list = page.getByRole('list', { name: 'Files with faults' });
    await list.locator('li').nth(4).waitFor();
    const words = await list.locator('li').allTextContents();
    expect(words[0]).toMatch(/^cut\.json.*line \d+, column \d+ is the end of the file/su);
    expect(words[1]).toMatch(/^<img src=x onerror=alert\(1\)>\.json.*format is .*anfract-brief/su);
    expect(words[2]).toMatch(/^newer\.json.*version is 9/su);
    expect(words[3]).toMatch(/^edited\.json.*evaluations is -/su);
    expect(words[4]).toMatch(/^mail\.zip.*no front\.json/su);
    await page.getByRole('region', { name: 'Open fronts' }).locator('tbody tr').waitFor();
    expect(await page.locator('img[src="x"]').count()).toBe(0);
    expect(faults).toEqual([]);
  });

  it('sends a run folder as a zip to the terminal, with notes, and takes one back', async () => {
    const { page, faults } = await visit({ hash: '#/compare' });
    const { designs } = readFrontFile(frontText('one'));
    const note = { id: designs[1].id, star: true, note: 'print two\n<b>this</b>' };
    const notes = { format: 'anfract-notes', version: 1, front: digestOf('one'), designs: [note] };
    await drop(page, [
      { name: 'one.notes.json', content: JSON.stringify(notes) },
      { name: 'one.zip', content: zipOf('one') },
    ]);
    const row = page.getByRole('region', { name: 'Open fronts' }).locator('tbody tr');
    await row.getByText('1', { exact: true }).waitFor();
    const zip = await taken(page, () =>
      page.getByRole('button', { name: 'Run folder (zip)' }).click(),
    );
    expect(zip.suggestedFilename()).toBe('one.zip');
    const bytes = await bytesOf(zip);
    const folder = aFolder();
    for (const [path, content] of Object.entries(unzipSync(bytes))) {
      mkdirSync(dirname(join(folder, path)), { recursive: true });
      writeFileSync(join(folder, path), content);
    }
    for (const name of ['run.json', 'brief.json', 'front.json', 'front.csv', 'history.jsonl']) {
      expect(readFileSync(join(folder, 'one', name), 'utf8'), name).toBe(
        readFileSync(join(RUNS, 'one', name), 'utf8'),
      );
    }
    const here = await anfract(folder, 'show', 'one');
    const there = await anfract(RUNS, 'show', 'one');
    expect([here.code, here.stdout]).toEqual([0, there.stdout]);
    expect(readNotesFile(readFileSync(join(folder, 'one/notes.json'), 'utf8')).designs).toEqual([
      note,
    ]);
    const compared = await anfract(folder, 'compare', await zip.path(), join(RUNS, 'two'));
    expect(compared.code).toBe(0);
    expect(faults).toEqual([]);

    const { page: other } = await visit({ hash: '#/compare' });
    await drop(other, [{ name: 'back.zip', content: bytes }]);
    const back = other.getByRole('region', { name: 'Open fronts' }).locator('tbody tr');
    await back.getByText('1', { exact: true }).waitFor();
  });

  it('puts a star by hand into the notes of the front', async () => {
    const { page, faults } = await visit({ hash: '#/compare' });
    await drop(page, [{ name: 'one.front.json', content: frontText('one') }]);
    await page.getByRole('region', { name: 'Open fronts' }).waitFor();
    await goTo(page, 'Front');
    const star = page.getByRole('button', { name: 'Star d001' });
    await star.click();
    expect(await star.getAttribute('aria-pressed')).toBe('true');
    await goTo(page, 'Part');
    await page.getByLabel('Note on d001').fill('the light one');
    await goTo(page, 'Compare');
    const button = page.getByRole('button', { name: 'Notes and stars' });
    const notes = await bytesOf(await taken(page, () => button.click()));
    expect(readNotesFile(notes.toString())).toEqual({
      front: digestOf('one'),
      designs: [{ id: 'd001', star: true, note: 'the light one' }],
    });
    expect(faults).toEqual([]);
  });

  it('writes front, table and report as the terminal does', async () => {
    const { page, faults } = await visit({ hash: '#/compare' });
    await drop(page, [{ name: 'one.front.json', content: frontText('one') }]);
    const button = (name: string) => page.getByRole('button', { name, exact: true });
    await button('Front file').waitFor();
    const front = await bytesOf(await taken(page, () => button('Front file').click()));
    expect(front.toString()).toBe(frontText('one'));
    const table = await bytesOf(await taken(page, () => button('CSV table').click()));
    expect(table.toString()).toBe(readFileSync(join(RUNS, 'one/front.csv'), 'utf8'));
    const report = await bytesOf(await taken(page, () => button('Report (HTML)').click()));
    const folder = aFolder();
    const { code } = await anfract(RUNS, 'report', 'one', '--out', join(folder, 'report.html'));
    expect(code).toBe(0);
    expect(report.toString()).toBe(readFileSync(join(folder, 'report.html'), 'utf8'));
    expect(faults).toEqual([]);
  }, 120_000);

  it('lists the runs of the server, finds them by words, opens and follows them', async () => {
    const { page, faults } = await visit({ hash: '#/compare' });
    const cards = page.locator('.run-cards > li');
    await expect.poll(() => cards.count()).toBe(3);
    await page.getByLabel('Find').fill('small one');
    await expect.poll(() => cards.count()).toBe(1);
    await page.getByRole('img', { name: 'Front of one' }).waitFor();
    await page.getByRole('button', { name: 'Open one' }).click();
    const open = page.getByRole('region', { name: 'Open fronts' }).locator('tbody tr');
    await open.waitFor();
    await page.locator('.runs > summary').click();
    await page.getByLabel('Find').fill('');
    await page.getByLabel('State').selectOption('open');
    await expect.poll(() => cards.count()).toBe(1);
    await page.getByRole('button', { name: 'Follow going' }).click();
    await page.getByText(/Generation 3: \d+ designs/u).waitFor();
    const line = readFileSync(join(RUNS, 'going/history.jsonl'), 'utf8').trim().split('\n').at(-1);
    const next = { ...JSON.parse(line ?? ''), generation: 4, archived: 17 };
    appendFileSync(join(RUNS, 'going/history.jsonl'), `${JSON.stringify(next)}\n{"gener`);
    await page.getByText('Generation 4: 17 designs').waitFor();
    await page.getByRole('button', { name: 'Open going' }).click();
    await expect.poll(() => open.count()).toBe(2);
    expect(faults).toEqual([]);
  });
});
