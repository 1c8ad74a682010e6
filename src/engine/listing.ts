/** The registry of measures for people and for front files. */
import { MEASURES } from '../measures/index.ts';
import { measureInfo } from './front.ts';
import type { MeasureInfo } from './model.ts';

export function listMeasures(): MeasureInfo[] {
  return MEASURES.map((measure) => measureInfo(measure, null));
}
