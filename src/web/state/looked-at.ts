/** What is known of the designs looked at: rebuilt, measured, drawn; asked for once. */
import { signal } from '@preact/signals';
import type { Design, Measured } from '../../engine/index.ts';
import { desk } from './desk.ts';
import { lookUp } from './fronts.ts';
import type { DesignKey } from './fronts.ts';
import { tell, wordsOf } from './notices.ts';

export interface LookedAt {
  readonly key: DesignKey;
  readonly title: string;
  readonly design: Design;
  readonly measured: Measured | null;
  /** SVG texts. */
  readonly drawing: string | null;
  readonly open: string | null;
}

/** By key; an entry grows as answers come in. */
export const lookedAt = signal<ReadonlyMap<DesignKey, LookedAt>>(new Map());

function put(entry: LookedAt): void {
  lookedAt.value = new Map([...lookedAt.value, [entry.key, entry]]);
}

function add(key: DesignKey, part: Partial<LookedAt>): void {
  const known = lookedAt.value.get(key);
  if (known !== undefined) put({ ...known, ...part });
}

const asked = new Set<DesignKey>();

/** Rebuilds a design and asks for everything else about it; does nothing when that was done. */
export async function lookAt(key: DesignKey): Promise<void> {
  const found = lookUp(key);
  if (found === null || asked.has(key)) return;
  asked.add(key);
  const { loaded, design: chosen } = found;
  const { brief, genes, anfract } = loaded.front;
  const title = `${brief.name}, ${chosen.id}`;
  try {
    const design = await desk().rebuild({ brief, genes, anfract }, chosen);
    put({ key, title, design, measured: null, drawing: null, open: null });
    add(key, { measured: await desk().measure(brief, design) });
    add(key, { drawing: await desk().draw(title, design, []) });
    add(key, { open: await desk().drawOpen(title, design) });
  } catch (error) {
    asked.delete(key);
    tell('fault', `${chosen.id}: ${wordsOf(error)}`);
  }
}
