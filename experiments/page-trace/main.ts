/**
 * What the built page's own thread does while people work with it, from Chromium's own traces:
 * `npm run build && node dist/experiments/page-trace/main.js [FOLDER]`. With a folder, the traces
 * themselves are kept there (open them in a browser's performance panel). Needs Chromium.
 */
import { spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { cpus, loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';
import type { Locator, Page } from 'playwright-core';
import { crowdedFront } from './crowd.ts';
import { TRACED, readTrace } from './trace.ts';

const MAIN = fileURLToPath(new URL('../../src/cli/main.js', import.meta.url));
const BRIEF = 'experiments/flour-trap/brief.json';
const [, , folder] = process.argv;
/** A front this large is what the page promises to move at 60 frames a second. */
const DESIGNS = 5000;

const brief: { search: object } = JSON.parse(readFileSync(BRIEF, 'utf8'));
const short = { ...brief, search: { ...brief.search, population: 48, generations: 12 } };

const server = spawn(process.execPath, [MAIN, 'page', '--port', '0', '--json'], {
  stdio: ['ignore', 'pipe', 'inherit'],
});
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu'],
});
const files = mkdtempSync(join(tmpdir(), 'anfract-trace-'));
if (folder !== undefined) mkdirSync(folder, { recursive: true });
console.info(`${cpus().length} cores, load ${loadavg()[0].toFixed(1)}`);
try {
  const page = await browser.newPage({
    viewport: { width: 1280, height: 860 },
    acceptDownloads: true,
  });
  page.setDefaultTimeout(120_000);
  const address = await addressOf();
  await traced('opening the page', page, async () => {
    await page.goto(address);
    await page.getByText('The brief is sound.').waitFor();
  });
  await traced('opening a brief and typing in it', page, async () => {
    const text = JSON.stringify(short);
    await choose(page.getByLabel('Open a brief'), 'brief.json', text);
    await page.getByText('The brief is sound.').waitFor();
    await page.getByLabel('Rim [mm]').fill('4');
    await page.waitForTimeout(1000);
  });
  await step(page, 'Evolve');
  await page.getByText(/is sound: 48 designs/u).waitFor();
  await traced('starting a run', page, async () => {
    await page.getByRole('button', { name: 'Start', exact: true }).click();
    await page.getByRole('heading', { name: 'The front as it grows' }).waitFor();
    await page.waitForTimeout(500);
  });
  await traced('the rest of the run', page, async () => {
    await page.locator('.strip').getByText('done', { exact: true }).waitFor();
  });
  await traced('the front of the run', page, async () => {
    await step(page, 'Front');
    await page.waitForTimeout(1000);
  });
  await step(page, 'Compare');
  const [file] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Front file', exact: true }).click(),
  ]);
  const crowd = crowdedFront(readFileSync(await file.path(), 'utf8'), DESIGNS);
  await traced(`opening a front of ${DESIGNS} designs`, page, async () => {
    await choose(page.locator('main input[type=file]').first(), 'crowd.json', crowd);
    await page.getByRole('region', { name: 'Open fronts' }).getByText('crowd').first().waitFor();
  });
  await page.getByRole('button', { name: 'Take crowd' }).click();
  await traced('its plots and its table', page, async () => {
    await step(page, 'Front');
    await page.waitForTimeout(2500);
  });
  const plot = await boxOf(page, '.scatter .canvas');
  await traced('panning it', page, () => drag(page, plot.x + 300, plot.y + 150, 2, 1));
  await traced('looking closer at it', page, async () => {
    await page.mouse.move(plot.x + 300, plot.y + 150);
    await page.keyboard.down('Shift');
    for (let i = 0; i < 20; i++) await page.mouse.wheel(0, i < 10 ? -100 : 100);
    await page.keyboard.up('Shift');
    await page.waitForTimeout(500);
  });
  await page.locator('.parallel .brushes').scrollIntoViewIfNeeded();
  const axes = await boxOf(page, '.parallel .brushes');
  await traced('brushing an axis', page, () => drag(page, axes.x + 70, axes.y + 100, 0, 3));
  await page.evaluate('scrollTo(0, 0)');
  await traced('scrolling the table', page, async () => {
    await page.locator('.designs').hover();
    for (let i = 0; i < 40; i++) await page.mouse.wheel(0, 300);
    await page.waitForTimeout(300);
  });
  await traced('building a part in 3D', page, async () => {
    await step(page, 'Part');
    await page.getByText('Building the body').waitFor({ state: 'detached' });
    await page
      .getByAltText(/cut open/u)
      .first()
      .waitFor();
    await page.waitForTimeout(500);
  });
  const canvas = page.getByRole('application').first();
  await traced('turning it', page, async () => {
    await canvas.focus();
    for (let i = 0; i < 20; i++) await page.keyboard.press('ArrowRight');
    await page.waitForTimeout(300);
  });
  await page.getByLabel('Show').selectOption({ label: 'Part with its air' });
  for (const shade of ['air velocity', 'wall thickness', 'overhang', 'dust kept']) {
    await traced(`colouring it by ${shade}`, page, async () => {
      await page.getByLabel('Colour by').selectOption({ label: shade });
      await page.getByText('working it out').waitFor({ state: 'detached' });
      await page.waitForTimeout(500);
    });
  }
  await traced('leafing through its layers', page, async () => {
    const slider = page.getByRole('region', { name: 'Layers' }).getByRole('slider');
    await slider.focus();
    for (let i = 0; i < 20; i++) await page.keyboard.press('ArrowRight');
    await page.waitForTimeout(500);
  });
  await traced('comparing both fronts', page, async () => {
    await step(page, 'Compare');
    await page.getByRole('region', { name: 'Joint front' }).waitFor();
    await page.waitForTimeout(1000);
  });
} finally {
  await browser.close();
  rmSync(files, { recursive: true });
  server.kill('SIGTERM');
}

async function traced(what: string, page: Page, work: () => Promise<void>): Promise<void> {
  await browser.startTracing(page, { categories: [...TRACED] });
  await work();
  const json = await browser.stopTracing();
  const name = what.replaceAll(/\W+/gu, '-');
  if (folder !== undefined) writeFileSync(join(folder, `${name}.json`), json);
  const { tasks, busy_ms, longest_ms, long } = readTrace(json.toString('utf8'));
  console.info(
    `${what}: ${tasks} tasks, busy ${busy_ms.toFixed(0)} ms, longest ${longest_ms.toFixed(0)} ms, ${long.length} over 50 ms, ${long.filter(({ own_ms }) => own_ms > 50).length} of them on a processor`,
  );
  for (const { length_ms, own_ms, parts } of long) {
    const words = parts.slice(0, 6).map(([part, ms]) => `${part} ${ms.toFixed(0)}`);
    console.info(`  ${length_ms.toFixed(0)} ms, ${own_ms.toFixed(0)} ms own: ${words.join(', ')}`);
  }
}

/** By its path: handed over as text, the driver itself would hold the page up to unpack it. */
async function choose(input: Locator, name: string, text: string): Promise<void> {
  const path = join(files, name);
  writeFileSync(path, text);
  await input.setInputFiles(path);
}

async function boxOf(page: Page, selector: string): Promise<{ x: number; y: number }> {
  const box = await page.locator(selector).first().boundingBox();
  if (box === null) throw new Error(`${selector} is not on the page.`);
  return box;
}

async function drag(page: Page, x: number, y: number, dx: number, dy: number): Promise<void> {
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let i = 1; i <= 60; i++) await page.mouse.move(x + dx * i, y + dy * i);
  await page.mouse.up();
  await page.waitForTimeout(500);
}

async function addressOf(): Promise<string> {
  for await (const line of createInterface({ input: server.stdout })) {
    const answer: { readonly url: string } = JSON.parse(line);
    return answer.url;
  }
  throw new Error('The server ended without an address.');
}

async function step(page: Page, name: string): Promise<void> {
  await page.locator('nav').getByRole('link', { name }).click();
  await page.locator('main h1').waitFor();
}
