/** The fronts on the page, which design is looked at, and which are filtered away. */
import { batch, computed, signal } from '@preact/signals';
import type { FlowWords, Front, FrontDesign } from '../../engine/index.ts';
import { followIds } from './follow.ts';

/** A front on the page, with a mark of its own in plots (never by colour alone). */
export interface LoadedFront {
  readonly id: string;
  /** Name of the file or run, as text: it may come from anybody. */
  readonly name: string;
  readonly front: Front;
  /** SHA-256 of the front file; left out while the front still grows. */
  readonly digest?: string;
  /** Texts of its run folder that came along: run.json and history.jsonl. */
  readonly record?: string | null;
  readonly history?: string | null;
  /** Flows computed for its designs. */
  readonly flows?: readonly FlowWords[];
  /** Name under which the desk has the front too, so that it need not be sent there again. */
  readonly shelf?: string;
}

/** Id of the front of the page's own run. */
export const OWN_FRONT = 'own';

/** A design on the page: front and design id, joined. */
export type DesignKey = `${string}/${string}`;

export const fronts = signal<readonly LoadedFront[]>([]);
/** The front that Front and Part show. */
export const activeId = signal<string | null>(null);
export const selected = signal<readonly DesignKey[]>([]);
export const hovered = signal<DesignKey | null>(null);
/** Ranges kept per measure id; a design outside any of them is faint. */
export const ranges = signal<Readonly<Record<string, readonly [number, number]>>>({});

export const active = computed<LoadedFront | null>(
  () => fronts.value.find(({ id }) => id === activeId.value) ?? fronts.value[0] ?? null,
);

export function keyOf(front: LoadedFront, design: FrontDesign): DesignKey {
  return `${front.id}/${design.id}`;
}

/** What the desk is told of a front: its name there, or all of it. */
export function refOf({ shelf, front }: LoadedFront): string | Front {
  return shelf ?? front;
}

/** Puts a front on the page, or renews the one of the same id; the selection follows its designs. */
export function putFront(loaded: LoadedFront): void {
  batch(() => {
    const before = fronts.value.find(({ id }) => id === loaded.id);
    if (before === undefined) fronts.value = [...fronts.value, loaded];
    else {
      const own = `${loaded.id}/`;
      const follow = (keys: readonly DesignKey[]): readonly DesignKey[] => {
        const others = keys.filter((key) => !key.startsWith(own));
        const ids = keys.filter((key) => key.startsWith(own)).map((key) => key.slice(own.length));
        const found = followIds(ids, before.front, loaded.front);
        return [...others, ...found.map((id): DesignKey => `${loaded.id}/${id}`)];
      };
      selected.value = follow(selected.value);
      if (hovered.value !== null) hovered.value = follow([hovered.value])[0] ?? null;
      fronts.value = fronts.value.map((old) => (old.id === loaded.id ? loaded : old));
    }
    activeId.value ??= loaded.id;
  });
}

export function dropFront(id: string): void {
  fronts.value = fronts.value.filter((front) => front.id !== id);
  selected.value = selected.value.filter((key) => !key.startsWith(`${id}/`));
  if (activeId.value === id) activeId.value = fronts.value[0]?.id ?? null;
}

/** Selects one design, or adds it to the selection and takes it out again. */
export function select(key: DesignKey, adding: boolean): void {
  if (!adding) selected.value = [key];
  else if (selected.value.includes(key)) selected.value = selected.value.filter((k) => k !== key);
  else selected.value = [...selected.value, key];
}

/** A design by its key, with its front. */
export function lookUp(
  key: DesignKey,
): { readonly loaded: LoadedFront; readonly design: FrontDesign } | null {
  const at = key.lastIndexOf('/');
  const loaded = fronts.value.find(({ id }) => id === key.slice(0, at));
  const design = loaded?.front.designs.find(({ id }) => id === key.slice(at + 1));
  return loaded === undefined || design === undefined ? null : { loaded, design };
}

/** Whether a design lies within all ranges kept. */
export function isKept(front: Front, design: FrontDesign): boolean {
  return Object.entries(ranges.value).every(([id, [low, high]]) => {
    const reading = design.readings[front.measures.findIndex((info) => info.id === id)];
    return reading === null || reading === undefined || (reading >= low && reading <= high);
  });
}
