/** Links that show a view again: which front, which measures, ranges and designs, from where in 3D. */
import { batch, effect, signal, untracked } from '@preact/signals';
import { viewedOf } from '../plots/scatter-data.ts';
import { cut, isLit, layer, shade, shown, view as eye } from '../solid/look.ts';
import { axisSize, axisX, axisY } from './axes.ts';
import { comparedX, comparedY, countBy } from './comparison.ts';
import { desk } from './desk.ts';
import { active, activeId, fronts, ranges, refOf, selected } from './fronts.ts';
import type { DesignKey, LoadedFront } from './fronts.ts';
import { DIGITS, readView, writeView } from './link-text.ts';
import type { View } from './link-text.ts';
import { dismissText, tell } from './notices.ts';
import { matrixExtra, parallelIds, scatterAxes, scatterView, thirdAs } from './plot-choices.ts';
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
  const { front } = loaded;
  const has = (id: string): boolean => front.measures.some((info) => info.id === id);
  const known = (id: string): string => (has(id) ? id : '');
  batch(() => {
    activeId.value = loaded.id;
    axisX.value = known(view.x);
    axisY.value = known(view.y);
    axisSize.value = view.size === 'none' ? view.size : known(view.size);
    thirdAs.value = view.thirdAs;
    const { x, y } = scatterAxes(front);
    scatterView.value =
      view.window === null ? null : { of: viewedOf(x, y, [loaded]), view: view.window };
    parallelIds.value = view.axes === null ? null : view.axes.filter(has);
    matrixExtra.value = view.matrix.filter(has);
    ranges.value = Object.fromEntries(Object.entries(view.ranges).filter(([id]) => has(id)));
    const ids = new Set(front.designs.map(({ id }) => id));
    selected.value = view.designs
      .filter((id) => ids.has(id))
      .map((id): DesignKey => `${loaded.id}/${id}`);
    comparedX.value = known(view.compared.x);
    comparedY.value = known(view.compared.y);
    countBy.value = view.compared.by;
    const { solid } = view;
    eye.value = solid.eye;
    shown.value = solid.shown;
    shade.value = solid.shade;
    cut.value = solid.cut;
    isLit.value = solid.isLit;
    layer.value = solid.layer;
  });
}

/** Address of a step as it now shows the front at hand; null without a front. */
export async function linkTo(target: Step): Promise<string | null> {
  const loaded = active.value;
  if (loaded === null) return null;
  const digest = loaded.digest ?? (await desk().digest(refOf(loaded)));
  const { x, y, third } = scatterAxes(loaded.front);
  const seen = scatterView.value;
  const own = `${loaded.id}/`;
  const text = writeView({
    front: digest,
    x,
    y,
    size: third ?? 'none',
    thirdAs: thirdAs.value,
    window: seen !== null && seen.of === viewedOf(x, y, [loaded]) ? seen.view : null,
    axes: parallelIds.value,
    matrix: matrixExtra.value,
    ranges: ranges.value,
    designs: selected.value
      .filter((key) => key.startsWith(own))
      .map((key) => key.slice(own.length)),
    compared: { x: comparedX.value, y: comparedY.value, by: countBy.value },
    solid: {
      eye: eye.value,
      shown: shown.value,
      shade: shade.value,
      cut: cut.value,
      isLit: isLit.value,
      layer: layer.value,
    },
  });
  const address = new URL(location.href);
  address.hash = `#/${target}?${text}`;
  return address.href;
}
