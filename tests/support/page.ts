/** The built page in a real browser: one server and one browser per test file, every fault noted. */
import { spawn } from 'node:child_process';
import type { ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import type {
  Browser,
  BrowserContext,
  BrowserContextOptions,
  Download,
  Page,
} from 'playwright-core';
import { afterAll, beforeAll, onTestFinished } from 'vitest';
import { writeFrontFile } from '../../src/formats/index.ts';
import type { Front } from '../../src/engine/index.ts';
import { CHROMIUM, hasChromium, openBrowser } from './browser.ts';
import { MAIN } from './cli.ts';

const inCi = process.env.CI === 'true';
/** Skipped only where nobody promised a browser. */
export const skipped = !hasChromium && !inCi;
export const reason = skipped ? ` (skipped: no ${CHROMIUM}; on Debian: apt install chromium)` : '';

/** The page of one test, and what went wrong in it. */
export interface Visited {
  readonly page: Page;
  readonly context: BrowserContext;
  /** Console errors and warnings, uncaught errors, failed requests; policy violations are among them. */
  readonly faults: readonly string[];
  /** Addresses asked for that are not the server's own. */
  readonly outside: readonly string[];
}

export interface VisitOptions extends BrowserContextOptions {
  /** Where the page opens; the brief by default. */
  readonly hash?: string;
  /** Runs in the page before its own scripts: a function without surroundings, or a script. */
  readonly before?: string | (() => void);
  /** Script put before one of the page's own workers, by the beginning of its name. */
  readonly preface?: { readonly worker: string; readonly script: string };
}

/** Starts the server and the browser before the tests of a file, ends both after them. */
export function pageTests(runs?: string): {
  readonly visit: (options?: VisitOptions) => Promise<Visited>;
  readonly url: () => string;
} {
  let server: ChildProcess | null = null;
  let browser: Browser | null = null;
  let url = '';
  beforeAll(async () => {
    if (!hasChromium) {
      throw new Error(`${CHROMIUM} is missing: apt-get install chromium, or run without CI=true.`);
    }
    const args = ['page', ...(runs === undefined ? [] : [runs]), '--port', '0', '--json'];
    const child = spawn(process.execPath, [MAIN, ...args], {
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    server = child;
    const [opened, address] = await Promise.all([openBrowser(), addressOf(child)]);
    browser = opened;
    url = address;
  }, 60_000);
  afterAll(async () => {
    await browser?.close();
    if (server !== null && server.exitCode === null) {
      const gone = once(server, 'exit');
      server.kill('SIGTERM');
      await gone;
    }
  });
  return {
    url: () => url,
    async visit({ hash = '#/brief', before, preface, ...options } = {}) {
      if (browser === null) throw new Error('The browser did not start.');
      const context = await browser.newContext({ acceptDownloads: true, ...options });
      onTestFinished(() => context.close());
      if (before !== undefined) {
        await context.addInitScript(typeof before === 'string' ? { content: before } : before);
      }
      if (preface !== undefined) {
        await context.route(`**/${preface.worker}-*.js`, async (route) => {
          const answer = await route.fetch();
          const body = `${preface.script}\n${await answer.text()}`;
          await route.fulfill({ response: answer, body });
        });
      }
      const page = await context.newPage();
      page.setDefaultTimeout(30_000);
      const visited = watch(page, context, url);
      await page.goto(`${url}${hash}`);
      return visited;
    },
  };
}

/** The driver of a machine without graphics card says so when a picture is read back. */
const SLOW_GL = /GL Driver Message \(OpenGL, Performance, .*ReadPixels/u;

function watch(page: Page, context: BrowserContext, url: string): Visited {
  const faults: string[] = [];
  const outside: string[] = [];
  page.on('console', (message) => {
    if (!['error', 'warning'].includes(message.type())) return;
    if (!SLOW_GL.test(message.text())) faults.push(`console: ${message.text()}`);
  });
  page.on('pageerror', (error) => faults.push(`uncaught: ${error.message}`));
  page.on('crash', () => faults.push('the page crashed'));
  context.on('request', (request) => {
    const address = request.url();
    if (!address.startsWith(url) && !/^(?:blob|data):/u.test(address)) outside.push(address);
  });
  context.on('requestfailed', (request) => {
    // A reload or a download ends requests under way; those are nobody's fault.
    const why = request.failure()?.errorText ?? '';
    if (why !== 'net::ERR_ABORTED') faults.push(`request failed: ${request.url()} ${why}`);
  });
  return { page, context, faults, outside };
}

/** The first line of the server, as its user reads it. */
async function addressOf(child: ChildProcess): Promise<string> {
  if (child.stdout === null) throw new Error('The server has no output.');
  for await (const line of createInterface({ input: child.stdout })) {
    const answer: unknown = JSON.parse(line);
    if (typeof answer === 'object' && answer !== null && 'url' in answer) return String(answer.url);
  }
  throw new Error('The server ended without an address.');
}

/** Gives the brief form a file, as if chosen by hand. */
export async function openBriefFile(
  page: Page,
  name: string,
  content: string | Buffer,
): Promise<void> {
  const buffer = typeof content === 'string' ? Buffer.from(content) : content;
  await page
    .getByLabel('Open a brief')
    .setInputFiles({ name, mimeType: 'application/json', buffer });
}

/** A script for `before` that leaves a brief as the draft of an earlier visit. */
export function draftOf(brief: unknown): string {
  return `localStorage.getItem('anfract/draft') ?? localStorage.setItem('anfract/draft', ${JSON.stringify(JSON.stringify(brief))});`;
}

/** Goes to a step of the page. */
export async function goTo(page: Page, step: string): Promise<void> {
  await page.locator('nav').getByRole('link', { name: step }).click();
  await page.locator('main h1').waitFor();
}

/** From a brief to the end of its run, on the page. */
export async function evolveOnPage(page: Page, brief: unknown): Promise<void> {
  await openBriefFile(page, 'brief.json', JSON.stringify(brief));
  await goTo(page, 'Evolve');
  const { name } = brief as { readonly name: string };
  await page.getByText(`The brief \u201c${name}\u201d is sound`).waitFor();
  await page.getByRole('button', { name: 'Start', exact: true }).click();
  await ended(page);
}

/** Opens a front from a file and goes to its plots. */
export async function openFront(page: Page, front: Front): Promise<void> {
  if (!page.url().includes('#/compare')) await goTo(page, 'Compare');
  // By a path: as text the browser's driver would unpack it on the page's own thread.
  const folder = mkdtempSync(join(tmpdir(), 'anfract-front-'));
  const path = join(folder, 'invented.json');
  writeFileSync(path, writeFrontFile(front));
  await page.locator('main input[type=file]').first().setInputFiles(path);
  await page.getByRole('region', { name: 'Open fronts' }).getByText('invented').first().waitFor();
  rmSync(folder, { recursive: true });
  await page.locator('nav').getByRole('link', { name: 'Front' }).click();
  await page.getByRole('heading', { name: /^Front of/u }).waitFor();
}

export interface Dropped {
  readonly name: string;
  readonly content: string | Buffer;
}

/** Drops files on the view, as a hand would. */
export async function drop(page: Page, files: readonly Dropped[]): Promise<void> {
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

/** Waits until the run of the page is done. */
export async function ended(page: Page): Promise<void> {
  await page.locator('.strip').getByText('done', { exact: true }).waitFor();
}

/** What a click hands over. */
export async function taken(page: Page, click: () => Promise<void>): Promise<Download> {
  const [download] = await Promise.all([page.waitForEvent('download'), click()]);
  return download;
}

export async function bytesOf(download: Download): Promise<Buffer> {
  return readFileSync(await download.path());
}
