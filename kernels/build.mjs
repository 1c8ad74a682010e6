/**
 * Compiles `kernels/lattice.ts` (AssemblyScript) and writes it as text into `src/flow/lattice-wasm.ts`:
 * `node kernels/build.mjs [FILE]`. The result is kept in the repository; a test builds it again and
 * compares, so that neither a build nor a browser needs the compiler.
 */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import asc from 'assemblyscript/asc';

const target = process.argv[2] ?? join(import.meta.dirname, '../src/flow/lattice-wasm.ts');
const folder = mkdtempSync(join(tmpdir(), 'lattice-'));
const binary = join(folder, 'lattice.wasm');
try {
  const { error, stderr } = await asc.main([
    join(import.meta.dirname, 'lattice.ts'),
    ...[
      '--outFile',
      binary,
      '--runtime',
      'stub',
      '--enable',
      'simd',
      '--importMemory',
      '--noAssert',
    ],
    ...['--optimizeLevel', '3', '--shrinkLevel', '0', '--converge'],
  ]);
  if (error) throw new Error(`${error.message}\n${stderr.toString()}`);
  const text = readFileSync(binary).toString('base64');
  const lines = text.match(/.{1,90}/g).map((line) => `  '${line}',`);
  writeFileSync(
    target,
    `/** Made by \`node kernels/build.mjs\` from \`kernels/lattice.ts\`: the compiled kernel in base64. */
export const LATTICE_WASM = [
${lines.join('\n')}
].join('');
`,
  );
} finally {
  rmSync(folder, { recursive: true });
}
