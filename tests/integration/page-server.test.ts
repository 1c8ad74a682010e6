/** The server of the page: what it gives, and what it refuses. */
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { once } from 'node:events';
import { request } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { PAGE_POLICY, createPageServer } from '../../src/cli/page-server.ts';

interface Answer {
  readonly status: number;
  readonly headers: NodeJS.Dict<string | string[]>;
  readonly body: string;
}

/** A server over folders of its own; asks it for a path as written, without cleaning it. */
async function aServer(
  prepare: (root: string) => void = () => undefined,
): Promise<(path: string, options?: { host?: string; method?: string }) => Promise<Answer>> {
  const root = mkdtempSync(join(tmpdir(), 'anfract-page-'));
  onTestFinished(() => rmSync(root, { recursive: true }));
  for (const folder of ['page/assets', 'runs/a'])
    mkdirSync(join(root, folder), { recursive: true });
  writeFileSync(join(root, 'page/index.html'), '<!doctype html><title>page</title>');
  writeFileSync(join(root, 'page/assets/a.js'), 'export {};');
  writeFileSync(join(root, 'runs/a/front.json'), '{}');
  writeFileSync(join(root, 'secret.json'), 'secret');
  prepare(root);
  const hosts = ['localhost', '127.0.0.1'];
  const server = createPageServer({ page: join(root, 'page'), runs: join(root, 'runs'), hosts });
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  onTestFinished(() => void server.close());
  const address = server.address();
  const port = typeof address === 'object' && address !== null ? address.port : 0;
  return (path, { host = 'localhost', method = 'GET' } = {}) =>
    new Promise((resolve, reject) => {
      const asked = request({ host: '127.0.0.1', port, path, method, headers: { Host: host } });
      asked.once('error', reject);
      asked.once('response', (response) => {
        let body = '';
        response.setEncoding('utf8').on('data', (text: string) => (body += text));
        response.once('end', () =>
          resolve({ status: response.statusCode ?? 0, headers: response.headers, body }),
        );
      });
      asked.end();
    });
}

describe('createPageServer()', () => {
  it('serves the page under a strict policy', async () => {
    const ask = await aServer();
    const page = await ask('/');
    expect([page.status, page.body]).toEqual([200, '<!doctype html><title>page</title>']);
    expect(page.headers['content-security-policy']).toBe(PAGE_POLICY);
    expect(PAGE_POLICY).not.toMatch(/unsafe-inline|unsafe-eval'(?<!wasm-unsafe-eval')|https?:/);
    expect(page.headers['cross-origin-opener-policy']).toBe('same-origin');
    const head = await ask('/assets/a.js', { method: 'HEAD' });
    expect([head.status, head.body]).toEqual([200, '']);
    expect(head.headers['content-type']).toMatch(/^text\/javascript/);
  });

  it.each([
    '/../secret.json',
    '/%2e%2e/secret.json',
    '/runs/../../secret.json',
    '/runs/a/..%2f..%2f..%2fsecret.json',
    '/runs/a\\..\\..\\secret.json',
    '/runs/a/front.json%00.html',
    '/%',
  ])('refuses %s', async (path) => {
    const answer = await (await aServer())(path);
    expect(answer.status).toBeGreaterThanOrEqual(400);
    expect(answer.body).not.toContain('secret');
  });

  it('follows no link out of its folders and shows no hidden or odd files', async () => {
    const ask = await aServer((root) => {
      symlinkSync(join(root, 'secret.json'), join(root, 'runs/a/link.json'));
      writeFileSync(join(root, 'runs/a/.lock.json'), '1');
      writeFileSync(join(root, 'runs/a/program.sh'), '1');
    });
    for (const name of ['link.json', '.lock.json', 'program.sh']) {
      expect((await ask(`/runs/a/${name}`)).status, name).toBe(404);
    }
    expect((await ask('/runs/a/front.json')).status).toBe(200);
  });

  it('answers to its own name only, whatever the port in it', async () => {
    const ask = await aServer();
    expect((await ask('/', { host: 'plates.example' })).status).toBe(421);
    expect((await ask('/', { host: '127.0.0.1:4370' })).status).toBe(200);
  });

  it('takes nothing in', async () => {
    const ask = await aServer();
    for (const method of ['POST', 'PUT', 'DELETE']) {
      expect((await ask('/runs/a/front.json', { method })).status, method).toBe(405);
    }
  });

  it('lists runs, and leaves out folders that are none', async () => {
    const ask = await aServer();
    const { status, body } = await ask('/runs/index.json');
    expect([status, JSON.parse(body)]).toEqual([200, []]);
  });
});
