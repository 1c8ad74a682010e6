/** Bodies and shades of the designs looked at, from the desk; freed when the view of parts is left. */
import { signal } from '@preact/signals';
import type { BodyKind, Brief, Design, PartModel, ShadeKind } from '../../engine/index.ts';
import { desk } from '../state/desk.ts';
import { lookUp } from '../state/fronts.ts';
import type { DesignKey } from '../state/fronts.ts';
import type { LookedAt } from '../state/looked-at.ts';
import { tell, wordsOf } from '../state/notices.ts';
import { boxOf } from './look.ts';

export interface Modelled {
  readonly key: DesignKey;
  readonly brief: Brief;
  readonly design: Design;
  readonly model: PartModel;
  readonly low: readonly number[];
  readonly high: readonly number[];
  /** Values per triangle, as they come in. */
  readonly shades: Readonly<Partial<Record<`${BodyKind} ${ShadeKind}`, Float32Array>>>;
}

export const modelled = signal<ReadonlyMap<DesignKey, Modelled>>(new Map());

/** What was asked for: the design by key, and shades by design and name. */
const asked = new Map<DesignKey, Design>();
const askedShades = new WeakMap<PartModel, Set<string>>();
/** Answers to questions from before the last leaving are thrown away. */
let sitting = 0;

export async function askModel({ key, title, design }: LookedAt): Promise<void> {
  const brief = lookUp(key)?.loaded.front.brief;
  if (brief === undefined || asked.get(key) === design) return;
  asked.set(key, design);
  const now = sitting;
  try {
    const model = await desk().model(title, design);
    if (now !== sitting || asked.get(key) !== design) return;
    const box = boxOf(model.part.corners);
    const made = { key, brief, design, model, ...box, shades: {} };
    modelled.value = new Map([...modelled.value, [key, made]]);
  } catch (error) {
    asked.delete(key);
    tell('fault', `${title}: ${wordsOf(error)}`);
  }
}

export async function askShade(
  { key, brief, design, model }: Modelled,
  shade: ShadeKind,
): Promise<void> {
  const names = askedShades.get(model) ?? new Set();
  askedShades.set(model, names);
  if (names.has(shade)) return;
  names.add(shade);
  try {
    for (const body of ['part', 'air'] as const) {
      const shown = model[body];
      if (shown === null) continue;
      const values = await desk().shade(brief, design, body, shown.corners, shade);
      const known = modelled.value.get(key);
      if (known?.model !== model) return;
      const shades = { ...known.shades, [`${body} ${shade}` as const]: values };
      modelled.value = new Map([...modelled.value, [key, { ...known, shades }]]);
    }
  } catch (error) {
    names.delete(shade);
    tell('fault', wordsOf(error));
  }
}

/** Frees all bodies but those of some designs. */
export function keepModels(keys: readonly DesignKey[]): void {
  for (const key of asked.keys()) if (!keys.includes(key)) asked.delete(key);
  modelled.value = new Map([...modelled.value].filter(([key]) => keys.includes(key)));
  if (keys.length === 0) sitting++;
}
