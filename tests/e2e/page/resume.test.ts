/** A run that its tab lost: kept at the last checkpoint, offered again, the same front in the end. */
import { describe, expect, it } from 'vitest';
import type { Page } from 'playwright-core';
import {
  ended,
  evolveOnPage,
  openBriefFile,
  pageTests,
  reason,
  skipped,
} from '../../support/page.ts';
import { smallBrief } from '../../support/small-brief.ts';

/** The front as its table shows it. */
async function shownFront(page: Page): Promise<string> {
  await page.locator('nav').getByRole('link', { name: 'Front' }).click();
  return page.getByRole('region', { name: 'Designs of the front' }).innerText();
}

describe.skipIf(skipped)(`a run left in the middle${reason}`, () => {
  const { visit } = pageTests();

  it('is offered after a reload and ends with the front of an undisturbed run', async () => {
    const brief = smallBrief({ generations: 12 });
    const undisturbed = await visit();
    await evolveOnPage(undisturbed.page, brief);
    const expected = await shownFront(undisturbed.page);

    const { page, faults } = await visit();
    await openBriefFile(page, 'brief.json', JSON.stringify(brief));
    await page.locator('nav').getByRole('link', { name: 'Evolve' }).click();
    await page.getByText(/The brief .small test plate. is sound/u).waitFor();
    await page.getByRole('button', { name: 'Start', exact: true }).click();
    // Once a checkpoint has made a front the tab is lost, in the middle of the run.
    await page.locator('.readings dd', { hasText: /^[3-9] of 12$/u }).waitFor();
    await page.reload();
    const offer = page.getByText(/was left after \d+ of 12 generations/u);
    const left = Number(/after (\d+) of/u.exec(await offer.innerText())?.[1]);
    expect(left).toBeGreaterThanOrEqual(2);
    expect(left).toBeLessThan(12);
    await page.getByRole('button', { name: 'Go on with it' }).click();
    await ended(page);
    expect(await shownFront(page)).toBe(expected);
    expect(faults).toEqual([]);

    // A finished run is not offered again.
    await page.reload();
    await page.locator('nav').getByRole('link', { name: 'Evolve' }).click();
    await page.getByRole('button', { name: 'Start', exact: true }).waitFor();
    expect(await offer.count()).toBe(0);
  });
});
