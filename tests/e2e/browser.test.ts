/**
 * The same brief and seed in a real browser: web workers from the bundled entry, a strict content
 * policy; the front file, and a digest of every reading on the way, compared with Node's byte for byte.
 */
import { resolve } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Brief, Front } from '../../src/engine/index.ts';
import { readFrontFile } from '../../src/formats/index.ts';
import {
  CHROMIUM,
  PLAIN_POLICY,
  bundle,
  hasChromium,
  openBrowser,
  visit,
} from '../support/browser.ts';
import { wideBrief } from '../support/browser-briefs.ts';
import { evolveWitnessed } from '../support/browser-witness.ts';
import { localCrew } from '../support/local-crew.ts';
import { smallBrief } from '../support/small-brief.ts';

const ROOT = resolve(import.meta.dirname, '../..');
const inCi = process.env.CI === 'true';
const skipped = !hasChromium && !inCi;
const reason = skipped ? ` (skipped: no ${CHROMIUM}; on Debian: apt install chromium)` : '';

function frontOfText(text: string): Front {
  return readFrontFile(text.slice(text.indexOf('\n') + 1));
}

function columnOf(rows: Float64Array, genes: number, at: number): number[] {
  return Array.from({ length: rows.length / genes }, (_, i) => rows[i * genes + at]);
}

describe.skipIf(skipped)(`evolution in a browser${reason}`, () => {
  let browser: Browser | null = null;
  let scripts: Record<string, string> = {};

  beforeAll(async () => {
    if (!hasChromium) {
      throw new Error(`${CHROMIUM} is missing: apt-get install chromium, or run without CI=true.`);
    }
    const [page, worker, opened] = await Promise.all([
      bundle(resolve(ROOT, 'tests/support/browser-page.ts')),
      bundle(resolve(ROOT, 'workers/evaluate.web.ts')),
      openBrowser(),
    ]);
    scripts = { '/page.js': page, '/evaluate.js': worker };
    browser = opened;
  }, 60_000);

  afterAll(async () => {
    await browser?.close();
  });

  async function visitWith(files: Readonly<Record<string, string>>, query = '') {
    if (browser === null) throw new Error('The browser did not start.');
    return visit(browser, { ...scripts, ...files }, query);
  }

  /** The digest of every reading, and the front file. */
  async function resultInBrowser(brief: Brief, workers: number): Promise<string> {
    const files = { '/brief.json': JSON.stringify(brief) };
    const { result, faults } = await visitWith(files, `?workers=${workers}`);
    expect(faults).toEqual([]);
    if (result === null) throw new Error('The page gave no result.');
    return result;
  }

  it.each([1, 2])('evolve() gives the bytes of Node with %i web workers', async (workers) => {
    const brief = smallBrief({ generations: 5 });
    const { text } = await evolveWitnessed(brief, localCrew(brief));
    expect(frontOfText(text).designs.length).toBeGreaterThan(1);
    expect(await resultInBrowser(brief, workers)).toBe(text);
  });

  it('evolve() gives the same bytes where the policy refuses compiled kernels', async () => {
    const brief = smallBrief({ generations: 5 });
    const { text } = await evolveWitnessed(brief, localCrew(brief));
    if (browser === null) throw new Error('The browser did not start.');
    const files = { ...scripts, '/brief.json': JSON.stringify(brief) };
    const rules = { policy: PLAIN_POLICY, expected: /"blocked-uri":"wasm-eval"/ };
    const { result, faults, refused } = await visit(browser, files, '?workers=1', rules);
    expect(faults).toEqual([]);
    // The plain forms are compared only if the compiled ones were refused indeed.
    expect(refused.length).toBeGreaterThan(0);
    expect(result).toBe(text);
  });

  it('evolve() gives the bytes of Node where all measures, motifs and sections take part', async () => {
    const brief = wideBrief();
    const { text, batches } = await evolveWitnessed(brief, localCrew(brief));
    // The comparison is worth what the run exercises.
    const front = frontOfText(text);
    expect(front.designs.some((design) => design.origin === 'evolved')).toBe(true);
    const unread = front.measures.filter(
      (_, j) => !front.designs.some((design) => design.readings[j] !== null),
    );
    // A plate with its air through both faces has no sectors.
    expect(unread.map((measure) => measure.id)).toEqual(['sectorEvenness']);
    const missing = front.genes.flatMap((gene, at) => {
      const seen = new Set(batches.flatMap((rows) => columnOf(rows, front.genes.length, at)));
      const options = gene.kind === 'real' ? 0 : gene.max - gene.min + 1;
      return seen.size < options ? [gene.name] : [];
    });
    expect(missing).toEqual([]);
    expect(await resultInBrowser(brief, 2)).toBe(text);
  }, 120_000);

  it.each([
    ['a caught eval in the page', { '/page.js': "try { (0, eval)('1'); } catch {}" }, /policy:/],
    [
      'a caught eval in a worker',
      {
        '/page.js': "new Worker('/evaluate.js', { type: 'module' });",
        '/evaluate.js': "try { new Function('return 1')(); } catch {}",
      },
      /policy:/,
    ],
    ['an unhandled rejection', { '/page.js': "Promise.reject(new Error('no'));" }, /uncaught: no/],
    [
      'an unhandled rejection in a worker',
      {
        '/page.js': "new Worker('/evaluate.js', { type: 'module' });",
        '/evaluate.js': "Promise.reject(new Error('no'));",
      },
      /uncaught: .*no/,
    ],
    ['a console error', { '/page.js': "console.error('bad');" }, /console: bad/],
    ['a request to elsewhere', { '/page.js': "fetch('http://localhost:9/').catch(() => 0);" }, /./],
  ])('the trap of these tests catches %s', async (_, files, fault) => {
    const { result, faults } = await visitWith(files);
    expect(result).toBeNull();
    expect(faults.join('\n')).toMatch(fault);
  });
});
