/** `npm run bench -- NAME...`: runs the named benches one after another; without names, lists them. */
import { readdirSync } from 'node:fs';

const here = new URL('.', import.meta.url);
const names = readdirSync(here, { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.bench.js'))
  .map((name) => name.replace(/\.bench\.js$/, ''))
  .toSorted();
const wanted = process.argv.slice(2);
const unknown = wanted.filter((name) => !names.includes(name));
if (wanted.length === 0 || unknown.length > 0) {
  if (unknown.length > 0) process.stderr.write(`No bench is called ${unknown.join(', ')}.\n`);
  process.stdout.write(
    `npm run bench -- NAME...\n${names.map((name) => `  ${name}`).join('\n')}\n`,
  );
  process.exitCode = unknown.length > 0 ? 2 : 0;
} else {
  for (const name of wanted) {
    process.stdout.write(`\n== ${name}\n`);
    await import(new URL(`${name}.bench.js`, here).href);
  }
}
