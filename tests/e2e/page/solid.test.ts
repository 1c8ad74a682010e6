/** The part in 3D in a real browser: something is drawn, keys turn it, cuts and layers show. */
import { describe, expect, it } from 'vitest';
import type { Locator, Page } from 'playwright-core';
import { evolvedFront } from '../../support/evolved-front.ts';
import { goTo, openFront, pageTests, reason, skipped } from '../../support/page.ts';

interface CanvasLike {
  readonly width: number;
  readonly height: number;
}

/** What the test asks of a canvas of its own in the page. */
interface Copy {
  getContext(
    kind: '2d',
    options: { readonly willReadFrequently: boolean },
  ): {
    drawImage(image: CanvasLike, x: number, y: number): void;
    getImageData(
      x: number,
      y: number,
      width: number,
      height: number,
    ): { readonly data: Uint8ClampedArray };
  };
}

interface Pixels {
  /** Different tones among the pixels, coarsely. */
  readonly tones: number;
  /** Sum over all bytes, each weighted by its place: another picture has another. */
  readonly sum: number;
}

async function pixelsOf(canvas: Locator): Promise<Pixels> {
  return canvas.evaluate((element) => {
    const drawn = element as unknown as CanvasLike;
    // Read from a copy: the browser warns of repeated reading from the picture itself.
    const { OffscreenCanvas: Off } = globalThis as unknown as {
      OffscreenCanvas: new (width: number, height: number) => Copy;
    };
    const copy = new Off(drawn.width, drawn.height).getContext('2d', { willReadFrequently: true });
    copy.drawImage(drawn, 0, 0);
    const { data } = copy.getImageData(0, 0, drawn.width, drawn.height);
    const tones = new Set<number>();
    let sum = 0;
    for (let k = 0; k < data.length; k += 4) {
      tones.add(((data[k] >> 4) << 8) | ((data[k + 1] >> 4) << 4) | (data[k + 2] >> 4));
      sum = (sum * 31 + data[k] + 3 * data[k + 1] + 7 * data[k + 2]) % 1_000_000_007;
    }
    return { tones: tones.size, sum };
  });
}

/** Waits until the picture differs from one before. */
async function changed(canvas: Locator, before: Pixels): Promise<Pixels> {
  for (let wait = 0; wait < 100; wait++) {
    const now = await pixelsOf(canvas);
    if (now.sum !== before.sum) return now;
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  throw new Error('The picture stayed as it was.');
}

async function openPart(page: Page): Promise<Locator> {
  await openFront(page, await evolvedFront({ generations: 2 }));
  await goTo(page, 'Part');
  const canvas = page.getByRole('application').first();
  await canvas.waitFor();
  await page.getByText('Building the body').waitFor({ state: 'detached' });
  return canvas;
}

describe.skipIf(skipped)(`the part in 3D${reason}`, () => {
  const { visit } = pageTests();

  it('draws the part, turns it by keys, cuts it, shows its air and its colours', async () => {
    const { page, faults, outside } = await visit();
    const canvas = await openPart(page);
    const blank = { tones: 0, sum: -1 };
    let now = await changed(canvas, blank);
    // Ground, faces in several lights, inked edges.
    for (let wait = 0; wait < 100 && now.tones < 5; wait++) now = await changed(canvas, now);
    expect(now.tones).toBeGreaterThanOrEqual(5);

    await canvas.focus();
    await page.keyboard.press('ArrowRight');
    await page.getByText('turned -70\u00b0, raised 35\u00b0').waitFor();
    now = await changed(canvas, now);
    await page.keyboard.press('2');
    await page.getByText('turned -90\u00b0, raised 90\u00b0').waitFor();
    now = await changed(canvas, now);
    await page.keyboard.press('1');
    now = await changed(canvas, now);

    await page.getByLabel('Cut').selectOption({ label: 'across y' });
    now = await changed(canvas, now);
    expect(await canvas.getAttribute('aria-label')).toContain('cut across y');
    await page.getByLabel('Show').selectOption({ label: 'Channels alone (the air)' });
    now = await changed(canvas, now);
    const { tones } = now;
    await page.getByLabel('Colour by').selectOption({ label: 'air velocity' });
    await page.getByText('working it out').waitFor({ state: 'detached' });
    await page.getByRole('img', { name: /^Colours run from dark for .* m\/s to light/u }).waitFor();
    now = await changed(canvas, now);
    expect(now.tones).not.toBe(tones);
    expect(faults).toEqual([]);
    expect(outside).toEqual([]);
  });

  it('shows two designs side by side: bodies, layers, genes that differ', async () => {
    const { page, faults } = await visit();
    await openFront(page, await evolvedFront({ generations: 2 }));
    await goTo(page, 'Front');
    const rows = page.getByRole('region', { name: 'Designs of the front' }).locator('tbody tr');
    await rows.nth(0).getByRole('button').first().click();
    await rows
      .nth(1)
      .getByRole('button', { name: /^d\d+$/u })
      .click({ modifiers: ['Shift'] });
    await goTo(page, 'Part');
    await page
      .getByText(/mm² print/u)
      .nth(1)
      .waitFor();
    expect(await page.getByText(/mm² print/u).count()).toBe(2);
    const canvases = page.getByRole('application');
    expect(await canvases.count()).toBe(2);
    await canvases.first().focus();
    await page.keyboard.press('ArrowUp');
    for (const k of [0, 1]) {
      await page.getByText('raised 45\u00b0').first().waitFor();
      expect(await canvases.nth(k).getAttribute('aria-label')).toContain('raised 45\u00b0');
    }
    const genes = page.getByRole('region', { name: 'Genes that differ' }).locator('tbody tr');
    const cells = await genes.first().locator('td').allTextContents();
    expect(cells[0]).not.toBe(cells[1]);
    expect(faults).toEqual([]);
  });

  it('leafs through the layers and says what hangs', async () => {
    const { page, faults } = await visit();
    await openPart(page);
    const panel = page.getByRole('region', { name: 'Layers' });
    const slider = panel.getByRole('slider');
    await panel.getByText(/mm² print/u).waitFor();
    await slider.focus();
    await page.keyboard.press('Home');
    // The first layer lies on the bed: nothing of it hangs.
    await panel.getByText(/^layer 1 of \d+, .* 0 mm² hang$/u).waitFor();
    const canvas = panel.getByRole('img');
    const first = await pixelsOf(canvas);
    expect(first.tones).toBeGreaterThanOrEqual(2);
    expect(faults).toEqual([]);
  });

  it('lets go of the graphics when the part is left, and draws again after', async () => {
    const { page, faults } = await visit();
    // Graphics memory belongs to a worker, and goes with it.
    const drawing = (): number =>
      page.workers().filter((worker) => /\/solid\.web-/u.test(worker.url())).length;
    await openPart(page);
    expect(drawing()).toBe(1);
    for (let round = 0; round < 3; round++) {
      await goTo(page, 'Front');
      await expect.poll(drawing).toBe(0);
      await goTo(page, 'Part');
      await page.getByRole('application').first().waitFor();
      await page.getByText('Building the body').waitFor({ state: 'detached' });
      await expect.poll(drawing).toBe(1);
    }
    const canvas = page.getByRole('application').first();
    let now = await pixelsOf(canvas);
    for (let wait = 0; wait < 100 && now.tones < 5; wait++) now = await changed(canvas, now);
    expect(now.tones).toBeGreaterThanOrEqual(5);
    expect(faults).toEqual([]);
  });

  it('draws on the page itself where the browser hands no canvas to a worker', async () => {
    const { page, faults } = await visit({
      before: 'delete HTMLCanvasElement.prototype.transferControlToOffscreen;',
    });
    const canvas = await openPart(page);
    expect(page.workers().filter((worker) => /\/solid\.web-/u.test(worker.url()))).toEqual([]);
    let now = await pixelsOf(canvas);
    for (let wait = 0; wait < 100 && now.tones < 5; wait++) now = await changed(canvas, now);
    expect(now.tones).toBeGreaterThanOrEqual(5);
    await canvas.focus();
    await page.keyboard.press('2');
    await changed(canvas, now);
    expect(faults).toEqual([]);
  });
});
