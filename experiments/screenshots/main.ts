/**
 * Pictures of every view of the built page, light and dark: `npm run screenshots`, or
 * `node dist/experiments/screenshots/main.js [FOLDER]`. Needs Chromium (Debian: apt install chromium).
 */
import { spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';
import type { Page } from 'playwright-core';

const MAIN = fileURLToPath(new URL('../../src/cli/main.js', import.meta.url));
const BRIEF = 'experiments/flour-trap/brief.json';
const folder = process.argv[2] ?? 'experiments/screenshots';

/** The invented flour trap with a search short enough for a picture. */
function shortBrief(seed = 'pictures'): Record<string, unknown> {
  const brief: { search: object } & Record<string, unknown> = JSON.parse(
    readFileSync(BRIEF, 'utf8'),
  );
  return { ...brief, search: { ...brief.search, population: 48, generations: 20, seed } };
}

const server = spawn(process.execPath, [MAIN, 'page', '--port', '0', '--json'], {
  stdio: ['ignore', 'pipe', 'inherit'],
});
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
  args: ['--no-sandbox'],
});
try {
  const page = await browser.newPage({ viewport: { width: 1280, height: 860 } });
  await page.goto(await addressOf());
  await openBrief(page, shortBrief());
  await page.getByRole('img', { name: /^Plate of/u }).waitFor();
  await take(page, 'brief');
  await start(page);
  await page.locator('.readings dd', { hasText: /^1[2-9] of 20$/u }).waitFor({ timeout: 300_000 });
  await take(page, 'evolve');
  await done(page);
  await step(page, 'Front');
  await page
    .getByRole('region', { name: 'Designs of the front' })
    .getByRole('button', { name: 'd005', exact: true })
    .click();
  await page.evaluate('scrollTo(0, 0)');
  await take(page, 'front');
  await step(page, 'Part');
  await page
    .getByAltText(/cut open/u)
    .first()
    .waitFor({ timeout: 60_000 });
  await page.waitForTimeout(4000);
  await take(page, 'part');
  await step(page, 'Compare');
  const [file] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Front file', exact: true }).click(),
  ]);
  const first = readFileSync(await file.path());
  // A second run of the same brief, so that there is something to compare.
  await step(page, 'Brief');
  await openBrief(page, shortBrief('other'));
  await start(page);
  await done(page);
  await step(page, 'Compare');
  await page
    .locator('main input[type=file]')
    .first()
    .setInputFiles({ name: 'seed-pictures.json', mimeType: 'application/json', buffer: first });
  await page.getByRole('region', { name: 'Joint front' }).waitFor();
  await page.getByRole('heading', { name: 'Fronts at hand' }).evaluate((heading) => {
    heading.scrollIntoView();
  });
  await take(page, 'compare');
} finally {
  await browser.close();
  server.kill('SIGTERM');
}

async function addressOf(): Promise<string> {
  for await (const line of createInterface({ input: server.stdout })) {
    const answer: { readonly url: string } = JSON.parse(line);
    return answer.url;
  }
  throw new Error('The server ended without an address.');
}

async function openBrief(page: Page, brief: object): Promise<void> {
  await page.getByLabel('Open a brief').setInputFiles({
    name: 'brief.json',
    mimeType: 'application/json',
    buffer: Buffer.from(JSON.stringify(brief)),
  });
  await page.locator('.verdict [data-fresh=true]').getByText('The brief is sound.').waitFor();
}

async function start(page: Page): Promise<void> {
  await step(page, 'Evolve');
  await page.getByText(/is sound: 48 designs/u).waitFor();
  await page.getByRole('button', { name: 'Start', exact: true }).click();
  await page.locator('.strip').getByText('running', { exact: true }).waitFor();
}

async function done(page: Page): Promise<void> {
  await page.locator('.strip').getByText('done', { exact: true }).waitFor({ timeout: 300_000 });
}

async function step(page: Page, name: string): Promise<void> {
  await page.locator('nav').getByRole('link', { name }).click();
  await page.locator('main h1').waitFor();
}

/** Both ways; what is drawn on canvas follows a frame after the colours. */
async function take(page: Page, name: string): Promise<void> {
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme });
    await page.waitForTimeout(800);
    await page.screenshot({ path: join(folder, `${name}-${colorScheme}.png`) });
  }
  await page.emulateMedia({ colorScheme: 'light' });
}
