/** The one protocol between a crew and its workers, in Node and in the browser alike. */
import { transfer } from 'comlink';
import { createEvaluator, VERSION } from '../src/engine/index.ts';
import type { Brief, Evaluated, Evaluator, Form } from '../src/engine/index.ts';

export interface EvaluateService {
  /** Takes the brief of the run; answers with the version of anfract in this worker. */
  ready(brief: Brief): string;
  /** Scores `count` rows of genes; the values travel back without a copy. */
  evaluate(rows: Float64Array, count: number, form: Form): Evaluated;
}

export function createService(): EvaluateService {
  let evaluator: Evaluator | null = null;
  return {
    ready(brief) {
      evaluator = createEvaluator(brief);
      return VERSION;
    },
    evaluate(rows, count, form) {
      if (evaluator === null) throw new Error('evaluate() was called before ready().');
      const result = evaluator.evaluate(rows, count, form);
      return transfer(result, [result.values.buffer]);
    },
  };
}
