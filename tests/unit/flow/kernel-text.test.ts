import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { expect, it, onTestFinished } from 'vitest';

it('the kept kernel is what its source compiles to', () => {
  const root = resolve(import.meta.dirname, '../../..');
  const folder = mkdtempSync(join(tmpdir(), 'kernel-'));
  onTestFinished(() => rmSync(folder, { recursive: true }));
  const fresh = join(folder, 'fresh.ts');
  execFileSync(process.execPath, [join(root, 'kernels/build.mjs'), fresh]);
  const kept = readFileSync(join(root, 'src/flow/lattice-wasm.ts'), 'utf8');
  expect(kept).toBe(readFileSync(fresh, 'utf8'));
});
