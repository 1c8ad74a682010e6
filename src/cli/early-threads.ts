/**
 * Starts the threads of `anfract evolve` as the very first thing: they and the command line load side
 * by side. Nothing depends on it; a guess that turns out wrong costs a thread or two.
 */
import { availableParallelism } from 'node:os';
import { startThread } from '../../workers/thread.node.ts';
import type { Thread } from '../../workers/thread.node.ts';
import { WORKER_ENTRY } from './worker-entry.ts';

/** More are started by the crew, once the words are checked. */
const MOST = 8;

/** Threads wanted by the words of a command line, as far as can be told before they are checked. */
function threadsOf(words: readonly string[]): number {
  const command = words.find((word) => !word.startsWith('-'));
  if (command !== 'evolve' || words.includes('--help') || words.includes('-h')) return 0;
  const at = words.findIndex((word) => word === '--workers' || word.startsWith('--workers='));
  const asked = at < 0 ? '' : (words[at].split('=')[1] ?? words[at + 1] ?? '');
  const count = asked === '' ? availableParallelism() : Number(asked);
  return Number.isInteger(count) && count > 0 ? Math.min(MOST, count) : 0;
}

/** Threads that wait for a crew to take them. */
export const earlyThreads: Thread[] = Array.from({ length: threadsOf(process.argv.slice(2)) }, () =>
  startThread(WORKER_ENTRY),
);
