/**
 * The page for everybody: the rules of WCAG 2.2 A and AA as axe-core checks them, keyboard alone, narrow
 * windows, reduced motion.
 */
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import {
  draftOf,
  ended,
  evolveOnPage,
  goTo,
  pageTests,
  reason,
  skipped,
  taken,
} from '../../support/page.ts';
import { smallBrief } from '../../support/small-brief.ts';

const AXE = createRequire(import.meta.url).resolve('axe-core/axe.min.js');
const STEPS = ['Brief', 'Evolve', 'Front', 'Part', 'Compare'] as const;
const RULES = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

interface Axe {
  run(
    root: unknown,
    options: unknown,
  ): Promise<{
    readonly violations: readonly {
      readonly id: string;
      readonly nodes: readonly { readonly html: string; readonly failureSummary?: string }[];
    }[];
  }>;
}

/** What axe-core holds against the page as it stands, one line per element. */
async function violations(page: Page): Promise<string[]> {
  return page.evaluate(async (rules) => {
    const { axe, document: root } = globalThis as unknown as { axe: Axe; document: unknown };
    const found = await axe.run(root, { runOnly: { type: 'tag', values: rules } });
    return found.violations.flatMap(({ id, nodes }) =>
      nodes.map(
        ({ html, failureSummary }) => `${id}: ${html.slice(0, 160)} ${failureSummary ?? ''}`,
      ),
    );
  }, RULES);
}

/** Waits until the drawings of the part are there, or nothing is awaited. */
async function settled(page: Page, step: string): Promise<void> {
  if (step === 'Part')
    await page
      .getByAltText(/cut open/u)
      .first()
      .waitFor();
  if (step === 'Brief') await page.getByLabel('Rim [mm]').waitFor();
}

/** Presses Tab until the element with a name has the focus; the focus is seen at every stop. */
async function tabTo(page: Page, name: string): Promise<void> {
  for (let presses = 0; presses < 250; presses++) {
    await page.keyboard.press('Tab');
    const at = await page.evaluate(() => {
      const { document: root } = globalThis as unknown as {
        document: { activeElement: HTMLElementLike };
      };
      const { activeElement: element } = root;
      const style = (
        globalThis as unknown as {
          getComputedStyle(of: HTMLElementLike): { outlineStyle: string; outlineWidth: string };
        }
      ).getComputedStyle(
        element.matches('input[type=file]') ? (element.parentElement ?? element) : element,
      );
      return {
        tag: element.tagName,
        name: (element.getAttribute('aria-label') ?? element.textContent ?? '').trim(),
        seen: style.outlineStyle !== 'none' && style.outlineWidth !== '0px',
      };
    });
    if (at.tag !== 'BODY')
      expect(at, `focus on ${at.tag} ${at.name}`).toMatchObject({ seen: true });
    if (at.name === name) return;
  }
  throw new Error(`Tab does not lead to "${name}".`);
}

interface HTMLElementLike {
  readonly tagName: string;
  readonly textContent: string | null;
  readonly parentElement: HTMLElementLike | null;
  getAttribute(name: string): string | null;
  matches(selector: string): boolean;
}

describe.skipIf(skipped)(`the page for everybody${reason}`, () => {
  const { visit } = pageTests();

  it('breaks no rule of axe-core on any view, light or dark, wide or narrow', async () => {
    // The policy forbids foreign scripts such as axe; this context alone lets it in.
    const { page, faults } = await visit({ bypassCSP: true });
    await evolveOnPage(page, smallBrief({ generations: 2 }));
    await page.addScriptTag({ path: AXE });
    const found: string[] = [];
    for (const width of [1280, 375]) {
      await page.setViewportSize({ width, height: 800 });
      for (const step of STEPS) {
        await goTo(page, step);
        await settled(page, step);
        for (const colorScheme of ['light', 'dark'] as const) {
          await page.emulateMedia({ colorScheme });
          const lines = await violations(page);
          found.push(...lines.map((line) => `${step}, ${width} px, ${colorScheme}: ${line}`));
        }
      }
    }
    expect(found).toEqual([]);
    expect(faults).toEqual([]);
  });

  it('fits a window of 360 px on every view, without scrolling sideways', async () => {
    const { page } = await visit({ viewport: { width: 360, height: 740 } });
    await evolveOnPage(page, smallBrief({ generations: 2 }));
    for (const step of STEPS) {
      await goTo(page, step);
      await settled(page, step);
      const width = await page.evaluate(
        () =>
          (globalThis as unknown as { document: { documentElement: { scrollWidth: number } } })
            .document.documentElement.scrollWidth,
      );
      expect({ step, width }).toEqual({ step, width: 360 });
    }
  });

  it('leads from a brief to a file by keyboard alone, its focus always seen', async () => {
    const { page, faults } = await visit({ before: draftOf(smallBrief({ generations: 2 })) });
    await page.getByText('The brief is sound.').waitFor();
    await tabTo(page, 'Evolve');
    await page.keyboard.press('Enter');
    await page.getByText(/The brief .small test plate. is sound/u).waitFor();
    await tabTo(page, 'Start');
    await page.keyboard.press('Enter');
    await ended(page);
    await page.keyboard.press('Home');
    await goToByKeyboard(page, 'Front');
    // Tab comes to one row of the table; arrow keys go on from it.
    await tabTo(page, 'd001');
    await page.keyboard.press('ArrowDown');
    await expect.poll(() => page.locator(':focus').innerText()).toBe('d002');
    await page.keyboard.press('Enter');
    expect(
      await page
        .getByRole('button', { name: 'd002', exact: true })
        .first()
        .getAttribute('aria-pressed'),
    ).toBe('true');
    await goToByKeyboard(page, 'Part');
    await page.getByText('small test plate, d002').first().waitFor();
    await tabTo(page, 'STL of d002');
    const file = await taken(page, () => page.keyboard.press('Enter'));
    expect(file.suggestedFilename()).toBe('d002.stl');
    expect(faults).toEqual([]);
  });

  it('moves nothing where less motion is wanted', async () => {
    const { page } = await visit({
      reducedMotion: 'reduce',
      before: draftOf(smallBrief({ generations: 2 })),
    });
    for (const step of STEPS) {
      await goTo(page, step);
      const moving = await page.evaluate(() => {
        const view = globalThis as unknown as {
          document: { querySelectorAll(selector: string): Iterable<HTMLElementLike> };
          getComputedStyle(of: HTMLElementLike): {
            animationName: string;
            transitionDuration: string;
            scrollBehavior: string;
          };
        };
        return [...view.document.querySelectorAll('*')].filter((element) => {
          const style = view.getComputedStyle(element);
          return (
            style.animationName !== 'none' ||
            style.transitionDuration !== '0s' ||
            style.scrollBehavior !== 'auto'
          );
        }).length;
      });
      expect({ step, moving }).toEqual({ step, moving: 0 });
    }
  });
});

/** By the steps in the head of the page. */
async function goToByKeyboard(page: Page, step: string): Promise<void> {
  await tabTo(page, 'To the content');
  await tabTo(page, step);
  await page.keyboard.press('Enter');
  await page.locator('main h1', { hasText: step }).waitFor();
}
