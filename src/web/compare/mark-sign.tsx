/** The mark of a front as plots draw it, with its name for those who cannot see it. */
import type { JSX } from 'preact';
import { MARK_NAMES, markPath } from '../plots/marks.ts';

export function MarkSign({ series }: { readonly series: number }): JSX.Element {
  return (
    <svg
      class="mark-sign"
      viewBox="0 0 20 20"
      role="img"
      aria-label={MARK_NAMES[series % MARK_NAMES.length]}
    >
      <path d={markPath(series, 10, 10, 6.5)} />
    </svg>
  );
}
