/** A real browser and a server that only this machine reaches, for tests of bundles under a strict policy. */
import { existsSync } from 'node:fs';
import { createServer } from 'node:http';
import type { IncomingMessage, Server } from 'node:http';
import { text } from 'node:stream/consumers';
import { build } from 'esbuild';
import { chromium } from 'playwright-core';
import type { Browser } from 'playwright-core';

export const CHROMIUM = '/usr/bin/chromium';
export const hasChromium = existsSync(CHROMIUM);

/**
 * Nothing from elsewhere, nothing inline, no eval beyond WebAssembly, as the page's own policy has it
 * (tests/e2e/page/policy.test.ts); each violation is reported, also a caught one.
 */
export const POLICY = policyWith("script-src 'self' 'wasm-unsafe-eval'");
/** The same without WebAssembly. */
export const PLAIN_POLICY = policyWith("script-src 'self'");

function policyWith(scripts: string): string {
  return `default-src 'none'; ${scripts}; worker-src 'self'; connect-src 'self'; report-uri /violation`;
}

/** One script with all it imports, as a module for browsers. */
export async function bundle(entry: string): Promise<string> {
  const built = await build({
    entryPoints: [entry],
    bundle: true,
    write: false,
    format: 'esm',
    platform: 'browser',
    target: 'es2022',
    // The mesh kernel's loader asks for it in Node only.
    external: ['node:module'],
    logLevel: 'silent',
  });
  if (built.warnings.length > 0) throw new Error(JSON.stringify(built.warnings));
  return built.outputFiles[0].text;
}

export async function openBrowser(): Promise<Browser> {
  // Starts on a new, empty profile by itself.
  return chromium.launch({
    executablePath: CHROMIUM,
    args: [
      '--headless',
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });
}

export interface Visit {
  /** Body of the page's POST to /result; null when a fault came first. */
  readonly result: string | null;
  /** Console errors and warnings, violations of the policy, uncaught errors and rejections. */
  readonly faults: readonly string[];
  /** Violations that were expected. */
  readonly refused: readonly string[];
}

export interface VisitRules {
  readonly policy: string;
  /** Violations that do not end the visit: what the policy refuses and the page does without. */
  readonly expected: RegExp;
}

const STRICT: VisitRules = { policy: POLICY, expected: /^$/ };

/**
 * Opens a page that runs /page.js and waits until it posts its result or something goes wrong.
 *
 * @param files bodies by path; `.js` are scripts, `.json` data.
 */
export async function visit(
  browser: Browser,
  files: Readonly<Record<string, string>>,
  query = '',
  rules = STRICT,
): Promise<Visit> {
  const faults: string[] = [];
  const refused: string[] = [];
  let settle: (result: string | null) => void = () => undefined;
  const settled = new Promise<string | null>((resolve) => {
    settle = resolve;
  });
  const blame = (what: string): void => {
    if (rules.expected.test(what)) {
      refused.push(what);
      return;
    }
    faults.push(what);
    settle(null);
  };
  const all = { '/': '<!doctype html><script type="module" src="/page.js"></script>', ...files };
  const server = await serve(all, rules.policy, (path, body) =>
    path === '/result' ? settle(body) : blame(`policy: ${body}`),
  );
  const context = await browser.newContext();
  try {
    const page = await context.newPage();
    page.on('console', (message) => {
      if (['error', 'warning'].includes(message.type())) blame(`console: ${message.text()}`);
    });
    page.on('pageerror', (error) => blame(`uncaught: ${error.message}`));
    page.on('crash', () => blame('the page crashed'));
    page.on('requestfailed', (request) => blame(`request failed: ${request.url()}`));
    await page.goto(`http://127.0.0.1:${server.port}/${query}`);
    const result = await settled;
    return { result, faults, refused };
  } finally {
    await context.close();
    server.close();
  }
}

async function serve(
  files: Readonly<Record<string, string>>,
  policy: string,
  onPost: (path: string, body: string) => void,
): Promise<{ port: number; close(): void }> {
  const server = createServer((request, response) => {
    const path = new URL(request.url ?? '/', 'http://127.0.0.1').pathname;
    if (request.method === 'POST') {
      void text(request satisfies IncomingMessage).then((body) => {
        response.writeHead(204).end();
        onPost(path, body);
      });
      return;
    }
    // Browsers ask for an icon by themselves.
    const body = path === '/favicon.ico' ? '' : files[path];
    if (body === undefined) {
      response.writeHead(404).end();
      return;
    }
    response.writeHead(200, {
      'content-type': typeOf(path),
      'content-security-policy': policy,
      'cache-control': 'no-store',
    });
    response.end(body);
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  return {
    port: portOf(server),
    close() {
      server.closeAllConnections();
      server.close();
    },
  };
}

function typeOf(path: string): string {
  if (path.endsWith('.js')) return 'text/javascript; charset=utf-8';
  if (path.endsWith('.json')) return 'application/json';
  return path === '/' ? 'text/html; charset=utf-8' : 'image/x-icon';
}

function portOf(server: Server): number {
  const address = server.address();
  if (address === null || typeof address === 'string') throw new Error('The server has no port.');
  return address.port;
}
