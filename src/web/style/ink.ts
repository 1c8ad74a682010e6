/** The page's tokens for canvases, which know no style sheets. */

export interface Ink {
  readonly paper: string;
  readonly grid: string;
  readonly line: string;
  readonly soft: string;
  readonly hair: string;
  readonly accent: string;
  readonly air: string;
  readonly font: string;
}

let cached: { readonly key: string; readonly ink: Ink } | null = null;

/** Tones as they stand for an element now: light or dark. Read anew only when that changes. */
export function inkOf(element: Element): Ink {
  const key = `${matchMedia('(prefers-color-scheme: dark)').matches} ${document.documentElement.dataset['look'] ?? ''}`;
  if (cached?.key === key) return cached.ink;
  const probe = document.createElement('span');
  element.parentElement?.append(probe);
  const tone = (name: string): string => {
    probe.className = `ink-${name}`;
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
  cached = { key, ink };
  return ink;
}
