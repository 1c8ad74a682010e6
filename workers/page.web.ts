/**
 * Web Worker entry of the page. One file serves all roles, so that it is fetched once: it scores rows
 * (as one of a crew), drives a run with a crew of its own, and answers single questions.
 */
import { expose } from 'comlink';
import type { Endpoint } from 'comlink';
import type { WebWorkerLike } from './crew.web.ts';
import { createDesk } from './desk-service.ts';
import type { DeskService } from './desk-service.ts';
import { createService } from './evaluate.ts';
import { createFrontService } from './front-service.ts';
import type { FrontService } from './front-service.ts';
import { createLife } from './life.web.ts';
import type { LifeService } from './life.web.ts';
import { createRunService } from './run-service.ts';
import type { RunService } from './run-service.ts';

export type PageService = RunService & DeskService & FrontService & LifeService;

declare const Worker: new (address: string, options: { type: 'module' }) => WebWorkerLike;
declare const location: { readonly href: string };

const another = (): WebWorkerLike => new Worker(location.href, { type: 'module' });

// A browser without workers imports this file into the page, which has left a port for it.
const port: Endpoint | undefined = Reflect.get(globalThis, 'deskPort');

expose(
  {
    ...createLife(),
    ...createService(),
    ...createRunService(another),
    ...createDesk(),
    ...createFrontService(),
  },
  port,
);
