/**
 * How fluid the page is: frame times and long tasks with 5000 designs, during a run, and with a part in
 * 3D. Other work on the machine lengthens single frames, so the checks of frames look at medians. A long
 * task is one over 50 ms (W3C Long Tasks); counted are those that spend so long on a processor, which
 * waiting for one does not lengthen. The rest is printed.
 */
import { describe, expect, it } from 'vitest';
import type { Page } from 'playwright-core';
import { loadavg } from 'node:os';
import { TRACED, readTrace } from '../../../experiments/page-trace/trace.ts';
import { inventedFront } from '../../support/invented-front.ts';
import { ended, openBriefFile, openFront, pageTests, reason, skipped } from '../../support/page.ts';
import { smallBrief } from '../../support/small-brief.ts';

interface Fluency {
  /** Times between frames [ms], ascending. */
  readonly frames: readonly number[];
  /** Durations of tasks over 50 ms [ms]. */
  readonly long: readonly number[];
  /** Rows put into or taken out of the table. */
  readonly rows: number;
}

/** Begins to note frames and long tasks (W3C Long Tasks: over 50 ms); answers with those since the last call. */
async function noteFrames(page: Page): Promise<() => Promise<Fluency>> {
  await page.evaluate(`(() => {
    const noted = { frames: [], long: [], rows: 0 };
    globalThis.noted = noted;
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries()) noted.long.push(Math.round(entry.duration));
    }).observe({ entryTypes: ['longtask'] });
    const body = document.querySelector('.designs tbody');
    if (body !== null) {
      new MutationObserver((changes) => {
        for (const { addedNodes, removedNodes } of changes) {
          noted.rows += addedNodes.length + removedNodes.length;
        }
      }).observe(body, { childList: true });
    }
    let last = performance.now();
    const tick = () => {
      const now = performance.now();
      noted.frames.push(now - last);
      last = now;
      requestAnimationFrame(tick);
    };
    requestAnimationFrame(tick);
  })()`);
  return async () => {
    const found = await page.evaluate(`(() => {
      const { frames, long, rows } = globalThis.noted;
      const copy = { frames: frames.slice(1).sort((a, b) => a - b), long: [...long], rows };
      globalThis.noted.frames.length = 0;
      globalThis.noted.long.length = 0;
      globalThis.noted.rows = 0;
      return copy;
    })()`);
    return found as Fluency;
  };
}

function report(what: string, { frames, long }: Fluency): number {
  const at = (share: number): number => frames[Math.floor(share * (frames.length - 1))];
  const figures = [0.5, 0.95, 1].map((share) => at(share).toFixed(1)).join(' / ');
  const load = loadavg()[0].toFixed(1);
  const tasks = long.length === 0 ? 'none' : `${long.join(', ')} ms`;
  console.info(
    `${what}: frame median / 95 % / most ${figures} ms; long tasks ${tasks}; load ${load}`,
  );
  return at(0.5);
}

/** One frame at 60 Hz and half of the next [ms]. */
const FLUID_MS = 25;

/** Does something while the browser keeps a trace; no task of the page may be long. */
async function unhurried(page: Page, what: string, work: () => Promise<void>): Promise<void> {
  const browser = page.context().browser();
  if (browser === null) throw new Error('The page has no browser.');
  await browser.startTracing(page, { categories: [...TRACED] });
  await work();
  const { tasks, longest_ms, long } = readTrace((await browser.stopTracing()).toString('utf8'));
  const own = long.filter(({ own_ms }) => own_ms > 50);
  console.info(
    `${what}: ${tasks} tasks, the longest took ${longest_ms.toFixed(0)} ms by the clock; ${long.length} long by the clock, ${own.length} on a processor`,
  );
  expect(tasks, what).toBeGreaterThan(0);
  expect({ what, long: own }).toEqual({ what, long: [] });
}

async function drag(page: Page, x: number, y: number, dx: number, dy: number): Promise<void> {
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let i = 1; i <= 60; i++) await page.mouse.move(x + dx * i, y + dy * i);
  await page.mouse.up();
}

async function placeOf(page: Page, selector: string): Promise<{ x: number; y: number }> {
  const box = await page.locator(selector).first().boundingBox();
  if (box === null) throw new Error(`${selector} is not on the page.`);
  return box;
}

describe.skipIf(skipped)(`fluid plots${reason}`, () => {
  const { visit } = pageTests();

  it('pans, brushes and scrolls 5000 designs at 60 frames a second, without long tasks', async () => {
    const { page, faults } = await visit({ hash: '#/compare' });
    const front = inventedFront(5000);
    await openFront(page, front);
    await page.waitForTimeout(500);
    const since = await noteFrames(page);
    const plot = await placeOf(page, '.scatter .canvas');
    await since();
    await unhurried(page, 'panning', () => drag(page, plot.x + 300, plot.y + 150, 2, 1));
    expect(report('panning', await since())).toBeLessThan(FLUID_MS);
    await unhurried(page, 'hovering', async () => {
      for (let i = 0; i < 60; i++) {
        await page.mouse.move(plot.x + 80 + 5 * i, plot.y + 100 + 4 * i);
      }
    });
    const hovering = await since();
    expect(report('hovering', hovering)).toBeLessThan(FLUID_MS);
    expect(hovering.rows).toBe(0);

    await page.locator('.parallel .brushes').scrollIntoViewIfNeeded();
    const axes = await placeOf(page, '.parallel .brushes');
    await since();
    await unhurried(page, 'brushing', () => drag(page, axes.x + 70, axes.y + 100, 0, 3));
    // Brushing draws every plot anew: every other frame is enough.
    expect(report('brushing', await since())).toBeLessThan(2 * FLUID_MS);
    await page.getByText(/of 5000 designs kept/u).waitFor();

    await unhurried(page, 'scrolling', () =>
      page.locator('.designs').evaluate(async (table) => {
        for (let i = 0; i < 40; i++) {
          table.scrollTop += 300;
          await new Promise((next) => setTimeout(next, 16));
        }
      }),
    );
    expect(report('scrolling the table', await since())).toBeLessThan(FLUID_MS);
    expect(await page.locator('.designs tbody tr').count()).toBeLessThan(100);
    expect(faults).toEqual([]);
  });

  it('follows the hand with what it draws in the worker, too', async () => {
    // Counts the pictures that the worker reports as drawn.
    const { page, faults } = await visit({
      hash: '#/compare',
      before: `
        globalThis.drawn = 0;
        const Plain = Worker;
        globalThis.Worker = class extends Plain {
          constructor(...given) {
            super(...given);
            this.addEventListener('message', ({ data }) => {
              if (data?.kind === 'drawn') globalThis.drawn++;
            });
          }
        };`,
    });
    await openFront(page, inventedFront(5000));
    await page.waitForTimeout(500);
    const plot = await placeOf(page, '.scatter .canvas');
    const before = Number(await page.evaluate('globalThis.drawn'));
    await drag(page, plot.x + 300, plot.y + 150, 2, 1);
    const from = Date.now();
    await expect
      .poll(async () => Number(await page.evaluate('globalThis.drawn')) - before)
      .toBeGreaterThanOrEqual(10);
    console.info(
      `panning: ${Number(await page.evaluate('globalThis.drawn')) - before} pictures of 60 moves, the last ${Date.now() - from} ms after`,
    );
    expect(faults).toEqual([]);
  });

  it('stays fluid while a run goes on, with the front as it grows on the page', async () => {
    const { page, faults } = await visit();
    const brief = smallBrief({ generations: 40 });
    await openBriefFile(page, 'brief.json', JSON.stringify(brief));
    await page.locator('nav').getByRole('link', { name: 'Evolve' }).click();
    await page.getByText(/is sound/u).waitFor();
    const since = await noteFrames(page);
    await unhurried(page, 'starting a run', async () => {
      await page.getByRole('button', { name: 'Start', exact: true }).click();
      await page.getByRole('heading', { name: 'The front as it grows' }).waitFor();
    });
    report('starting a run', await since());
    await unhurried(page, 'a run', () => ended(page));
    expect(report('during the run', await since())).toBeLessThan(FLUID_MS);

    await unhurried(page, 'a part in 3D', async () => {
      await page.locator('nav').getByRole('link', { name: 'Part' }).click();
      await page.getByRole('application').first().waitFor();
      await page.getByText('Building the body').waitFor({ state: 'detached' });
      await page.getByLabel('Show').selectOption({ label: 'Part with its air' });
      for (const label of ['air velocity', 'wall thickness', 'overhang', 'dust kept']) {
        await page.getByLabel('Colour by').selectOption({ label });
        await page.getByText('working it out').waitFor({ state: 'detached' });
      }
      await page.getByRole('application').first().focus();
      for (let i = 0; i < 10; i++) await page.keyboard.press('ArrowRight');
    });
    expect(faults).toEqual([]);
  });
});
