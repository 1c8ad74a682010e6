/**
 * How fluid the plots are: frame times and long tasks with 5000 designs and during a run. Other work
 * on the machine lengthens single frames, so the checks look at medians; the rest is printed.
 */
import { describe, expect, it } from 'vitest';
import type { Page } from 'playwright-core';
import { loadavg } from 'node:os';
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

describe.skipIf(skipped)(`fluid plots${reason}`, () => {
  const { visit } = pageTests();

  it('pans, brushes and scrolls 5000 designs at 60 frames a second', async () => {
    const { page, faults } = await visit({ hash: '#/compare' });
    await openFront(page, inventedFront(5000));
    await page.waitForTimeout(500);
    const since = await noteFrames(page);
    const drag = async (x: number, y: number, dx: number, dy: number): Promise<void> => {
      await page.mouse.move(x, y);
      await page.mouse.down();
      for (let i = 1; i <= 60; i++) await page.mouse.move(x + dx * i, y + dy * i);
      await page.mouse.up();
    };
    const plot = await page.locator('.scatter .canvas').boundingBox();
    if (plot === null) throw new Error('The scatter is not on the page.');
    await since();
    await drag(plot.x + 300, plot.y + 150, 2, 1);
    expect(report('panning', await since())).toBeLessThan(FLUID_MS);
    for (let i = 0; i < 60; i++) await page.mouse.move(plot.x + 80 + 5 * i, plot.y + 100 + 4 * i);
    const hovering = await since();
    expect(report('hovering', hovering)).toBeLessThan(FLUID_MS);
    expect(hovering.rows).toBe(0);

    const axes = page.locator('.parallel .brushes');
    await axes.scrollIntoViewIfNeeded();
    const box = await axes.boundingBox();
    if (box === null) throw new Error('The axes are not on the page.');
    await since();
    await drag(box.x + 70, box.y + 100, 0, 3);
    // Brushing draws every plot anew: every other frame is enough.
    expect(report('brushing', await since())).toBeLessThan(2 * FLUID_MS);

    await page.locator('.designs').evaluate(async (table) => {
      for (let i = 0; i < 40; i++) {
        table.scrollTop += 300;
        await new Promise((next) => setTimeout(next, 16));
      }
    });
    expect(report('scrolling the table', await since())).toBeLessThan(FLUID_MS);
    expect(await page.locator('.designs tbody tr').count()).toBeLessThan(100);
    expect(faults).toEqual([]);
  });

  it('stays fluid while a run goes on, with the front as it grows on the page', async () => {
    const { page, faults } = await visit();
    const brief = smallBrief({ generations: 40 });
    await openBriefFile(page, 'brief.json', JSON.stringify(brief));
    await page.locator('nav').getByRole('link', { name: 'Evolve' }).click();
    await page.getByText(/is sound/u).waitFor();
    const since = await noteFrames(page);
    await page.getByRole('button', { name: 'Start', exact: true }).click();
    await page.getByRole('heading', { name: 'The front as it grows' }).waitFor();
    const start = await since();
    report('starting a run', start);
    await ended(page);
    expect(report('during the run', await since())).toBeLessThan(FLUID_MS);
    expect(faults).toEqual([]);
  });
});
