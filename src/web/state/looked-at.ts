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

/** Genes of the designs asked about: a running front gives its ids to ever other designs. */
const asked = new Map<DesignKey, string>();

/** Rebuilds a design and asks for everything else about it; does nothing when that was done. */
export async function lookAt(key: DesignKey): Promise<void> {
  const found = lookUp(key);
  if (found === null) return;
  const { loaded, design: chosen } = found;
  const genes = chosen.genes.join();
  if (asked.get(key) === genes) return;
  asked.set(key, genes);
  const isCurrent = (): boolean => asked.get(key) === genes;
  const { brief, anfract } = loaded.front;
  const title = `${brief.name}, ${chosen.id}`;
  try {
    const named = loaded.front.genes;
    const design = await desk().rebuild({ brief, genes: named, anfract }, chosen);
    if (!isCurrent()) return;
    put({ key, title, design, measured: null, drawing: null, open: null });
    const measured = await desk().measure(brief, design);
    if (isCurrent()) add(key, { measured });
    const drawing = await desk().draw(title, design, []);
    if (isCurrent()) add(key, { drawing });
    const open = await desk().drawOpen(title, design);
    if (isCurrent()) add(key, { open });
  } catch (error) {
    asked.delete(key);
    tell('fault', `${chosen.id}: ${wordsOf(error)}`);
  }
}
