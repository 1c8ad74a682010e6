/** `anfract page [RUNS]`: serves the page, and a folder of runs to look at. */
import { statSync } from 'node:fs';
import { isIP } from 'node:net';
import { once } from 'node:events';
import { fileURLToPath } from 'node:url';
import type { Command } from 'commander';
import { RunError } from '../brief/index.ts';
import { codeOf } from '../store/index.ts';
import { createPageServer, hasPage } from './page-server.ts';
import { terminalOf, whole, withManners } from './options.ts';

interface Options {
  readonly port: number;
  readonly host: string;
}

/** The built page lies beside the built program. */
const PAGE = fileURLToPath(new URL('../../page', import.meta.url));
const LOOPBACK = ['localhost', '127.0.0.1', '[::1]'];

export function addPage(program: Command): void {
  withManners(program.command('page'))
    .argument('[runs]', 'a folder of runs, shown read-only')
    .option('--port <n>', 'port; 0 picks a free one', whole(0, 65535), 4370)
    .option(
      '--host <address>',
      'address to listen at; others than loopback are open to the network',
      '127.0.0.1',
    )
    .description('Serve the page for a browser: evolve, look, compare, hand over.')
    .addHelpText('after', '\nExamples:\n  anfract page\n  anfract page runs --port 8080')
    .action(async (runs: string | undefined, options: Options, command: Command) => {
      const terminal = terminalOf(command);
      if (!(await hasPage(PAGE))) {
        throw new RunError(
          'no-page',
          PAGE,
          'holds no built page',
          'Build it with `npm run build`.',
        );
      }
      if (runs !== undefined && statSync(runs, { throwIfNoEntry: false })?.isDirectory() !== true) {
        throw new RunError(
          'missing',
          runs,
          'it is no folder',
          'Give a folder that holds run folders.',
        );
      }
      const { host, port } = options;
      const own = isIP(host) === 6 ? `[${host}]` : host.toLowerCase();
      const server = createPageServer({
        page: PAGE,
        runs: runs ?? null,
        hosts: [...new Set([...LOOPBACK, own])],
      });
      server.listen(port, host);
      try {
        await once(server, 'listening');
      } catch (error) {
        const code = codeOf(error);
        if (code === null) throw error;
        const remedy = 'Give another --port or --host.';
        throw new RunError(
          'no-port',
          `${host}:${port}`,
          `cannot be listened at (${code})`,
          remedy,
          error,
        );
      }
      const address = server.address();
      const at = typeof address === 'object' && address !== null ? address.port : port;
      const url = `http://${own}:${at}/`;
      terminal.result(terminal.json ? JSON.stringify({ url }) : `The page is at ${url}`);
      if (!LOOPBACK.includes(own)) {
        terminal.remark('It can be reached from the network; it asks for no password.');
      }
      terminal.remark('Ctrl-C ends it.');
      const end = new AbortController();
      process.once('SIGINT', () => end.abort());
      process.once('SIGTERM', () => end.abort());
      await once(end.signal, 'abort');
      server.close();
      server.closeAllConnections();
    });
}
