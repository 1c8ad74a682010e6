/** Web Worker entry: exposes the service and nothing else. */
import { expose } from 'comlink';
import { createVerifyService } from './verify.ts';

expose(createVerifyService());
