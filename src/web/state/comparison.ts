/** The fronts that are compared, and what the desk says of them. */
import { computed, effect, signal } from '@preact/signals';
import type { AttainmentSurface, ComparedFront } from '../../engine/index.ts';
import type { Compared, ShelvedFront } from '../../../workers/front-service.ts';
import { desk } from './desk.ts';
import { fronts } from './fronts.ts';
import type { LoadedFront } from './fronts.ts';
import { tell, wordsOf } from './notices.ts';

/** Ids of fronts that are open, but left out of the comparison. */
export const leftOut = signal<readonly string[]>([]);
/** Whether designs are judged by the shared objectives, or by the two measures of the plot. */
export const countBy = signal<'objectives' | 'axes'>('objectives');
/** Ids of the measures of the plot; empty for the first ones there are. */
export const comparedX = signal('');
export const comparedY = signal('');

export const shown = computed<readonly LoadedFront[]>(() =>
  fronts.value.filter(({ id }) => !leftOut.value.includes(id)),
);

export const compared = signal<Compared | null>(null);
export const surfaces = signal<readonly AttainmentSurface[]>([]);

export function toggleShown(id: string): void {
  const out = leftOut.value;
  leftOut.value = out.includes(id) ? out.filter((other) => other !== id) : [...out, id];
}

/** The two measures of the plot, once it is known what the fronts share. */
export const comparedAxes = computed<readonly [string, string] | null>(() => {
  const known = compared.value;
  if (known === null || known.common.length === 0) return null;
  const wanted = [...(known.found?.by ?? []), ...known.common].map(({ id }) => id);
  const pick = (chosen: string, other: string): string =>
    known.common.some(({ id }) => id === chosen)
      ? chosen
      : (wanted.find((id) => id !== other) ?? wanted[0]);
  const x = pick(comparedX.value, comparedY.value);
  return [x, pick(comparedY.value, x)];
});

/** What of the fronts the desk needs: its own name for them, or names, measures and readings. */
function slim(loaded: readonly LoadedFront[]): (ComparedFront | ShelvedFront)[] {
  return loaded.map(({ name, shelf, front: { brief, objectives, measures, designs } }) =>
    shelf === undefined
      ? {
          name,
          brief,
          objectives,
          measures,
          designs: designs.map(({ id, readings }) => ({ id, readings })),
        }
      : { name, shelf },
  );
}

let asked = 0;

/** Asks anew whenever the fronts or what counts change; while the Compare view is shown. */
export function followComparison(): () => void {
  const stops = [
    effect(() => {
      const loaded = shown.value;
      const by =
        countBy.value === 'axes' && comparedAxes.value !== null ? [...comparedAxes.value] : [];
      void compare(loaded, by);
    }),
    effect(() => {
      const axes = comparedAxes.value;
      const loaded = shown.value;
      if (axes === null || loaded.length < 2) surfaces.value = [];
      else void attain(loaded, axes);
    }),
  ];
  return () => {
    for (const stop of stops) stop();
  };
}

async function compare(loaded: readonly LoadedFront[], by: readonly string[]): Promise<void> {
  const mine = ++asked;
  if (loaded.length < 2) {
    compared.value = null;
    return;
  }
  try {
    const answer = await desk().compare(slim(loaded), by);
    if (mine === asked) compared.value = answer;
  } catch (error) {
    tell('fault', `The fronts could not be compared: ${wordsOf(error)}`);
  }
}

let askedSurfaces = 0;

async function attain(
  loaded: readonly LoadedFront[],
  [x, y]: readonly [string, string],
): Promise<void> {
  const mine = ++askedSurfaces;
  try {
    const found = x === y ? [] : await desk().attainment(slim(loaded), x, y);
    if (mine === askedSurfaces) surfaces.value = found;
  } catch {
    // The measures no longer are those of the fronts: the next answer is under way.
    if (mine === askedSurfaces) surfaces.value = [];
  }
}
