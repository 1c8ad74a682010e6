/** The brief's form: what is typed, what is wrong with it, what is kept of it. */
import { describe, expect, it } from 'vitest';
import { checkBrief } from '../../../src/engine/index.ts';
import { readBriefFile } from '../../../src/formats/index.ts';
import {
  bytesOf,
  draftOf,
  goTo,
  openBriefFile,
  pageTests,
  reason,
  skipped,
  taken,
} from '../../support/page.ts';
import { smallBrief } from '../../support/small-brief.ts';

const FAN = {
  kind: 'fan',
  curve: [
    { flow_m3_per_h: 0, pressure_Pa: 40 },
    { flow_m3_per_h: 0, pressure_Pa: 'x' },
    { flow_m3_per_h: 9, pressure_Pa: 5, note: 1 },
  ],
  swept: {},
};
const HOLES = { kind: 'holes', holes: [{ x_mm: 'a', y_mm: 0, diameter_mm: 4 }] };

/** Parts of a brief that are wrong, each in a way of its own; laid over the small brief. */
const FAULTY: readonly Readonly<Record<string, unknown>>[] = [
  { plate: { rim_mm: 'abc', colour: 1, build: 'sideways' }, foo: {}, name: 5 },
  { plate: { rim_mm: 60 } },
  { plate: { thickness_mm: { min_mm: 9, max_mm: 4 } } },
  { plate: { thickness_mm: 'x', mounting: { kind: 'frame', frame_mm: '80' } } },
  {
    plate: {
      mounting: HOLES,
      outline: {
        kind: 'polygon',
        points_mm: [
          [0, 0],
          ['a', 2],
        ],
      },
    },
  },
  { plate: { outline: { kind: 'star' } }, version: 2 },
  { air: { supply: FAN, route: { kind: 'up' } } },
  { air: 'warm' },
  { goals: { objectives: [], limits: [{ measure: 'mass_g' }, { measure: 'beauty', atMost: 1 }] } },
  { goals: { objectives: ['mass_g', 'beauty'] } },
  { routes: { motifs: ['x'], sections: [], pockets: 'yes', bore_mm: { min: 5, max: 3 } } },
  { heat: {}, strength: { lasting: 'yes', push_N: -1 }, sound: { bands_Hz: [500, 501] } },
  { dust: { down: [0, 0, 0], classes: [{ diameter_um: 5, massShare: 0.5 }] } },
  { dust: { down: 'up' }, search: { population: 8.5, seed: 7 }, calibration: { source: 'none' } },
];

const SOUND = 'The brief is sound.';

function faulty(changes: Readonly<Record<string, unknown>>): Record<string, unknown> {
  const brief: Record<string, unknown> = { ...smallBrief() };
  for (const [key, change] of Object.entries(changes)) {
    const old = brief[key];
    const isPart = typeof old === 'object' && typeof change === 'object';
    brief[key] = isPart ? { ...old, ...change } : change;
  }
  return brief;
}

describe.skipIf(skipped)(`the form of the brief${reason}`, () => {
  const { visit } = pageTests();

  it('says every fault of a brief at its own place, and the way there opens it', async () => {
    const { page, faults } = await visit({ before: draftOf(smallBrief()) });
    await page.getByText('The brief is sound.').waitFor();
    const nameField = page.locator('#name');
    for (const [i, changes] of FAULTY.entries()) {
      const name = `faulty ${i}`;
      await openBriefFile(page, 'b.json', JSON.stringify(faulty({ name, ...changes })));
      await expect.poll(() => nameField.inputValue()).toBe(changes['name'] === 5 ? '5' : name);
      await page.locator('.verdict [data-fresh=true]').waitFor();
      const list = page.locator('.brief-side .faults li');
      const told = await list.evaluateAll((items) =>
        items.map((item) => String(item.firstChild?.textContent)),
      );
      expect(told.length).toBeGreaterThan(0);
      const shown = await page.locator('.brief-form .fault-words').allTextContents();
      for (const message of told) expect(shown.join('\n')).toContain(message);
      await list.last().getByRole('button').click();
      const focused = page.locator('.brief-form :focus');
      expect({ name, focused: await focused.count() }).toEqual({ name, focused: 1 });
      expect(await focused.isVisible()).toBe(true);
    }
    expect(faults).toEqual([]);
  });

  it('takes a decimal comma, and keeps what is no number in its field, over a reload too', async () => {
    const { page, faults } = await visit({ before: draftOf(smallBrief()) });
    const rim = page.getByLabel('Rim [mm]');
    await rim.fill('2,5');
    await page.getByText('The brief is sound.').waitFor();
    await rim.blur();
    expect(await rim.inputValue()).toBe('2.5');
    await rim.fill('about 2');
    await page.locator('#fault-plate\\.rim_mm', { hasText: '"about 2"' }).waitFor();
    expect(await rim.getAttribute('aria-invalid')).toBe('true');
    expect(await rim.getAttribute('aria-describedby')).toMatch(/^fault-plate\.rim_mm /u);
    await goTo(page, 'Evolve');
    await page.getByText('The brief has 1 fault').waitFor();
    expect(await page.getByRole('button', { name: 'Start', exact: true }).isDisabled()).toBe(true);
    await page.reload();
    await goTo(page, 'Brief');
    expect(await rim.inputValue()).toBe('about 2');
    // An empty field means the usual value.
    await rim.fill('');
    await page.getByText('The brief is sound.').waitFor();
    expect(await rim.getAttribute('placeholder')).toBe('3');
    expect(faults).toEqual([]);
  });

  it('brings back the brief that an example took the place of', async () => {
    const { page, faults } = await visit({ before: draftOf(smallBrief()) });
    const name = page.getByRole('textbox', { name: /^Name/u });
    await name.fill('days of work');
    await page.getByLabel('Begin with').selectOption({ label: 'plain finger guard' });
    await page.getByRole('button', { name: /Bring back .days of work/u }).click();
    expect(await name.inputValue()).toBe('days of work');
    await page.getByRole('button', { name: /Bring back .finger guard/u }).waitFor();
    expect(faults).toEqual([]);
  });

  it('begins with an empty brief that is sound, and can be evolved as it is', async () => {
    const { page, faults } = await visit({ before: draftOf(smallBrief()) });
    await page.getByText(SOUND).waitFor();
    await page.getByLabel('Begin with').selectOption({ label: 'a new empty brief' });
    expect(await page.getByRole('textbox', { name: /^Name/u }).inputValue()).toBe('new brief');
    await page.locator('.verdict [data-fresh=true]').getByText(SOUND).waitFor();
    await page.getByRole('img', { name: /Plate of 84 by 84 mm/u }).waitFor();
    const file = await taken(page, () =>
      page.getByRole('button', { name: 'Save the brief' }).click(),
    );
    const brief = readBriefFile((await bytesOf(file)).toString());
    // Nothing is chosen but plate and air: all else is as the schema has it.
    const { plate, air } = brief;
    const bare = { format: 'anfract-brief', version: 1, name: 'new brief', plate, air };
    expect(brief).toEqual(checkBrief(bare));
    await page.getByRole('button', { name: /Bring back .small test plate/u }).click();
    await page.getByRole('img', { name: /Plate of 30 by 24 mm/u }).waitFor();
    expect(faults).toEqual([]);
  });

  it('draws the plate as its sizes are typed, and a kind left and taken again is as it was', async () => {
    const { page, faults } = await visit({ before: draftOf(smallBrief()) });
    await page.getByLabel('Width [mm]', { exact: true }).fill('44');
    await page.getByRole('img', { name: /Plate of 44 by 24 mm/u }).waitFor();
    const outline = page.getByLabel('Outline is');
    await outline.selectOption({ label: 'round' });
    await page.getByRole('img', { name: /Plate of 84 by 84 mm/u }).waitFor();
    await outline.selectOption({ label: 'rectangular' });
    await page.getByRole('img', { name: /Plate of 44 by 24 mm/u }).waitFor();
    expect(faults).toEqual([]);
  });

  it('moves points of the fan curve by arrow keys, with their rows', async () => {
    const { page, faults } = await visit({ before: draftOf(smallBrief()) });
    await page.getByLabel('Supply is').selectOption({ label: 'a fan, by its curve' });
    const point = page.getByRole('slider', { name: 'Point 1 of the fan curve' });
    await point.focus();
    await page.keyboard.press('ArrowUp');
    const field = page.locator('[id="air.supply.curve[0].pressure_Pa"]');
    await expect.poll(() => field.inputValue()).toBe('40.4');
    expect(await point.getAttribute('aria-valuetext')).toBe(
      '0 cubic metres per hour, 40.4 pascals',
    );
    expect(faults).toEqual([]);
  });

  it('begins every kind and every optional part with values that are sound', async () => {
    const small = smallBrief();
    // The longest slat goes with ribs only, as its words say.
    const brief = { ...small, routes: { ...small.routes, ribs: 'auto' } };
    const { page, faults } = await visit({ before: draftOf(brief) });
    await page.getByText('The brief is sound.').waitFor();
    await page.getByLabel('Rim [mm]').waitFor();
    await page
      .locator('.brief-form details')
      .evaluateAll((folds) => folds.forEach((fold) => fold.setAttribute('open', '')));
    // Larger, so that the usual fan frame fits.
    await page.getByLabel('Width [mm]', { exact: true }).fill('84');
    await page.getByLabel('Height [mm]', { exact: true }).fill('84');
    const sound = async (what: string): Promise<void> => {
      // A change is checked after a moment; the verdict before it must not count.
      await page.locator('.verdict [data-fresh=true]').waitFor();
      const verdict = await page.locator('.verdict [role=status]').innerText();
      const words = verdict === SOUND ? '' : await page.locator('.brief-side .faults').innerText();
      expect({ what, verdict, words }).toEqual({ what, verdict: SOUND, words: '' });
    };
    const kinds = page.locator('.brief-form .field:has(> label:text-matches(" is$")) select');
    for (let i = 0; i < (await kinds.count()); i++) {
      const before = await kinds.nth(i).inputValue();
      const options = await kinds.nth(i).locator('option').allInnerTexts();
      for (const label of options) {
        await kinds.nth(i).selectOption({ label });
        await sound(`kind ${i}: ${label}`);
      }
      await kinds.nth(i).selectOption(before);
    }
    // Boxes that appear stand below the one that brought them.
    const boxes = page.locator('.brief-form input[type=checkbox]');
    for (let i = 0; i < (await boxes.count()); i++) {
      if (await boxes.nth(i).isChecked()) continue;
      const words = await boxes.nth(i).evaluate((box) => box.parentElement?.textContent ?? '');
      await boxes.nth(i).check();
      if (words.startsWith('Side pockets')) {
        // These go with exits in the rim only, and the form says so where they are asked for.
        await page
          .locator('#fault-routes\\.sidePockets')
          .getByText(/exits in the rim/u)
          .waitFor();
        await boxes.nth(i).uncheck();
      }
      await sound(words);
    }
    expect(faults).toEqual([]);
  });
});
