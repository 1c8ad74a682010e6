/** The page by touch: plots, ranges and the 3D view by fingers, targets large enough for them. */
import type { CDPSession, Locator, Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { evolvedFront } from '../../support/evolved-front.ts';
import { inventedFront } from '../../support/invented-front.ts';
import { goTo, openFront, pageTests, reason, skipped } from '../../support/page.ts';

type Place = readonly [number, number];

const PHONE = { hasTouch: true, isMobile: true, viewport: { width: 390, height: 844 } };
const STEPS = ['Brief', 'Evolve', 'Front', 'Part', 'Compare'] as const;

/** Least width and height of a target [CSS px]: WCAG 2.2, 2.5.8 (AA). */
const LEAST = 24;

/** Puts fingers down, moves them evenly, lifts them. */
async function move(
  session: CDPSession,
  fingers: readonly { readonly from: Place; readonly to: Place }[],
): Promise<void> {
  const at = (share: number) =>
    fingers.map(({ from, to }, id) => ({
      x: from[0] + share * (to[0] - from[0]),
      y: from[1] + share * (to[1] - from[1]),
      id,
    }));
  const send = (
    type: 'touchStart' | 'touchMove' | 'touchEnd',
    touchPoints: ReturnType<typeof at>,
  ) => session.send('Input.dispatchTouchEvent', { type, touchPoints });
  await send('touchStart', at(0));
  for (let step = 1; step <= 8; step++) await send('touchMove', at(step / 8));
  await send('touchEnd', []);
}

async function boxOf(
  of: Locator,
): Promise<{ x: number; y: number; width: number; height: number }> {
  await of.scrollIntoViewIfNeeded();
  const box = await of.boundingBox();
  if (box === null) throw new Error('It is not on the page.');
  return box;
}

/** Targets of the view that are too small for a finger, in words; links within sentences may be. */
async function smallTargets(page: Page): Promise<string[]> {
  return page.evaluate(`(() => {
    const found = [];
    const targets = 'button, a[href], input, select, textarea, summary, [role=slider], [role=button]';
    for (const element of document.querySelectorAll(targets)) {
      const style = getComputedStyle(element);
      if (style.pointerEvents === 'none' || style.visibility === 'hidden') continue;
      if (element.matches('a') && element.parentElement?.matches('p, dd, li, td')) continue;
      // A click on its label is a click on it.
      const boxes = [element, element.closest('label')].flatMap((one) => one === null ? [] : [one.getBoundingClientRect()]);
      const [width, height] = ['width', 'height'].map((side) => Math.max(...boxes.map((box) => box[side])));
      if (width === 0 || height === 0 || boxes[0].right < 0) continue;
      if (width < ${LEAST} || height < ${LEAST}) {
        const name = element.getAttribute('aria-label') ?? element.textContent ?? '';
        found.push(element.tagName + ' ' + (element.id || element.className) + ' ' + name.trim().slice(0, 40) + ' ' + width.toFixed(1) + ' x ' + height.toFixed(1));
      }
    }
    return found;
  })()`);
}

describe.skipIf(skipped)(`the page by touch${reason}`, () => {
  const { visit } = pageTests();

  it('selects by a tap, moves by one finger, looks closer by two', async () => {
    const { page, context, faults } = await visit({ ...PHONE, hash: '#/compare' });
    const session = await context.newCDPSession(page);
    const front = inventedFront(40);
    await openFront(page, front);
    const plot = page.getByRole('application', { name: /designs, mass over pressure drop/u });
    await page.waitForTimeout(300);
    const whole = page.getByRole('button', { name: 'Whole front' });
    expect(await whole.isDisabled()).toBe(true);
    const middleOf = async (): Promise<Place> => {
      const now = await boxOf(plot);
      return [now.x + now.width / 2, now.y + now.height / 2];
    };
    let [x, y] = await middleOf();
    await move(session, [{ from: [x, y], to: [x - 80, y] }]);
    await expect.poll(() => whole.isDisabled()).toBe(false);
    await whole.click();
    await expect.poll(() => whole.isDisabled()).toBe(true);
    [x, y] = await middleOf();
    await move(session, [
      { from: [x - 20, y], to: [x - 90, y] },
      { from: [x + 20, y], to: [x + 90, y] },
    ]);
    await expect.poll(() => whole.isDisabled()).toBe(false);
    await whole.click();
    // The design in the middle of the front lies in the middle of the plot.
    const chosen = page.locator('.designs button[aria-pressed=true]').first();
    for (let dy = -60; dy <= 60 && (await chosen.count()) === 0; dy += 15) {
      const [midX, midY] = await middleOf();
      await page.touchscreen.tap(midX + 20, midY + dy);
    }
    await chosen.waitFor();
    expect(await chosen.innerText()).toMatch(/^d00\d\d$/u);
    expect(faults).toEqual([]);
  });

  it('scrolls the page by a finger that moves up over a plot', async () => {
    const { page, context } = await visit({ ...PHONE, hash: '#/compare' });
    const session = await context.newCDPSession(page);
    await openFront(page, inventedFront(40));
    const box = await boxOf(page.locator('.scatter .canvas'));
    const x = box.x + box.width / 2;
    const before = Number(await page.evaluate('scrollY'));
    await move(session, [{ from: [x, box.y + 250], to: [x, box.y + 50] }]);
    await expect
      .poll(async () => Number(await page.evaluate('scrollY')))
      .toBeGreaterThan(before + 100);
  });

  it('keeps a range by a finger on an axis', async () => {
    const { page, context, faults } = await visit({ ...PHONE, hash: '#/compare' });
    const session = await context.newCDPSession(page);
    await openFront(page, inventedFront(40));
    await page.getByText('All 40 designs are kept').waitFor();
    const [low, high] = ['least', 'greatest'].map((end) =>
      page.getByRole('slider', { name: `pressure drop, ${end} kept` }),
    );
    await low.scrollIntoViewIfNeeded();
    const [from, to] = [await boxOf(low), await boxOf(high)];
    const x = from.x + from.width / 2;
    await move(session, [{ from: [x, (from.y + to.y + to.height) / 2], to: [x, to.y] }]);
    await page.getByText('20 of 40 designs kept').waitFor();
    expect(faults).toEqual([]);
  });

  it('turns a part by one finger, enlarges it by two', async () => {
    const { page, context, faults } = await visit({ ...PHONE, hash: '#/compare' });
    const session = await context.newCDPSession(page);
    await openFront(page, await evolvedFront({ generations: 2 }));
    await goTo(page, 'Part');
    const canvas = page.getByRole('application').first();
    await canvas.waitFor();
    await page.getByText('Building the body').waitFor({ state: 'detached' });
    const words = (): Promise<string> => page.locator('.solid-tools output').innerText();
    const first = await words();
    expect(first).toBe('turned -60°, raised 35°, 1×');
    const box = await boxOf(canvas);
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    await move(session, [{ from: [x, y], to: [x + 60, y] }]);
    await expect.poll(words).not.toBe(first);
    expect(await words()).toMatch(/raised 35°, 1×$/u);
    await move(session, [
      { from: [x - 20, y], to: [x - 80, y] },
      { from: [x + 20, y], to: [x + 80, y] },
    ]);
    await expect.poll(async () => Number(/([\d.]+)×/u.exec(await words())?.[1])).toBeGreaterThan(2);
    expect(faults).toEqual([]);
  });

  it('offers no target smaller than a fingertip needs', async () => {
    const { page } = await visit({ ...PHONE, hash: '#/compare' });
    await openFront(page, await evolvedFront({ generations: 2 }));
    const found: string[] = [];
    for (const step of STEPS) {
      await goTo(page, step);
      if (step === 'Brief') {
        await page.getByLabel('Rim [mm]').waitFor();
        await page
          .locator('.brief-form details')
          .evaluateAll((folds) => folds.forEach((fold) => fold.setAttribute('open', '')));
      }
      if (step === 'Part')
        await page
          .getByText(/mm² print/u)
          .first()
          .waitFor();
      found.push(...(await smallTargets(page)).map((line) => `${step}: ${line}`));
    }
    expect(found).toEqual([]);
  });
});
