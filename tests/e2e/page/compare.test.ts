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
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { frontDigest, readFrontFile, readNotesFile } from '../../../src/formats/index.ts';
import { aFolder, anfract } from '../../support/cli.ts';
import { bytesOf, goTo, pageTests, reason, skipped, taken } from '../../support/page.ts';
import { smallBrief } from '../../support/small-brief.ts';

const RUNS = mkdtempSync(join(tmpdir(), 'anfract-runs-'));

interface Dropped {
  readonly name: string;
  readonly content: string | Buffer;
}

function frontText(run: string): string {
  return readFileSync(join(RUNS, run, 'front.json'), 'utf8');
}

function digestOf(run: string): string {
  return frontDigest(readFrontFile(frontText(run)));
}

/** Drops files on the view, as a hand would. */
async function drop(page: Page, files: readonly Dropped[]): Promise<void> {
  await page.locator('.drop').waitFor();
  const sent = files.map(({ name, content }) => ({
    name,
    content: Buffer.from(content).toString('base64'),
  }));
  // As text: the tests are checked without the browser's own names.
  await page.evaluate(`{
    const data = new DataTransfer();
    for (const { name, content } of ${JSON.stringify(sent)}) {
      const bytes = Uint8Array.from(atob(content), (letter) => letter.codePointAt(0));
      data.items.add(new File([bytes], name));
    }
    const event = new DragEvent('drop', { dataTransfer: data, bubbles: true });
    document.querySelector('.drop').dispatchEvent(event);
  }`);
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
  const { visit, url } = pageTests(RUNS);

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

  it('shows a linked view once the right front is open, and says when it is another', async () => {
    const digest = digestOf('one').slice(0, 16);
    const { designs } = readFrontFile(frontText('one'));
    const chosen = designs.slice(0, 2).map(({ id }) => id);
    const view = `front=${digest}&x=finestFeature_mm&y=mass_g&designs=${chosen.join('.')}`;
    const { page, faults } = await visit({ hash: `#/front?${view}` });
    await page.getByText(`its file's digest begins with ${digest}`).waitFor();
    await goTo(page, 'Compare');
    await drop(page, [{ name: 'two.front.json', content: frontText('two') }]);
    await page
      .getByText(`None of those open is it (two: ${digestOf('two').slice(0, 16)})`)
      .waitFor();
    await drop(page, [{ name: 'one.front.json', content: frontText('one') }]);
    await page.getByRole('heading', { name: 'Front of one' }).waitFor();
    expect(await page.getByRole('combobox', { name: 'Across' }).inputValue()).toBe(
      'finestFeature_mm',
    );
    expect(await page.getByRole('combobox', { name: 'Up', exact: true }).inputValue()).toBe(
      'mass_g',
    );
    expect(await page.locator('tr.chosen th').allTextContents()).toHaveLength(2);
    expect(await page.getByText('digest begins with').count()).toBe(0);
    await goTo(page, 'Compare');
    await page.getByRole('button', { name: 'Link to this view' }).click();
    await expect
      .poll(() => page.getByLabel('Link', { exact: true }).inputValue())
      .toContain(`#/compare?front=${digest}&x=finestFeature_mm&y=mass_g`);
    expect(faults).toEqual([]);
  });

  it('links to plots, parts in 3D and comparisons just as they are shown', async () => {
    const { page, faults } = await visit({ hash: '#/compare' });
    await drop(page, bothFronts());
    const linkOf = async (of: Page): Promise<string> => {
      await of.getByRole('button', { name: 'Link to this view' }).click();
      const field = of.getByLabel('Link', { exact: true });
      await expect.poll(() => field.inputValue()).toContain('front=');
      return field.inputValue();
    };
    await page.getByRole('combobox', { name: 'Across' }).selectOption({ index: 1 });
    await page.getByLabel('Judged by').selectOption('axes');
    const shownOf = async (of: Page): Promise<unknown> => ({
      across: await of.getByRole('combobox', { name: 'Across' }).inputValue(),
      up: await of.getByRole('combobox', { name: 'Up', exact: true }).inputValue(),
    });
    const compared = await shownOf(page);
    const toCompare = await linkOf(page);

    await goTo(page, 'Front');
    await page.getByLabel('shown as').selectOption('shade');
    await page.getByText('Order of the axes, and ranges as numbers').click();
    await page.getByRole('button', { name: 'Move mass to the right' }).click();
    await page.getByRole('slider').first().focus();
    await page.keyboard.press('PageUp');
    await page.getByRole('button', { name: 'Closer' }).click();
    await page.getByLabel(/^Add a measure/u).selectOption({ index: 1 });
    const plotsOf = async (of: Page): Promise<unknown> => ({
      ...((await shownOf(of)) as object),
      as: await of.getByLabel('shown as').inputValue(),
      axes: await of
        .getByRole('slider')
        .evaluateAll((found) =>
          found.map((one) => [
            one.getAttribute('aria-label'),
            Number(one.getAttribute('aria-valuenow')).toPrecision(6),
          ]),
        ),
      chips: await of.getByRole('list', { name: 'Ranges kept' }).innerText(),
      matrix: await of
        .getByRole('application', { name: /^Scatter matrix/u })
        .getAttribute('aria-label'),
      whole: await of.getByRole('button', { name: 'Whole front' }).isDisabled(),
    });
    const plots = await plotsOf(page);
    expect(plots).toMatchObject({ as: 'shade', whole: false });
    const toFront = await linkOf(page);

    await page.getByRole('button', { name: 'd002', exact: true }).first().click();
    await goTo(page, 'Part');
    await page.getByText('Building the body').waitFor({ state: 'detached' });
    await page.getByRole('application').first().focus();
    for (const key of ['ArrowLeft', 'ArrowUp', '+']) await page.keyboard.press(key);
    await page.getByLabel('Show').selectOption('both');
    await page.getByLabel('Colour by').selectOption('overhang');
    await page.getByLabel('Cut').selectOption({ label: 'across z' });
    await page.getByLabel('other half').check();
    await page
      .getByRole('region', { name: 'Layers' })
      .getByText(/mm² print/u)
      .waitFor();
    await page.getByRole('region', { name: 'Layers' }).getByRole('slider').press('End');
    const partOf = async (of: Page): Promise<unknown> => {
      await of.getByText(/^layer \d+ of/u).waitFor();
      return {
        part: await of.getByRole('application').first().getAttribute('aria-label'),
        layer: await of.getByRole('region', { name: 'Layers' }).getByRole('slider').inputValue(),
        other: await of.getByLabel('other half').isChecked(),
      };
    };
    const part = await partOf(page);
    expect(JSON.stringify(part)).toMatch(
      /d002: the part with its air, coloured by overhang, cut across z, turned -50°, raised 45°/u,
    );
    const toPart = await linkOf(page);
    expect(faults).toEqual([]);

    // Another browser with the same files, which does no more than follow the links.
    const { page: other, faults: others } = await visit({ hash: new URL(toCompare).hash });
    await drop(other, bothFronts());
    await other.getByRole('region', { name: 'Joint front' }).waitFor();
    expect(await shownOf(other)).toEqual(compared);
    expect(await other.getByLabel('Judged by').inputValue()).toBe('axes');
    await other.goto(`${url()}${new URL(toFront).hash}`);
    await other.getByRole('heading', { name: /^Front of/u }).waitFor();
    expect(await plotsOf(other)).toEqual(plots);
    await other.goto(`${url()}${new URL(toPart).hash}`);
    await other.getByText('Building the body').waitFor({ state: 'detached' });
    expect(await partOf(other)).toEqual(part);
    expect(others).toEqual([]);
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
