/** Web Worker entry: exposes the service, and that it lives. */
import { expose } from 'comlink';
import { createService } from './evaluate.ts';
import { createLife } from './life.web.ts';

expose({ ...createService(), ...createLife() });
