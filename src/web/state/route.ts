/** Which step of the job the page shows, kept in the address so that links and the back button work. */
import { signal } from '@preact/signals';

export type Step = 'brief' | 'run' | 'front' | 'part' | 'compare';

export const STEPS: readonly { readonly id: Step; readonly label: string }[] = [
  { id: 'brief', label: 'Brief' },
  { id: 'run', label: 'Evolve' },
  { id: 'front', label: 'Front' },
  { id: 'part', label: 'Part' },
  { id: 'compare', label: 'Compare' },
];

export const step = signal<Step>('brief');
/** What stands behind the step in the address, such as a view to restore: `#/front?x=...`. */
export const query = signal('');

function readHash(): void {
  const [path, rest = ''] = location.hash.replace(/^#\/?/, '').split('?');
  step.value = STEPS.find(({ id }) => id === path)?.id ?? 'brief';
  query.value = rest;
}

export function followHash(): void {
  readHash();
  addEventListener('hashchange', () => {
    // The skip link's target is no step.
    if (location.hash === '#content') return;
    readHash();
  });
}

export function goTo(target: Step): void {
  location.hash = `#/${target}`;
}
