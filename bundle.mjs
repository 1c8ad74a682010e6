/**
 * Puts the two programs that start often, the command line and its worker, into one file each, over
 * what tsc made of them: `node bundle.mjs [FOLDER]`, after tsc. Loading some 400 small modules takes
 * several times as long as loading one (DEVELOPERS.md, decisions). Nothing is renamed or shrunk, so
 * that stack traces still read.
 */
import { build } from 'esbuild';

await build({
  entryPoints: ['src/cli/main.ts', 'workers/evaluate.node.ts'],
  outbase: '.',
  outdir: process.argv[2] ?? 'dist',
  allowOverwrite: true,
  bundle: true,
  platform: 'node',
  format: 'esm',
  target: 'node20',
  // It looks for its wasm beside itself.
  external: ['manifold-3d'],
  // Packages of the older module kind ask for Node's own modules by `require`.
  banner: {
    js: "import { createRequire as requireFrom } from 'node:module'; const require = requireFrom(import.meta.url);",
  },
  logLevel: 'warning',
});
