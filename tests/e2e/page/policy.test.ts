/** What the page lets in and out, and how it stands up to hostile files and poor browsers. */
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { PAGE_FOLDER } from '../../support/cli.ts';
import {
  draftOf,
  ended,
  evolveOnPage,
  goTo,
  openBriefFile,
  openFront,
  pageTests,
  reason,
  skipped,
} from '../../support/page.ts';
import { evolvedFront } from '../../support/evolved-front.ts';
import { smallBrief } from '../../support/small-brief.ts';

describe.skipIf(skipped)(`the page and strangers${reason}`, () => {
  const { visit, url } = pageTests();

  it('comes with a policy that allows its own files only, no inline script and no eval', async () => {
    const { headers } = await fetch(url());
    const policy = headers.get('content-security-policy') ?? '';
    const rules = new Map(
      policy.split('; ').map((rule) => [rule.split(' ')[0], rule.split(' ').slice(1).join(' ')]),
    );
    expect(rules.get('default-src')).toBe("'none'");
    expect(rules.get('script-src')).toBe("'self' 'wasm-unsafe-eval'");
    expect(rules.get('style-src')).toBe("'self'");
    expect(rules.get('connect-src')).toBe("'self'");
    expect(rules.get('frame-ancestors')).toBe("'none'");
    const html = await (await fetch(url())).text();
    expect(html).not.toMatch(/<script(?![^>]*\bsrc=)|<style|\sstyle=|\son\w+=|javascript:/iu);
  });

  it('shows a name full of markup as text and asks nobody outside for anything', async () => {
    const { page, faults, outside } = await visit();
    const name = '<img src="https://example.org/x" onerror="document.title=1"><b>x</b>';
    await evolveOnPage(page, { ...smallBrief({ generations: 2 }), name });
    for (const step of ['Brief', 'Evolve', 'Front', 'Part', 'Compare']) {
      await goTo(page, step);
      expect(await page.locator('img[src^="https"], main b').count()).toBe(0);
    }
    await goTo(page, 'Part');
    await page
      .getByAltText(/cut open/u)
      .first()
      .waitFor();
    expect(await page.title()).not.toBe('1');
    expect(faults).toEqual([]);
    expect(outside).toEqual([]);
  });

  const strange: readonly (readonly [string, string | Buffer, RegExp])[] = [
    ['no JSON', 'plate: 84 mm', /is no brief: .*JSON/u],
    ['a list', '[1, 2]', /is no brief: it is no JSON object/u],
    ['another format', '{"format":"other","version":1}', /its "format" is not "anfract-brief"/u],
    ['binary', Buffer.from([0x50, 0x4b, 3, 4, 0xff, 0, 0xfe]), /is no brief/u],
    ['nothing', '', /is no brief/u],
    ['3 MB', Buffer.alloc(3_000_000, 32), /3000000 bytes; a brief has no more than 2000000/u],
  ];
  it('refuses a file that is no brief, saying what is wrong, and keeps the brief at hand', async () => {
    const { page, faults } = await visit({ before: draftOf(smallBrief()) });
    await page.getByText('The brief is sound.').waitFor();
    for (const [what, content, words] of strange) {
      await openBriefFile(page, `${what}.json`, content);
      await page.locator('.notices').getByText(words).last().waitFor();
      expect(await page.getByLabel('Name', { exact: false }).first().inputValue()).toBe(
        'small test plate',
      );
    }
    expect(faults).toEqual([]);
  });

  it('takes a brief nested beyond all measure for what it is: faulty', async () => {
    const { page, faults } = await visit({ before: draftOf(smallBrief()) });
    await page.getByText('The brief is sound.').waitFor();
    const deep = `${'['.repeat(20_000)}${']'.repeat(20_000)}`;
    const long = JSON.stringify(Array.from({ length: 50_000 }, () => [0, 0]));
    await openBriefFile(
      page,
      'deep.json',
      `{"format":"anfract-brief","version":1,"plate":${deep}}`,
    );
    await page
      .getByText(/faults? to mend|call stack|could not be/u)
      .first()
      .waitFor();
    await openBriefFile(
      page,
      'long.json',
      `{"format":"anfract-brief","version":1,"plate":{"outline":{"kind":"polygon","points_mm":${long}}}}`,
    );
    await page
      .getByText(/points_mm is a list of 50000 entries/u)
      .first()
      .waitFor();
    await page.getByText(/and 49800 more rows/u).waitFor();
    expect(faults).toEqual([]);
  });

  it('works without Web Workers but for evolving, and says so', async () => {
    const { page, faults } = await visit({
      before: `delete globalThis.Worker; ${draftOf(smallBrief())}`,
    });
    await page
      .locator('.notices')
      .getByText(/no Web Workers/u)
      .waitFor();
    await page.getByText('The brief is sound.').waitFor();
    await page.getByRole('img', { name: /Plate of 30 by 24 mm/u }).waitFor();
    await page.getByLabel('Rim [mm]').fill('40');
    await page.locator('#fault-plate\\.rim_mm').waitFor();
    await goTo(page, 'Evolve');
    expect(await page.getByRole('button', { name: 'Start', exact: true }).isDisabled()).toBe(true);
    expect(faults).toEqual([]);
  });

  const without: readonly (readonly [string, string])[] = [
    ['a worker', ''],
    ['the page', 'delete HTMLCanvasElement.prototype.transferControlToOffscreen;'],
  ];
  it.each(without)(
    'shows drawings and numbers where %s has no WebGL, and says so',
    async (_, before) => {
      const bar = (kind: string): string => `{
        const { getContext } = ${kind}.prototype;
        ${kind}.prototype.getContext = function (kind, ...rest) {
          return kind.startsWith('webgl') ? null : getContext.call(this, kind, ...rest);
        };
      }`;
      const { page, faults } = await visit({
        before: before + bar('HTMLCanvasElement'),
        preface: { worker: 'solid.web', script: bar('OffscreenCanvas') },
      });
      await openFront(page, await evolvedFront({ generations: 2 }));
      await goTo(page, 'Part');
      await page.getByText(/It said: WebGL 2 is not there/u).waitFor();
      await page
        .getByAltText(/cut open/u)
        .first()
        .waitFor();
      await page.getByRole('rowheader', { name: 'mass', exact: true }).first().waitFor();
      expect(faults).toEqual([]);
    },
  );

  it('says so when the worker that draws plots fails, and keeps its table', async () => {
    const { page } = await visit({
      preface: { worker: 'paint.web', script: "throw new Error('no drawing today');" },
    });
    await openFront(page, await evolvedFront({ generations: 2 }));
    await page.getByText(/Plots cannot be drawn: .*no drawing today/u).waitFor();
    await page.getByRole('button', { name: 'd001', exact: true }).first().waitFor();
  });

  it('goes on with a run whose checkpoints find no room, and says so', async () => {
    const { page, faults } = await visit({
      before: `IDBObjectStore.prototype.put = () => { throw new DOMException('no room is left', 'QuotaExceededError'); }; ${draftOf(smallBrief({ generations: 4 }))}`,
    });
    await goTo(page, 'Evolve');
    await page.getByText(/is sound: /u).waitFor();
    await page.getByRole('button', { name: 'Start', exact: true }).click();
    await page
      .getByText(/The run goes on, but cannot be kept in this browser: no room is left/u)
      .waitFor();
    await ended(page);
    await page.locator('.readings').getByText('4 of 4').waitFor();
    expect(faults).toEqual([]);
  });
});

describe('the built page', () => {
  it('is under 400 KB gzip with its workers, before what loads on demand', () => {
    const html = readFileSync(join(PAGE_FOLDER, 'index.html'), 'utf8');
    const named = [...html.matchAll(/(?:src|href)="\.\/(assets\/[^"]+)"/gu)].map(
      ([, name]) => name,
    );
    // One does the sums, one draws plots; what draws in 3D is loaded when a part is looked at.
    const workers = readdirSync(join(PAGE_FOLDER, 'assets')).filter((name) =>
      /^(?:page|paint)\.web-.*\.js$/u.test(name),
    );
    expect(workers).toHaveLength(2);
    const files = new Set([...named, ...workers.map((name) => `assets/${name}`)]);
    // What the entry imports at once comes with it.
    for (const name of files) {
      if (!name.endsWith('.js')) continue;
      const text = readFileSync(join(PAGE_FOLDER, name), 'utf8');
      for (const [, other] of text.matchAll(/(?:\bfrom|\bimport)"\.\/([^"]+\.js)"/gu)) {
        files.add(`assets/${other}`);
      }
    }
    let bytes = gzipSync(html).length;
    for (const name of files) bytes += gzipSync(readFileSync(join(PAGE_FOLDER, name))).length;
    expect(bytes).toBeGreaterThan(50_000);
    expect(bytes).toBeLessThan(400_000);
  });
});
