/** All measures by id, as the engine tells of them; empty until it has answered. */
import { signal } from '@preact/signals';
import type { MeasureInfo } from '../../engine/index.ts';
import { desk } from './desk.ts';
import { tell, wordsOf } from './notices.ts';

export const measureInfos = signal<ReadonlyMap<string, MeasureInfo>>(new Map());

export async function loadMeasureInfos(): Promise<void> {
  if (measureInfos.value.size > 0) return;
  try {
    measureInfos.value = new Map((await desk().measures()).map((info) => [info.id, info]));
  } catch (error) {
    tell('fault', wordsOf(error));
  }
}
