import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { expect, it, onTestFinished } from 'vitest';

it('the kept kernels are what their sources compile to', () => {
  const root = resolve(import.meta.dirname, '../../..');
  const folder = mkdtempSync(join(tmpdir(), 'kernel-'));
  onTestFinished(() => rmSync(folder, { recursive: true }));
  execFileSync(process.execPath, [join(root, 'kernels/build.mjs'), folder]);
  const kept = readdirSync(join(root, 'src'), { recursive: true, encoding: 'utf8' }).filter(
    (name) => name.endsWith('-wasm.ts'),
  );
  expect(kept.length).toBe(readdirSync(folder).length);
  for (const name of kept) {
    const text = readFileSync(join(root, 'src', name), 'utf8');
    const [file] = name.split(/[\\/]/).slice(-1);
    expect(text, name).toBe(readFileSync(join(folder, file), 'utf8'));
  }
});
