/** Links: what one person sees, another sees too, with the same files and nothing else. */
import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Front } from '../../../src/engine/index.ts';
import { frontDigest, writeFrontFile } from '../../../src/formats/index.ts';
import { evolvedFront } from '../../support/evolved-front.ts';
import { drop, goTo, pageTests, reason, skipped } from '../../support/page.ts';
import type { Dropped } from '../../support/page.ts';

describe.skipIf(skipped)(`links to views${reason}`, () => {
  const { visit, url } = pageTests();
  const fronts = new Map<string, Front>();
  beforeAll(async () => {
    for (const seed of ['one', 'two']) {
      fronts.set(seed, await evolvedFront({ generations: 3, seed }));
    }
  }, 60_000);
  const frontNamed = (seed: string): Front => {
    const front = fronts.get(seed);
    if (front === undefined) throw new Error(`No front ${seed}.`);
    return front;
  };
  const frontText = (seed: string): string => writeFrontFile(frontNamed(seed));
  const digestOf = (seed: string): string => frontDigest(frontNamed(seed));
  const bothFronts = (): Dropped[] =>
    ['one', 'two'].map((seed) => ({ name: `${seed}.front.json`, content: frontText(seed) }));

  it('shows a linked view once the right front is open, and says when it is another', async () => {
    const digest = digestOf('one').slice(0, 16);
    const { designs } = frontNamed('one');
    const chosen = designs.slice(0, 2).map(({ id }) => id);
    const view = `front=${digest}&x=finestFeature_mm&y=mass_g&designs=${chosen.join('.')}`;
    const { page, faults } = await visit({ hash: `#/front?${view}` });
    await page.getByText(`its file's digest begins with ${digest}`).waitFor();
    await goTo(page, 'Compare');
    await drop(page, [{ name: 'two.front.json', content: frontText('two') }]);
    await page
      .getByText(`None of those open is it (two: ${digestOf('two').slice(0, 16)})`)
      .waitFor();
    await drop(page, [{ name: 'one.front.json', content: frontText('one') }]);
    await page.getByRole('heading', { name: 'Front of one' }).waitFor();
    expect(await page.getByRole('combobox', { name: 'Across' }).inputValue()).toBe(
      'finestFeature_mm',
    );
    expect(await page.getByRole('combobox', { name: 'Up', exact: true }).inputValue()).toBe(
      'mass_g',
    );
    expect(await page.locator('tr.chosen th').allTextContents()).toHaveLength(2);
    expect(await page.getByText('digest begins with').count()).toBe(0);
    await goTo(page, 'Compare');
    await page.getByRole('button', { name: 'Link to this view' }).click();
    await expect
      .poll(() => page.getByLabel('Link', { exact: true }).inputValue())
      .toContain(`#/compare?front=${digest}&x=finestFeature_mm&y=mass_g`);
    expect(faults).toEqual([]);
  });

  it('links to plots, parts in 3D and comparisons just as they are shown', async () => {
    const { page, faults } = await visit({ hash: '#/compare' });
    await drop(page, bothFronts());
    const linkOf = async (of: Page): Promise<string> => {
      await of.getByRole('button', { name: 'Link to this view' }).click();
      const field = of.getByLabel('Link', { exact: true });
      await expect.poll(() => field.inputValue()).toContain('front=');
      return field.inputValue();
    };
    await page.getByRole('combobox', { name: 'Across' }).selectOption({ index: 1 });
    await page.getByLabel('Judged by').selectOption('axes');
    const shownOf = async (of: Page): Promise<unknown> => ({
      across: await of.getByRole('combobox', { name: 'Across' }).inputValue(),
      up: await of.getByRole('combobox', { name: 'Up', exact: true }).inputValue(),
    });
    const compared = await shownOf(page);
    const toCompare = await linkOf(page);

    await goTo(page, 'Front');
    await page.getByLabel('shown as').selectOption('shade');
    await page.getByText('Order of the axes, and ranges as numbers').click();
    await page.getByRole('button', { name: 'Move mass to the right' }).click();
    await page.getByRole('slider').first().focus();
    await page.keyboard.press('PageUp');
    await page.getByRole('button', { name: 'Closer' }).click();
    await page.getByLabel(/^Add a measure/u).selectOption({ index: 1 });
    const plotsOf = async (of: Page): Promise<unknown> => ({
      ...((await shownOf(of)) as object),
      as: await of.getByLabel('shown as').inputValue(),
      axes: await of
        .getByRole('slider')
        .evaluateAll((found) =>
          found.map((one) => [
            one.getAttribute('aria-label'),
            Number(one.getAttribute('aria-valuenow')).toPrecision(6),
          ]),
        ),
      chips: await of.getByRole('list', { name: 'Ranges kept' }).innerText(),
      matrix: await of
        .getByRole('application', { name: /^Scatter matrix/u })
        .getAttribute('aria-label'),
      whole: await of.getByRole('button', { name: 'Whole front' }).isDisabled(),
    });
    const plots = await plotsOf(page);
    expect(plots).toMatchObject({ as: 'shade', whole: false });
    const toFront = await linkOf(page);

    await page.getByRole('button', { name: 'd002', exact: true }).first().click();
    await goTo(page, 'Part');
    await page.getByText('Building the body').waitFor({ state: 'detached' });
    await page.getByRole('application').first().focus();
    for (const key of ['ArrowLeft', 'ArrowUp', '+']) await page.keyboard.press(key);
    await page.getByLabel('Show').selectOption('both');
    await page.getByLabel('Colour by').selectOption('overhang');
    await page.getByLabel('Cut').selectOption({ label: 'across z' });
    await page.getByLabel('other half').check();
    await page
      .getByRole('region', { name: 'Layers' })
      .getByText(/mm² print/u)
      .waitFor();
    await page.getByRole('region', { name: 'Layers' }).getByRole('slider').press('End');
    const partOf = async (of: Page): Promise<unknown> => {
      await of.getByText(/^layer \d+ of/u).waitFor();
      return {
        part: await of.getByRole('application').first().getAttribute('aria-label'),
        layer: await of.getByRole('region', { name: 'Layers' }).getByRole('slider').inputValue(),
        other: await of.getByLabel('other half').isChecked(),
      };
    };
    const part = await partOf(page);
    expect(JSON.stringify(part)).toMatch(
      /d002: the part with its air, coloured by overhang, cut across z, turned -50°, raised 45°/u,
    );
    const toPart = await linkOf(page);
    expect(faults).toEqual([]);

    // Another browser with the same files, which does no more than follow the links.
    const { page: other, faults: others } = await visit({ hash: new URL(toCompare).hash });
    await drop(other, bothFronts());
    await other.getByRole('region', { name: 'Joint front' }).waitFor();
    expect(await shownOf(other)).toEqual(compared);
    expect(await other.getByLabel('Judged by').inputValue()).toBe('axes');
    await other.goto(`${url()}${new URL(toFront).hash}`);
    await other.getByRole('heading', { name: /^Front of/u }).waitFor();
    expect(await plotsOf(other)).toEqual(plots);
    await other.goto(`${url()}${new URL(toPart).hash}`);
    await other.getByText('Building the body').waitFor({ state: 'detached' });
    expect(await partOf(other)).toEqual(part);
    expect(others).toEqual([]);
  }, 120_000);
});
