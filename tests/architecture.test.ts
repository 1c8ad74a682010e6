/** The rooms of `src` and which of them may import which: the table, and a check of every import. */
import { mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, relative, resolve, sep } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';

const ROOT = resolve(import.meta.dirname, '..');

/** Room: the rooms whose door it may use. */
const MAY_IMPORT: Readonly<Record<string, readonly string[]>> = {
  'src/numeric': [],
  'src/brief': ['src/numeric'],
  'src/physics': ['src/numeric'],
  'src/search': ['src/numeric'],
  'src/design': ['src/numeric', 'src/brief'],
  'src/print': ['src/numeric', 'src/brief', 'src/design'],
  'src/solids': ['src/numeric', 'src/design'],
  'src/genome': ['src/numeric', 'src/brief', 'src/design'],
  'src/measures': ['src/numeric', 'src/brief', 'src/design', 'src/physics', 'src/print'],
  'src/flow': ['src/numeric', 'src/brief', 'src/design', 'src/physics'],
  'src/formats': [
    ...['numeric', 'brief', 'physics', 'search', 'design', 'print', 'solids', 'genome'].map(
      (room) => `src/${room}`,
    ),
    'src/measures',
    'src/engine (types)',
  ],
  'src/engine': [
    ...['numeric', 'brief', 'physics', 'search', 'design', 'print', 'solids', 'genome'].map(
      (room) => `src/${room}`,
    ),
    'src/measures',
    'src/flow',
    'src/formats',
  ],
  'src/store': ['src/brief', 'src/formats', 'src/engine (types)'],
  workers: ['src/engine'],
  'src/cli': ['src/brief', 'src/engine', 'src/formats', 'src/store', 'workers'],
  'src/web': ['src/engine', 'src/formats', 'workers'],
};

/** Packages a room may use; a room not listed here may use none. */
const PACKAGES: Readonly<Record<string, readonly string[]>> = {
  'src/numeric': ['seedrandom', 'ml-matrix'],
  'src/brief': ['zod'],
  'src/solids': ['manifold-3d', 'delaunator', '@kninnug/constrainautor'],
  'src/formats': ['zod', 'fflate'],
  'src/store': ['node:*'],
  workers: ['comlink', 'node:*'],
  'src/cli': ['commander', 'node:*'],
  // Its build config is the one file that runs in Node.
  'src/web': [
    'preact',
    '@preact/signals',
    'comlink',
    'idb',
    'd3-scale',
    'three',
    'manifold-3d',
    'vite',
    'node:*',
  ],
};

interface Import {
  readonly file: string;
  readonly target: string;
  readonly typeOnly: boolean;
}

function filesBelow(folder: string): string[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.tsx?$/.test(name) && !name.endsWith('.d.ts'))
    .map((name) => join(folder, name));
}

/** A file without comments and without the inside of texts: what is left is code. */
function codeOf(file: string): string {
  return readFileSync(file, 'utf8').replaceAll(
    /\/\*[^]*?\*\/|\/\/.*|'(?:[^'\\\n]|\\.)*'|"(?:[^"\\\n]|\\.)*"/g,
    (found) => (found.startsWith('/') ? '' : "''"),
  );
}

/** Every import of a file: static, for its effects, on demand, and of a type in place. */
function importsOf(file: string): Import[] {
  const text = readFileSync(file, 'utf8').replaceAll(/^\s*(?:\/\/|\*|\/\*).*$/gm, '');
  const statement = /^\s*(?:import|export)\s+(type\s+)?(?:[^'";]*?\sfrom\s+)?'([^']+)'/gm;
  const onDemand = /(typeof\s+)?\bimport\(\s*([^)]*?)\s*\)/g;
  const found = [...text.matchAll(statement)].map(([, type, target]) => ({ type, target }));
  const later = [...text.matchAll(onDemand)].map(([, type, target]) => ({
    type,
    // What is no plain text cannot be judged, and so is no known room or package.
    target: /^'([^']+)'$/.exec(target)?.[1] ?? `something computed (${target})`,
  }));
  return [...found, ...later].map(({ type, target }) => ({
    file,
    target,
    typeOnly: type !== undefined,
  }));
}

function roomOf(file: string): string {
  const parts = relative(ROOT, file).split(sep);
  return parts[0] === 'src' ? `src/${parts[1]}` : parts[0];
}

/** Files that import by an address only the bundler knows, and what lies there. */
const BY_ADDRESS: Readonly<Record<string, string>> = {
  'src/web/state/own-desk.ts': "the page's own worker file, named by a judged import above it",
};

/** Why an import breaks the table, or null. */
function breach(entry: Import): string | null {
  const from = roomOf(entry.file);
  const where = `${relative(ROOT, entry.file)} imports ${entry.target}`;
  const isByAddress = entry.target.startsWith('something computed');
  if (isByAddress && BY_ADDRESS[relative(ROOT, entry.file)] !== undefined) return null;
  if (!entry.target.startsWith('.')) {
    const allowed = PACKAGES[from] ?? [];
    const known = allowed.some((name) =>
      name.endsWith('*')
        ? entry.target.startsWith(name.slice(0, -1))
        : entry.target === name || entry.target.startsWith(`${name}/`),
    );
    return known ? null : `${where}: a package this room does not use`;
  }
  const target = resolve(dirname(entry.file), entry.target);
  const to = roomOf(target);
  if (to === from) return null;
  const rooms = MAY_IMPORT[from] ?? [];
  const typesAllowed = entry.typeOnly && rooms.includes(`${to} (types)`);
  if (!rooms.includes(to) && !typesAllowed) return `${where}: ${from} may not use ${to}`;
  if (to.startsWith('src/') && !target.endsWith(`${sep}index.ts`)) {
    return `${where}: another room is entered by its index.ts only`;
  }
  return null;
}

const files = [...filesBelow(join(ROOT, 'src')), ...filesBelow(join(ROOT, 'workers'))];

describe('architecture', () => {
  it('knows every room', () => {
    const rooms = new Set(files.map(roomOf));
    expect([...rooms].filter((room) => MAY_IMPORT[room] === undefined)).toEqual([]);
  });

  it('has no import against the table of rooms', () => {
    const breaches = files
      .flatMap(importsOf)
      .map(breach)
      .filter((why) => why !== null);
    expect(breaches).toEqual([]);
  });

  it('finds the imports it judges', () => {
    const targets = (file: string) => importsOf(join(ROOT, 'workers', file)).map((e) => e.target);
    expect(targets('thread.node.ts')).toContain('node:worker_threads');
    expect(targets('crew.node.ts')).toContain('./crew.ts');
  });

  it.each([
    ["await import('node:fs')", 'node:fs'],
    ['void import(name)', 'something computed (name)'],
    ["const a: typeof import('../store/index.ts') = b", '../store/index.ts'],
    ["import {\n  a,\n  b,\n} from '../store/index.ts'", '../store/index.ts'],
    ["import '../store/index.ts'", '../store/index.ts'],
  ])('finds the import in %j', (text, target) => {
    const folder = mkdtempSync(join(tmpdir(), 'anfract-'));
    onTestFinished(() => rmSync(folder, { recursive: true }));
    const file = join(folder, 'a.ts');
    writeFileSync(file, `${text};\n`);
    expect(importsOf(file).map((entry) => entry.target)).toEqual([target]);
  });

  it('has no power operator in the rooms that must be portable', () => {
    // It differs in the last bit between engines, and lint has no rule for it.
    const portable = files.filter(
      (file) => !['src/store', 'src/cli', 'src/web', 'workers'].includes(roomOf(file)),
    );
    expect(portable.filter((file) => codeOf(file).includes('**'))).toEqual([]);
  });

  it('has only named re-exports at the doors', () => {
    const doors = files.filter((file) => file.endsWith(`${sep}index.ts`));
    expect(doors.filter((file) => /export \*/.test(readFileSync(file, 'utf8')))).toEqual([]);
  });
});
