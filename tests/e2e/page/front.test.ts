/** The front in linked plots: one selection, one set of ranges, by pointer and by keys. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Locator, Page } from 'playwright-core';
import { writeFrontCsv } from '../../../src/formats/index.ts';
import type { Front } from '../../../src/engine/index.ts';
import { collectPoints, fitView } from '../../../src/web/plots/scatter-data.ts';
import { PLOT_MARGIN } from '../../../src/web/plots/scatter-draw.ts';
import { emptyFront, inventedFront } from '../../support/invented-front.ts';
import { bytesOf, openFront, pageTests, reason, skipped, taken } from '../../support/page.ts';

/** Where the plot of a front by its first two objectives puts a design [page px]. */
async function placeOf(plot: Locator, front: Front, row: number): Promise<[number, number]> {
  const box = await plot.boundingBox();
  if (box === null) throw new Error('The plot is not on the page.');
  const loaded = { id: 'f', name: 'f', front };
  const data = collectPoints([loaded], front.objectives[0], front.objectives[1], null);
  const view = fitView(data);
  const { left, right, top, bottom } = PLOT_MARGIN;
  const shareX = (data.x[row] - view.x[0]) / (view.x[1] - view.x[0]);
  const shareY = (data.y[row] - view.y[0]) / (view.y[1] - view.y[0]);
  return [
    box.x + left + shareX * (box.width - left - right),
    box.y + box.height - bottom - shareY * (box.height - top - bottom),
  ];
}

describe.skipIf(skipped)(`the front in plots${reason}`, () => {
  const { visit } = pageTests();
  const rowsOf = (page: Page) =>
    page.getByRole('region', { name: 'Designs of the front' }).locator('tbody tr[aria-rowindex]');

  it('selects in the scatter what the table then shows, also far down in it', async () => {
    const front = inventedFront(300);
    const { page, faults } = await visit({ hash: '#/compare' });
    await openFront(page, front);
    expect(await rowsOf(page).count()).toBeLessThan(80);
    const plot = page.getByRole('application', { name: /designs, mass over pressure drop/u });
    await page.waitForTimeout(300);
    await page.mouse.click(...(await placeOf(plot, front, 250)));
    const chosen = rowsOf(page).locator('button[aria-pressed=true]');
    await chosen.waitFor();
    expect(await chosen.innerText()).toBe(front.designs[250].id);
    expect(await chosen.isVisible()).toBe(true);
    expect(faults).toEqual([]);
  });

  it('keeps fewer designs after a drag on an axis, and all again when its chip goes', async () => {
    const front = inventedFront(40);
    const { page, faults } = await visit({ hash: '#/compare' });
    await openFront(page, front);
    await page.getByText('All 40 designs are kept').waitFor();
    const low = page.getByRole('slider', { name: 'pressure drop, least kept' });
    const high = page.getByRole('slider', { name: 'pressure drop, greatest kept' });
    await low.scrollIntoViewIfNeeded();
    const [from, to] = [await low.boundingBox(), await high.boundingBox()];
    if (from === null || to === null) throw new Error('The axis is not on the page.');
    const x = from.x + from.width / 2;
    // From the middle of the axis to its upper end: the greater half of the pressure drops.
    await page.mouse.move(x, (from.y + to.y + to.height) / 2);
    await page.mouse.down();
    await page.mouse.move(x, to.y, { steps: 5 });
    await page.mouse.up();
    await page.getByText('20 of 40 designs kept').waitFor();
    expect(await rowsOf(page).count()).toBe(20);
    await page.getByRole('button', { name: /^Lift pressure drop/u }).click();
    await page.getByText('All 40 designs are kept').waitFor();
    expect(await rowsOf(page).count()).toBe(40);
    expect(faults).toEqual([]);
  });

  it('does the same by keys alone', async () => {
    const front = inventedFront(40);
    const { page, faults } = await visit({ hash: '#/compare' });
    await openFront(page, front);
    // One step is a hundredth, Page Up ten: 51 of them leave the designs above 10 + 0.51 * 90 Pa.
    await page.getByRole('slider', { name: 'pressure drop, least kept' }).focus();
    for (const key of ['PageUp', 'PageUp', 'PageUp', 'PageUp', 'PageUp', 'ArrowUp']) {
      await page.keyboard.press(key);
    }
    const above = front.designs.filter(({ readings }) => Number(readings[0]) >= 55.9).length;
    await page.getByText(`${above} of 40 designs kept`).waitFor();
    await page.keyboard.press('Delete');
    await page.getByText('All 40 designs are kept').waitFor();

    await page.getByRole('application', { name: /designs, mass over pressure drop/u }).focus();
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Enter');
    const chosen = rowsOf(page).locator('button[aria-pressed=true]');
    await chosen.waitFor();
    const first = await chosen.innerText();
    await chosen.focus();
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    await expect.poll(() => chosen.innerText()).not.toBe(first);
    expect(await chosen.count()).toBe(1);

    await page.getByText('Order of the axes, and ranges as numbers').click();
    await page.getByRole('spinbutton', { name: 'mass, greatest kept' }).fill('20');
    await page.keyboard.press('Tab');
    const light = front.designs.filter(({ readings }) => Number(readings[1]) <= 20).length;
    await page.getByText(`${light} of 40 designs kept`).waitFor();
    await page.getByRole('button', { name: 'Move mass to the left' }).press('Enter');
    expect(await page.getByRole('slider').first().getAttribute('aria-label')).toBe(
      'mass, least kept',
    );
    expect(faults).toEqual([]);
  });

  it('offers no measure without readings, and hands over plots and table', async () => {
    const front = inventedFront(30);
    const { page, faults } = await visit({ hash: '#/compare' });
    await openFront(page, front);
    expect(await page.getByLabel('Across').locator('option').allInnerTexts()).toEqual([
      'pressure drop [Pa], lower is better',
      'mass [g], lower is better',
      'finest feature [mm], higher is better',
    ]);
    const svg = await taken(page, () =>
      page.getByRole('button', { name: 'Save as SVG: mass over pressure drop' }).click(),
    );
    const text = readFileSync(await svg.path(), 'utf8');
    // A browser reads it as an image without faults, and every design has its mark.
    const sound = await page.evaluate(
      `(() => {
        const read = new DOMParser().parseFromString(${JSON.stringify(text)}, 'image/svg+xml');
        const broken = read.querySelector('parsererror') !== null;
        return broken ? -1 : read.querySelectorAll('g > path').length;
      })()`,
    );
    expect(sound).toBe(30);
    const png = await taken(page, () =>
      page.getByRole('button', { name: /^Save as PNG: Parallel coordinates/u }).click(),
    );
    // PNG signature and, in its first chunk, the width: twice that on the page (ISO/IEC 15948, 5.2 and 11.2.2).
    const bytes = await bytesOf(png);
    expect([...bytes.subarray(0, 8)]).toEqual([137, 80, 78, 71, 13, 10, 26, 10]);
    const shown = await page.locator('.parallel .canvas').evaluate((found) => found.clientWidth);
    expect(Math.abs(bytes.readUInt32BE(16) - 2 * shown)).toBeLessThanOrEqual(2);
    const csv = await taken(page, () =>
      page.getByRole('button', { name: 'Save the table as CSV' }).click(),
    );
    expect((await bytesOf(csv)).toString()).toBe(writeFrontCsv(front));
    expect(faults).toEqual([]);
  });

  it('says in words what the nearest design misses when none meets the limits', async () => {
    const { page, faults } = await visit({ hash: '#/compare' });
    await openFront(page, emptyFront());
    await page.getByText('mass: 62 g, wanted at most 50 g; misses it by 12 g.').waitFor();
    expect(faults).toEqual([]);
  });
});
