/**
 * The whole job in a browser: brief, run, front, design, files; every byte handed over is compared
 * with what the terminal writes for the same brief.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readFrontFile } from '../../../src/formats/index.ts';
import { aFolder, anfract } from '../../support/cli.ts';
import { bytesOf, evolveOnPage, pageTests, reason, skipped, taken } from '../../support/page.ts';
import { writeSmallBrief } from '../../support/small-brief-file.ts';
import { smallBrief } from '../../support/small-brief.ts';

describe.skipIf(skipped)(`the page from brief to download${reason}`, () => {
  const { visit } = pageTests();

  it('hands over the very STL, 3MF and design file that the terminal writes', async () => {
    const folder = aFolder();
    const change = { generations: 3 };
    writeSmallBrief(folder, change);
    const terminal = anfract(
      folder,
      'evolve',
      'brief.json',
      '--out',
      'run',
      '--no-meshes',
      '--quiet',
    );
    const { page, faults, outside } = await visit();
    await evolveOnPage(page, smallBrief(change));
    expect((await terminal).code).toBe(0);
    const front = readFrontFile(readFileSync(join(folder, 'run/front.json'), 'utf8'));

    await page.locator('nav').getByRole('link', { name: 'Front' }).click();
    const rows = page.getByRole('region', { name: 'Designs of the front' }).locator('tbody tr');
    expect(await rows.count()).toBe(front.designs.length);
    const { id } = front.designs[1];
    await rows.getByRole('button', { name: id, exact: true }).click();
    await page.locator('nav').getByRole('link', { name: 'Part' }).click();
    await page.getByText(`small test plate, ${id}`).first().waitFor();

    await page.getByAltText(/cut open/u).waitFor();
    const button = (what: string) => page.getByRole('button', { name: `${what} of ${id}` });
    const stl = await taken(page, () => button('STL').click());
    const threeMf = await taken(page, () => button('3MF').click());
    const design = await taken(page, () => button('Design file').click());
    expect(stl.suggestedFilename()).toBe(`${id}.stl`);
    expect(threeMf.suggestedFilename()).toBe(`${id}.3mf`);

    const meshed = await anfract(
      folder,
      'mesh',
      'run',
      '--design',
      id,
      '--out',
      'meshes',
      '--quiet',
    );
    expect(meshed.stderr).toBe('');
    expect(meshed.code).toBe(0);
    const ofTerminal = (name: string) => readFileSync(join(folder, 'meshes', name));
    expect((await bytesOf(stl)).equals(ofTerminal(`${id}.stl`))).toBe(true);
    expect((await bytesOf(threeMf)).equals(ofTerminal(`${id}.3mf`))).toBe(true);
    const exported = await anfract(
      folder,
      'export',
      'run',
      id,
      '--out',
      'own.design.json',
      '--quiet',
    );
    expect(exported.code).toBe(0);
    expect((await bytesOf(design)).equals(readFileSync(join(folder, 'own.design.json')))).toBe(
      true,
    );
    expect(faults).toEqual([]);
    expect(outside).toEqual([]);
  });
});
