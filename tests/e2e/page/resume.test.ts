/** Runs that lose their tab or a worker: kept, replaced, gone on with; the same front in the end. */
import { describe, expect, it } from 'vitest';
import type { Page, Worker } from 'playwright-core';
import {
  bytesOf,
  drop,
  ended,
  evolveOnPage,
  goTo,
  openBriefFile,
  pageTests,
  reason,
  skipped,
  taken,
} from '../../support/page.ts';
import { smallBrief } from '../../support/small-brief.ts';

const BRIEF = smallBrief({ generations: 12 });

/** The front as its table shows it. */
async function shownFront(page: Page): Promise<string> {
  await page.locator('nav').getByRole('link', { name: 'Front' }).click();
  return page.getByRole('region', { name: 'Designs of the front' }).innerText();
}

/** Starts the run and waits until it is in the middle, with a checkpoint made. */
async function startRun(page: Page, brief = BRIEF): Promise<void> {
  await openBriefFile(page, 'brief.json', JSON.stringify(brief));
  await goTo(page, 'Evolve');
  await page.getByText(/The brief .small test plate. is sound/u).waitFor();
  await page.getByRole('button', { name: 'Start', exact: true }).click();
}

/** The page's workers in the order they began: the desk, the one that drives the run, its scorers. */
function workersOf(page: Page): Worker[] {
  const workers = page.workers().filter((worker) => /\/page\.web-/u.test(worker.url()));
  expect(workers.length).toBeGreaterThanOrEqual(3);
  return workers;
}

async function inTheMiddle(page: Page): Promise<void> {
  await page.locator('.readings dd', { hasText: /^[3-9] of 12$/u }).waitFor();
}

describe.skipIf(skipped)(`a run left in the middle${reason}`, () => {
  const { visit, url } = pageTests();

  let undisturbed: string | null = null;
  const expected = async (): Promise<string> => {
    if (undisturbed === null) {
      const { page } = await visit();
      await evolveOnPage(page, BRIEF);
      undisturbed = await shownFront(page);
    }
    return undisturbed;
  };

  it('is offered after a reload and ends with the front of an undisturbed run', async () => {
    const { page, faults } = await visit();
    await startRun(page);
    await inTheMiddle(page);
    await page.reload();
    const offer = page.getByText(/was left after \d+ of 12 generations/u);
    const left = Number(/after (\d+) of/u.exec(await offer.innerText())?.[1]);
    expect(left).toBeGreaterThanOrEqual(2);
    expect(left).toBeLessThan(12);
    await page.getByRole('button', { name: 'Go on with it' }).click();
    await ended(page);
    expect(await shownFront(page)).toBe(await expected());
    expect(faults).toEqual([]);

    // A finished run is not offered again.
    await page.reload();
    await page.locator('nav').getByRole('link', { name: 'Evolve' }).click();
    await page.getByRole('button', { name: 'Start', exact: true }).waitFor();
    expect(await offer.count()).toBe(0);
  });

  it('replaces scoring workers that end without a word, and comes to the same front', async () => {
    const { page, faults } = await visit();
    await startRun(page);
    await inTheMiddle(page);
    // Closed from within: no browser tells anybody, just as when it kills one.
    const [, , scorer] = workersOf(page);
    await scorer.evaluate('close()').catch(() => undefined);
    await page.getByText('A worker was lost and replaced (worker ended).').waitFor();
    await ended(page);
    expect(await shownFront(page)).toBe(await expected());
    expect(faults).toEqual([]);
  });

  it('says so when the worker that drives it is killed, and goes on to the same front', async () => {
    const { page, faults } = await visit();
    await startRun(page);
    await inTheMiddle(page);
    const [, driver] = workersOf(page);
    await driver.evaluate('close()').catch(() => undefined);
    await page.getByText(/The run stopped: its worker was ended by the browser/u).waitFor();
    await page.locator('.strip').getByText('paused', { exact: true }).waitFor();
    await page.getByRole('button', { name: 'Go on', exact: true }).click();
    await ended(page);
    expect(await shownFront(page)).toBe(await expected());
    expect(faults).toEqual([]);
  });

  it('is saved when memory runs out, and goes on after a reload', async () => {
    const { page, faults } = await visit();
    await startRun(page);
    await inTheMiddle(page);
    // The next batch finds no memory for its rows; these are the browser's words.
    const [, driver] = workersOf(page);
    await driver.evaluate(`{
      Float64Array.prototype.slice = () => {
        throw new RangeError('Array buffer allocation failed');
      };
    }`);
    await page
      .getByText(
        /The run stopped: Array buffer allocation failed\. It is kept as of its last checkpoint/u,
      )
      .waitFor();
    await page.locator('.strip').getByText('paused', { exact: true }).waitFor();
    expect(faults).toEqual([]);
    await page.reload();
    await page.getByText(/was left after \d+ of 12 generations/u).waitFor();
    await page.getByRole('button', { name: 'Go on with it' }).click();
    await ended(page);
    expect(await shownFront(page)).toBe(await expected());
  });

  it('is offered when its tab has crashed', async () => {
    const { page, context } = await visit();
    await startRun(page);
    await inTheMiddle(page);
    await page.goto('chrome://crash').catch(() => undefined);
    const again = await context.newPage();
    await again.goto(`${url()}#/run`);
    await again.getByText(/was left after \d+ of 12 generations/u).waitFor();
  });

  it('keeps stars and notes through reload, end and file', async () => {
    const { page, faults } = await visit();
    await startRun(page, smallBrief({ generations: 40 }));
    await page.locator('.readings dd', { hasText: /^\d+ of 40$/u }).waitFor();
    await page.getByRole('button', { name: 'Pause', exact: true }).click();
    await page.locator('.strip').getByText('paused', { exact: true }).waitFor();
    const stars = (of: Page) => of.locator('button.star[aria-pressed=true]');
    const rows = page.getByRole('region', { name: 'Designs of the front' });
    await goTo(page, 'Front');
    await rows.getByRole('button', { name: /^Star/u }).first().click();
    expect(await stars(page).count()).toBe(1);
    const starred = await rows.locator('tr', { has: stars(page) }).innerText();
    await page.waitForTimeout(1000);
    await page.reload();
    await goTo(page, 'Evolve');
    await page.getByRole('button', { name: 'Go on with it' }).click();
    // As soon as the front is there again, its star is; if the design leaves the front, so does it.
    await ended(page);
    await goTo(page, 'Front');
    const [, ...readings] = starred.split('\t');
    const stays = (await rows.innerText()).includes(readings.slice(0, 3).join('\t'));
    expect(await stars(page).count()).toBe(stays ? 1 : 0);
    await rows.getByRole('button', { name: /^Star/u }).last().click();
    const count = await stars(page).count();
    await goTo(page, 'Compare');
    const file = await bytesOf(
      await taken(page, () =>
        page.getByRole('button', { name: 'Front file', exact: true }).click(),
      ),
    );
    const zip = await bytesOf(
      await taken(page, () => page.getByRole('button', { name: 'Run folder (zip)' }).click()),
    );
    expect(faults).toEqual([]);

    // The same browser knows the front by its file; any other by the zip.
    await page.reload();
    await goTo(page, 'Compare');
    await drop(page, [{ name: 'mine.json', content: file }]);
    const noted = (of: Page) =>
      of.getByRole('region', { name: 'Open fronts' }).locator('tbody td.n');
    await expect.poll(() => noted(page).nth(1).textContent()).toBe(String(count));
    const { page: other } = await visit({ hash: '#/compare' });
    await drop(other, [{ name: 'mine.zip', content: zip }]);
    await expect.poll(() => noted(other).nth(1).textContent()).toBe(String(count));
  });
});
