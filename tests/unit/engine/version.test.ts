import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { PARTS, VERSION } from '../../../src/engine/index.ts';

const ROOT = resolve(import.meta.dirname, '../../..');

function versionIn(path: string): string {
  const data: { version: string } = JSON.parse(readFileSync(resolve(ROOT, path), 'utf8'));
  return data.version;
}

describe('version', () => {
  it('is that of the package', () => {
    expect(VERSION).toBe(versionIn('package.json'));
  });

  it('names the installed parts that results depend on', () => {
    for (const [name, version] of Object.entries(PARTS)) {
      expect(versionIn(`node_modules/${name}/package.json`), name).toBe(version);
    }
  });
});
