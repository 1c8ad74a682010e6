import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { defineConfig } from 'vite';
import type { Plugin } from 'vite';

/** The invented briefs of the experiments, as files beside the page. */
const EXAMPLES = ['flour-trap', 'light-tight', 'finger-guard'];

function examples(): Plugin {
  return {
    name: 'examples',
    generateBundle() {
      for (const name of EXAMPLES) {
        const path = resolve(import.meta.dirname, '../../experiments', name, 'brief.json');
        this.emitFile({
          type: 'asset',
          fileName: `examples/${name}.json`,
          source: readFileSync(path, 'utf8'),
        });
      }
    },
  };
}

/**
 * The rooms beside this one only define things: of a room that the page takes two functions from,
 * nothing else comes with them.
 */
const treeshake = {
  moduleSideEffects: [{ test: /[\\/]src[\\/](?!web[\\/])/, sideEffects: false }],
};

/** The page: static files that any web server can hand out; every address in them is relative. */
export default defineConfig({
  root: import.meta.dirname,
  base: './',
  plugins: [examples()],
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  worker: { format: 'es', rolldownOptions: { treeshake } },
  build: {
    outDir: '../../dist/page',
    emptyOutDir: true,
    target: 'es2023',
    // A strict content policy allows no inlined data: addresses.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    license: true,
    rolldownOptions: { treeshake },
  },
});
