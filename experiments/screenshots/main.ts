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
function shortBrief(): Record<string, unknown> {
  const brief: { search: object } & Record<string, unknown> = JSON.parse(
    readFileSync(BRIEF, 'utf8'),
  );
  return { ...brief, search: { ...brief.search, population: 48, generations: 20 } };
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
  await page.getByLabel('Open a brief').setInputFiles({
    name: 'brief.json',
    mimeType: 'application/json',
    buffer: Buffer.from(JSON.stringify(shortBrief())),
  });
  await page.getByText('The brief is sound.').waitFor();
  await page.getByRole('img', { name: /^Plate of/u }).waitFor();
  await take(page, 'brief');
  await step(page, 'Evolve');
  await page.getByText(/is sound: 48 designs/u).waitFor();
  await page.getByRole('button', { name: 'Start', exact: true }).click();
  await page.locator('.readings dd', { hasText: /^1[2-9] of 20$/u }).waitFor({ timeout: 300_000 });
  await take(page, 'evolve');
  await page.locator('.strip').getByText('done', { exact: true }).waitFor({ timeout: 300_000 });
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
  await take(page, 'part');
  await step(page, 'Compare');
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
