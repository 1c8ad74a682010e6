/** The run of the page: start, pause, go on, stop; what it says; what is kept of it. */
import { signal } from '@preact/signals';
import { proxy, wrap } from 'comlink';
import type { Remote } from 'comlink';
import type { Brief, Checkpoint, HistoryEntry, RunEvent } from '../../engine/index.ts';
import { endOf } from '../../../workers/life.web.ts';
import type { PageService } from '../../../workers/page.web.ts';
import { dropKept, findKept, keep } from '../keep/checkpoints.ts';
import { desk } from './desk.ts';
import { OWN_FRONT, fronts, putFront } from './fronts.ts';
import { keepNow } from './notes.ts';
import { tell, wordsOf } from './notices.ts';
import { note } from './system-notes.ts';
import { spawnWorker } from './worker.ts';

type RunPhase = 'idle' | 'starting' | 'running' | 'pausing' | 'paused' | 'ending' | 'done';

export interface RunState {
  readonly phase: RunPhase;
  readonly brief: Brief | null;
  readonly history: readonly HistoryEntry[];
  readonly generations: number;
  /** Evaluations per second of this sitting, smoothed. */
  readonly rate_per_s: number;
  /** Why it ended, in words. */
  readonly why: string | null;
}

const IDLE: RunState = {
  phase: 'idle',
  brief: null,
  history: [],
  generations: 0,
  rate_per_s: 0,
  why: null,
};

export const run = signal<RunState>(IDLE);
/** A checkpoint found in the browser's storage from before, to be offered. */
export const kept = signal<{ readonly checkpoint: Checkpoint; readonly when: number } | null>(null);

/** The worker that drives the run, with a promise that fails when it is lost. */
interface Driver {
  readonly service: Remote<PageService>;
  readonly lost: Promise<never>;
}

let driver: Driver | null = null;
let latest: Checkpoint | null = null;
let lastTick = { at: 0, evaluations: 0 };

export async function offerKeptRun(): Promise<void> {
  kept.value = await findKept();
}

export async function forgetKeptRun(): Promise<void> {
  kept.value = null;
  await dropKept();
}

export function startRun(brief: Brief): void {
  latest = null;
  // A run kept from before is replaced by the first checkpoint of this one.
  kept.value = null;
  run.value = { ...IDLE, phase: 'starting', brief, generations: brief.search.generations };
  void drive(brief, null);
}

/** Goes on from the last checkpoint: after a pause, or with one found in storage. */
export function goOn(): void {
  const checkpoint = kept.value?.checkpoint ?? latest;
  if (checkpoint === null) return;
  kept.value = null;
  const { brief, history } = checkpoint;
  run.value = {
    ...IDLE,
    phase: 'starting',
    brief,
    history,
    generations: brief.search.generations,
  };
  void drive(brief, checkpoint);
}

/** Ends after the generation under way; the run can go on from there. */
export function pauseRun(): void {
  if (driver === null) return;
  run.value = { ...run.value, phase: 'pausing' };
  void driver.service.stop();
}

/** Gives the paused run up; its front stays on the page. */
export function endRun(): void {
  run.value = { ...run.value, phase: 'done', why: 'stopped by hand' };
  void dropKept();
  void settleFront();
}

/** The front grows no more: its digest ties notes and links to it, also once it is a file. */
async function settleFront(): Promise<void> {
  const grown = fronts.value.find(({ id }) => id === OWN_FRONT);
  if (grown === undefined) return;
  const digest = await desk().digest(grown.front);
  const now = fronts.value.find(({ id }) => id === OWN_FRONT);
  if (now?.front !== grown.front) return;
  const settled = { ...now, digest };
  putFront(settled);
  await keepNow(settled);
}

function driverNow(): Driver {
  if (driver !== null) return driver;
  const worker = spawnWorker();
  const service = wrap<PageService>(worker);
  const lost = new Promise<never>((_, reject) => {
    const fail = (why: string): void => {
      driver = null;
      worker.terminate();
      reject(new Error(why));
    };
    worker.addEventListener('error', ({ message }) => fail(`its worker failed (${message})`));
    endOf(service).then(
      () => fail('its worker was ended by the browser, perhaps for want of memory'),
      () => fail('its worker does not answer'),
    );
  });
  // Told where a run waits for it; without a run nothing is lost.
  lost.catch(() => undefined);
  driver = { service, lost };
  return driver;
}

async function drive(brief: Brief, checkpoint: Checkpoint | null): Promise<void> {
  const now = driverNow();
  lastTick = { at: performance.now(), evaluations: checkpoint?.history.at(-1)?.evaluations ?? 0 };
  const listener = {
    event: hear,
    async checkpoint(made: Checkpoint, front: Parameters<typeof putFront>[0]['front']) {
      latest = made;
      putFront({ id: OWN_FRONT, name: brief.name, front });
      try {
        await keep(made);
      } catch (error) {
        tell('fault', `The run goes on, but cannot be kept in this browser: ${wordsOf(error)}`);
      }
    },
    loss: (reason: string) => tell('news', `A worker was lost and replaced (${reason}).`),
  };
  try {
    const workers = navigator.hardwareConcurrency || 2;
    const started = now.service.start(brief, checkpoint, workers, proxy(listener));
    const front = await Promise.race([started, now.lost]);
    putFront({ id: OWN_FRONT, name: brief.name, front });
    const paused = run.value.phase === 'pausing' || run.value.why === WHY.interrupted;
    run.value = { ...run.value, phase: paused ? 'paused' : 'done' };
    if (!paused) {
      await dropKept();
      note(`${brief.name}: ${front.designs.length} designs`);
      await settleFront();
    }
  } catch (error) {
    run.value = { ...run.value, phase: latest === null ? 'idle' : 'paused' };
    const words = wordsOf(error).replace(/\.$/u, '');
    tell('fault', `The run stopped: ${words}. ${latest === null ? LOST : KEPT}`);
  }
}

const KEPT = 'It is kept as of its last checkpoint, and can go on from there.';
const LOST = 'There was no checkpoint yet: start it again.';

const WHY = {
  budget: 'all generations done',
  time: 'time limit reached',
  stalled: 'no progress over many generations',
  interrupted: 'paused',
} as const;

function hear(event: RunEvent): void {
  switch (event.kind) {
    case 'started':
      run.value = { ...run.value, phase: 'running' };
      break;
    case 'generation': {
      const now = performance.now();
      const done = event.entry.evaluations - lastTick.evaluations;
      const rate = (1000 * done) / Math.max(1, now - lastTick.at);
      lastTick = { at: now, evaluations: event.entry.evaluations };
      const before = run.value.rate_per_s;
      run.value = {
        ...run.value,
        history: [...run.value.history, event.entry],
        generations: event.generations,
        rate_per_s: before === 0 ? rate : 0.8 * before + 0.2 * rate,
      };
      break;
    }
    case 'stopping':
      run.value = {
        ...run.value,
        phase: event.why === 'interrupted' ? 'pausing' : 'ending',
        why: WHY[event.why],
      };
      break;
    case 'checkpoint':
      break;
    default: {
      const never: never = event;
      return never;
    }
  }
}
