/** Web Worker entry: exposes the service and nothing else. */
import { expose } from 'comlink';
import { createService } from './evaluate.ts';

expose(createService());
