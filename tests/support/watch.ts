/** Waits on what another process does to files. */
import { setTimeout as pause } from 'node:timers/promises';

/** Looks until something is so; fails when the process ends first. */
export async function watchFor(isSo: () => boolean, ended: Promise<unknown>): Promise<void> {
  let over = false;
  void ended.then(() => (over = true));
  while (!isSo()) {
    if (over) throw new Error('the process ended before what was waited for');
    await pause(5);
  }
}
