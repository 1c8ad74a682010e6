/** The same brief and seed: the front file of the page and the terminal's, byte for byte. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { aFolder, anfract } from '../../support/cli.ts';
import {
  bytesOf,
  evolveOnPage,
  goTo,
  pageTests,
  reason,
  skipped,
  taken,
} from '../../support/page.ts';
import { writeSmallBrief } from '../../support/small-brief-file.ts';
import { smallBrief } from '../../support/small-brief.ts';

describe.skipIf(skipped)(`a front of the page${reason}`, () => {
  const { visit } = pageTests();

  it('is the file that the terminal writes', async () => {
    const folder = aFolder();
    const changes = { generations: 6, seed: 'same' };
    writeSmallBrief(folder, changes);
    const args = ['brief.json', '--out', 'run', '--no-meshes', '--quiet'];
    const terminal = anfract(folder, 'evolve', ...args);
    const { page, faults } = await visit();
    await evolveOnPage(page, smallBrief(changes));
    expect(await terminal).toMatchObject({ code: 0, stderr: '' });
    await goTo(page, 'Compare');
    const file = await taken(page, () =>
      page.getByRole('button', { name: 'Front file', exact: true }).click(),
    );
    const ofTerminal = readFileSync(join(folder, 'run/front.json'), 'utf8');
    expect((await bytesOf(file)).toString('utf8')).toBe(ofTerminal);
    expect(faults).toEqual([]);
  });
});
