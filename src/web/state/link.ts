/** Links that show a view again: which front, which measures, ranges and designs. */
import { effect, signal, untracked } from '@preact/signals';
import { axisSize, axisX, axisY } from './axes.ts';
import { desk } from './desk.ts';
import { active, activeId, fronts, ranges, refOf, selected } from './fronts.ts';
import type { DesignKey, LoadedFront } from './fronts.ts';
import { DIGITS, readView, writeView } from './link-text.ts';
import type { View } from './link-text.ts';
import { dismissText, tell } from './notices.ts';
import { goTo, query, step } from './route.ts';
import type { Step } from './route.ts';

interface Waiting {
  readonly view: View;
  readonly step: Step;
}

/** A link whose front is not open yet. */
const waitingLink = signal<Waiting | null>(null);

function wordsFor({ view }: Waiting): string {
  return `This link shows a view of a front that is not open here: its file's digest begins with ${view.front}. Open that file under Compare, and the view comes up.`;
}

/** Watches the address for views to show; starts with the page. */
export function followLinks(): () => void {
  return effect(() => {
    const view = readView(query.value);
    if (view === null) return;
    // Only a new address counts here, not what is said or opened in answer to it.
    untracked(() => {
      waitingLink.value = { view, step: step.value };
      tryLink();
    });
  });
}

/** Shows the waiting link's view if its front is open; otherwise says what is missing. */
export function tryLink(): void {
  const waiting = waitingLink.peek();
  if (waiting === null) return;
  const { view } = waiting;
  const words = wordsFor(waiting);
  const loaded = fronts.peek().find(({ digest }) => digest?.startsWith(view.front) === true);
  if (loaded === undefined) {
    const others = fronts.peek().filter(({ digest }) => digest !== undefined);
    const not = others.length === 0 ? '' : ` None of those open is it (${namesOf(others)}).`;
    tell('fault', words + not);
    return;
  }
  waitingLink.value = null;
  dismissText(words);
  show(loaded, view);
  if (step.peek() !== waiting.step) goTo(waiting.step);
}

function namesOf(loaded: readonly LoadedFront[]): string {
  return loaded.map(({ name, digest }) => `${name}: ${digest?.slice(0, DIGITS)}`).join(', ');
}

function show(loaded: LoadedFront, view: View): void {
  const has = (id: string): boolean => loaded.front.measures.some((info) => info.id === id);
  activeId.value = loaded.id;
  axisX.value = has(view.x) ? view.x : '';
  axisY.value = has(view.y) ? view.y : '';
  axisSize.value = has(view.size) || view.size === 'none' ? view.size : '';
  ranges.value = Object.fromEntries(Object.entries(view.ranges).filter(([id]) => has(id)));
  const ids = new Set(loaded.front.designs.map(({ id }) => id));
  selected.value = view.designs
    .filter((id) => ids.has(id))
    .map((id): DesignKey => `${loaded.id}/${id}`);
}

/** Address of a step as it now shows the front at hand; null without a front. */
export async function linkTo(target: Step): Promise<string | null> {
  const loaded = active.value;
  if (loaded === null) return null;
  const digest = loaded.digest ?? (await desk().digest(refOf(loaded)));
  const [first, second = first, third = ''] = loaded.front.objectives;
  const own = `${loaded.id}/`;
  const text = writeView({
    front: digest,
    x: axisX.value || first,
    y: axisY.value || second,
    size: axisSize.value || third,
    ranges: ranges.value,
    designs: selected.value
      .filter((key) => key.startsWith(own))
      .map((key) => key.slice(own.length)),
  });
  const address = new URL(location.href);
  address.hash = `#/${target}?${text}`;
  return address.href;
}
