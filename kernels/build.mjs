/**
 * Compiles the kernels of this folder (AssemblyScript) and writes each as text into `NAME-wasm.ts` of its
 * room: `node kernels/build.mjs [FOLDER]`, with FOLDER all of them there. The results are kept in the
 * repository; a test builds them again and compares, so that neither a build nor a browser needs the
 * compiler.
 */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import asc from 'assemblyscript/asc';

/** Kernel: folder of its text. */
const KERNELS = {
  lattice: 'src/flow',
  dust: 'src/measures/analyses',
  stream: 'src/physics',
  clearance: 'src/measures/clearance',
  raster: 'src/print',
};

for (const [name, room] of Object.entries(KERNELS)) {
  const target = process.argv[2] ?? join(import.meta.dirname, '..', room);
  writeFileSync(join(target, `${name}-wasm.ts`), await textOf(name));
}

async function textOf(name) {
  const folder = mkdtempSync(join(tmpdir(), 'kernel-'));
  const binary = join(folder, `${name}.wasm`);
  try {
    const { error, stderr } = await asc.main([
      join(import.meta.dirname, `${name}.ts`),
      ...['--outFile', binary, '--runtime', 'stub', '--enable', 'simd', '--importMemory'],
      ...['--noAssert', '--optimizeLevel', '3', '--shrinkLevel', '0', '--converge'],
    ]);
    if (error) throw new Error(`${error.message}\n${stderr.toString()}`);
    const text = readFileSync(binary).toString('base64');
    const lines = text.match(/.{1,90}/g).map((line) => `  '${line}',`);
    return `/** Made by \`node kernels/build.mjs\` from \`kernels/${name}.ts\`: the compiled kernel in base64. */
export const ${name.toUpperCase()}_WASM = [
${lines.join('\n')}
].join('');
`;
  } finally {
    rmSync(folder, { recursive: true });
  }
}
