/**
 * Puts the programs that start often, the command line and its workers, into one file each, over
 * what tsc made of them: `node bundle.mjs [FOLDER]`, after tsc. Loading some 400 small modules takes
 * several times as long as loading one (DEVELOPERS.md, decisions). Nothing is renamed or shrunk, so
 * that stack traces still read.
 */
import { build } from 'esbuild';

/**
 * Our modules do nothing but declare, all but the one that starts threads: what a program does not
 * use is left out of its file.
 */
const declareOnly = {
  name: 'declare-only',
  setup(bundler) {
    bundler.onResolve({ filter: /^\.\.?\// }, async (wanted) => {
      const { path, importer, resolveDir, kind, pluginData } = wanted;
      if (pluginData === declareOnly || importer.includes('node_modules')) return undefined;
      if (path.endsWith('/early-threads.ts')) return undefined;
      const found = await bundler.resolve(path, {
        importer,
        resolveDir,
        kind,
        pluginData: declareOnly,
      });
      return { ...found, sideEffects: false };
    });
  },
};

await build({
  entryPoints: ['src/cli/main.ts', 'workers/evaluate.node.ts', 'workers/verify.node.ts'],
  outbase: '.',
  outdir: process.argv[2] ?? 'dist',
  allowOverwrite: true,
  bundle: true,
  platform: 'node',
  format: 'esm',
  target: 'node20',
  // It looks for its wasm beside itself.
  external: ['manifold-3d'],
  plugins: [declareOnly],
  // Packages of the older module kind ask for Node's own modules by `require`.
  banner: {
    js: "import { createRequire as requireFrom } from 'node:module'; const require = requireFrom(import.meta.url);",
  },
  logLevel: 'warning',
});
