/** The page's tokens for canvases, which know no style sheets. */
import { signal } from '@preact/signals';
import type { Ink } from './ink-tones.ts';

let cached: { readonly key: string; readonly ink: Ink } | null = null;

/** Counts up when the reader turns to light or dark: canvases that read it draw themselves anew. */
export const inkTurn = signal(0);
matchMedia('(prefers-color-scheme: dark)').addEventListener('change', () => {
  inkTurn.value++;
});

/** Tones as they stand for an element now: light or dark. Read anew only when that changes. */
export function inkOf(element: Element): Ink {
  const key = `${matchMedia('(prefers-color-scheme: dark)').matches} ${document.documentElement.dataset['look'] ?? ''}`;
  if (cached?.key === key) return cached.ink;
  const ink = readInk(element.parentElement ?? document.body, '');
  cached = { key, ink };
  return ink;
}

/** The light tones, whatever the page shows: files taken away are for paper. */
export function lightInk(): Ink {
  return readInk(document.body, ' ink-light');
}

function readInk(home: Element, look: string): Ink {
  const probe = document.createElement('span');
  home.append(probe);
  const tone = (name: string): string => {
    probe.className = `ink-${name}${look}`;
    return getComputedStyle(probe).color;
  };
  const ink = {
    paper: tone('paper'),
    grid: tone('grid'),
    line: tone('line'),
    soft: tone('soft'),
    hair: tone('hair'),
    accent: tone('accent'),
    air: tone('air'),
    font: getComputedStyle(document.documentElement).fontFamily,
  };
  probe.remove();
  return ink;
}
