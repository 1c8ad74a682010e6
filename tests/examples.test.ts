/** Runs the `@example expression // value` lines of the docstrings, to the digits given. */
import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { join, relative, resolve, sep } from 'node:path';
import { pathToFileURL } from 'node:url';
import { describe, expect, it } from 'vitest';

const ROOT = resolve(import.meta.dirname, '..');

interface Example {
  readonly file: string;
  readonly expression: string;
  readonly value: string;
}

function examplesOf(file: string): Example[] {
  const lines = readFileSync(file, 'utf8').matchAll(/\*\s*@example\s+(.+?)\s+\/\/\s+(.+?)\s*$/gm);
  return [...lines].map((match) => ({ file, expression: match[1], value: match[2] }));
}

const examples = readdirSync(join(ROOT, 'src'), { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.ts'))
  .flatMap((name) => examplesOf(join(ROOT, 'src', name)));

/** Evaluates with the exports of the file and of its room's door in scope. */
async function evaluate(file: string, expression: string): Promise<unknown> {
  const [, room] = relative(ROOT, file).split(sep);
  const doorFile = join(ROOT, 'src', room, 'index.ts');
  const door: Record<string, unknown> = existsSync(doorFile)
    ? await import(pathToFileURL(doorFile).href)
    : {};
  const own: Record<string, unknown> = { ...door, ...(await import(pathToFileURL(file).href)) };
  const names = Object.keys(own);
  const body = new Function(...names, `'use strict'; return (${expression});`);
  return body(...names.map((name) => own[name]));
}

function digitsAfterPoint(text: string): number {
  return /\.(\d+)/.exec(text)?.[1].length ?? 0;
}

describe('docstring examples', () => {
  it('are found', () => {
    expect(examples.length).toBeGreaterThan(10);
  });

  it.each(
    examples.map((entry) => [`${relative(ROOT, entry.file)}: ${entry.expression}`, entry] as const),
  )('%s', async (_title, { file, expression, value }) => {
    const found = await evaluate(file, expression);
    if (typeof found === 'number' && !value.includes('e')) {
      const wanted = Number(value);
      expect(Number.isNaN(wanted), `"${value}" is not a number`).toBe(false);
      expect(Math.abs(found - wanted)).toBeLessThanOrEqual(0.5001 * 10 ** -digitsAfterPoint(value));
    } else if (typeof found === 'number') {
      const digits = value.replace(/e.*$/, '').replace(/[^0-9]/g, '').length;
      expect(found.toPrecision(digits)).toBe(Number(value).toPrecision(digits));
    } else {
      const wanted = new Function(`'use strict'; return (${value});`)();
      expect(found).toEqual(wanted);
    }
  });
});
