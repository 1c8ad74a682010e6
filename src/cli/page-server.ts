/** The server of the page: static files and, read-only, a folder of runs. */
import { createReadStream } from 'node:fs';
import { readFile, readdir, realpath, stat } from 'node:fs/promises';
import { createServer } from 'node:http';
import type { IncomingMessage, Server, ServerResponse } from 'node:http';
import { extname, join, resolve, sep } from 'node:path';
import { pipeline } from 'node:stream/promises';
import { listRuns } from './page-runs.ts';

interface PageServerOptions {
  /** Folder of the built page. */
  readonly page: string;
  /** Folder of runs to show, or null. */
  readonly runs: string | null;
  /** Names under which the page may be asked for, without port. */
  readonly hosts: readonly string[];
}

/**
 * Everything from here, nothing inline, no eval but WebAssembly. Pictures of runs and downloads are
 * made in the page: blob: and data: hold those.
 */
export const PAGE_POLICY = [
  "default-src 'none'",
  "script-src 'self' 'wasm-unsafe-eval'",
  "worker-src 'self'",
  "style-src 'self'",
  "img-src 'self' blob: data:",
  "connect-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join('; ');

const HEADERS: Readonly<Record<string, string>> = {
  'Content-Security-Policy': PAGE_POLICY,
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Embedder-Policy': 'require-corp',
  'Cross-Origin-Resource-Policy': 'same-origin',
  'Referrer-Policy': 'no-referrer',
  'X-Content-Type-Options': 'nosniff',
};

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.jsonl': 'application/x-ndjson; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.wasm': 'application/wasm',
  '.csv': 'text/csv; charset=utf-8',
  '.stl': 'model/stl',
  '.3mf': 'model/3mf',
  '.log': 'text/plain; charset=utf-8',
  '.md': 'text/plain; charset=utf-8',
};

/** A server that is not listening yet. */
export function createPageServer(options: PageServerOptions): Server {
  return createServer((request, response) => {
    answer(options, request, response).catch((error: unknown) => {
      // A reader that went away is nobody's fault; a file that vanished in between is a 404.
      if (response.headersSent) response.destroy();
      else
        refuse(response, 404, error instanceof Error ? 'It is not there.' : 'It cannot be read.');
    });
  });
}

async function answer(
  { page, runs, hosts }: PageServerOptions,
  request: IncomingMessage,
  response: ServerResponse,
): Promise<void> {
  if (!isOurs(request.headers.host, hosts)) {
    return refuse(response, 421, 'This server answers to its own name only.');
  }
  if (request.method !== 'GET' && request.method !== 'HEAD') {
    response.setHeader('Allow', 'GET, HEAD');
    return refuse(response, 405, 'This server only shows files.');
  }
  const path = decodePath(request.url ?? '/');
  if (path === null) return refuse(response, 400, 'The address cannot be read.');
  if (path === '/runs/index.json') {
    const text = JSON.stringify(runs === null ? [] : await listRuns(runs));
    return sendText(response, text, request.method === 'HEAD');
  }
  const isRun = path.startsWith('/runs/');
  if (isRun && runs === null) return refuse(response, 404, 'No folder of runs is shown.');
  const root = isRun && runs !== null ? runs : page;
  const inside = isRun ? path.slice('/runs'.length) : path;
  const file = await findFile(root, inside === '/' ? '/index.html' : inside);
  if (file === null) return refuse(response, 404, 'It is not there.');
  return sendFile(response, file, request.method === 'HEAD', isRun);
}

/** Against other sites that give their own name this machine's address. */
function isOurs(host: string | undefined, hosts: readonly string[]): boolean {
  const name = (host ?? '').replace(/:\d+$/u, '').toLowerCase();
  return hosts.includes(name);
}

/** The path of an address, or null when it is malformed or leads upwards. */
function decodePath(url: string): string | null {
  try {
    const path = decodeURIComponent(url.split(/[?#]/u)[0]);
    const isPlain = path.startsWith('/') && !/[\0\\]/u.test(path);
    return isPlain && !path.split('/').includes('..') ? path : null;
  } catch {
    return null;
  }
}

/** The file behind a path, links followed, if it lies within the root and is shown at all. */
async function findFile(root: string, path: string): Promise<string | null> {
  if (path.split('/').some((part) => part.startsWith('.') && part !== '')) return null;
  if (TYPES[extname(path)] === undefined) return null;
  try {
    const [top, file] = await Promise.all([realpath(root), realpath(resolve(root, `.${path}`))]);
    if (!file.startsWith(top + sep)) return null;
    return (await stat(file)).isFile() ? file : null;
  } catch {
    return null;
  }
}

async function sendFile(
  response: ServerResponse,
  file: string,
  headOnly: boolean,
  isRun: boolean,
): Promise<void> {
  const { size } = await stat(file);
  const named = /[\\/]assets[\\/]/u.test(file) && !isRun;
  response.writeHead(200, {
    ...HEADERS,
    'Content-Type': TYPES[extname(file)],
    'Content-Length': size,
    // Names of built assets carry a digest of their content; all else may change at any time.
    'Cache-Control': named ? 'public, max-age=31536000, immutable' : 'no-cache',
  });
  if (headOnly) response.end();
  else await pipeline(createReadStream(file), response);
}

function sendText(response: ServerResponse, text: string, headOnly: boolean): void {
  const type = TYPES['.json'];
  response.writeHead(200, { ...HEADERS, 'Content-Type': type, 'Cache-Control': 'no-cache' });
  response.end(headOnly ? '' : text);
}

function refuse(response: ServerResponse, status: number, words: string): void {
  response.writeHead(status, { ...HEADERS, 'Content-Type': 'text/plain; charset=utf-8' });
  response.end(`${words}\n`);
}

/** Whether a built page lies in a folder. */
export async function hasPage(folder: string): Promise<boolean> {
  try {
    await readFile(join(folder, 'index.html'));
    return (await readdir(join(folder, 'assets'))).length > 0;
  } catch {
    return false;
  }
}
