/** A flow that is halted and goes on, against one that was let alone: a real, tiny one. */
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { verifyTasks } from '../../src/engine/index.ts';
import type { VerifyState } from '../../src/engine/index.ts';
import { readVerifyState, writeVerifyState } from '../../src/formats/index.ts';
import { createVerifyService } from '../../workers/verify.ts';
import { bundle } from '../support/browser.ts';
import { aBrief, aChannel, aDesign, aGrid } from '../support/plates.ts';

const usual = aBrief();
const brief = { ...usual, plate: { ...usual.plate, thickness_mm: 4 } };
/** Four bores of 10 mm through 4 mm: about 10 000 cells. */
const design = aDesign({
  plate: { thickness_mm: 4 },
  channels: [
    aChannel({
      bore_mm: [10],
      points_mm: [
        [0, 0, 0],
        [0, 0, 4],
      ],
      placements: aGrid(2, 20),
    }),
  ],
});
const [task] = verifyTasks('wide holes', brief, design, {
  cells: 10,
  velocities_m_per_s: [1],
  spread: false,
}).tasks;
const nobody = (): void => undefined;

describe('createVerifyService()', () => {
  it('goes on from the state that a halt gave to the same numbers, also through a file', async () => {
    const service = createVerifyService();
    let state: VerifyState | null = null;
    const halted = service.solve(
      task,
      null,
      () => {
        // At the first word of progress, as a user would.
        if (state === null) void service.halt().then((found) => (state = found));
      },
      nobody,
    );
    expect(await halted).toEqual({ ok: false, reason: 'halted' });
    await Promise.resolve();
    if (state === null) throw new Error('no state was handed over');
    const back = readVerifyState(writeVerifyState('k', state), 'k');
    const resumed = await createVerifyService().solve(task, back, nobody, nobody);
    const alone = await createVerifyService().solve(task, null, nobody, nobody);
    expect(resumed.ok).toBe(true);
    expect(resumed).toEqual(alone);
  }, 400_000);

  it('has no state to hand over while it is idle', async () => {
    expect(await createVerifyService().halt()).toBeNull();
  });
});

describe('workers/verify.web.ts', () => {
  it('bundles for a browser, with the kernel in it and nothing of Node', async () => {
    const script = await bundle(resolve(import.meta.dirname, '../../workers/verify.web.ts'));
    expect(script).toContain('WebAssembly');
    expect(script).not.toMatch(/worker_threads|from ["']node:/);
  }, 60_000);
});
