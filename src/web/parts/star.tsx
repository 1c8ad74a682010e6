/** A star on a design: worth another look. */
import type { JSX } from 'preact';
import { lookUp } from '../state/fronts.ts';
import type { DesignKey } from '../state/fronts.ts';
import { noteOf, toggleStar } from '../state/notes.ts';

interface Props {
  readonly of: DesignKey;
  /** Within a table that is one stop of the Tab key: -1 off its row. */
  readonly tabIndex?: number;
}

export function Star({ of, tabIndex = 0 }: Props): JSX.Element | null {
  const found = lookUp(of);
  if (found === null) return null;
  const { loaded, design } = found;
  const { star, note } = noteOf(loaded, design);
  return (
    <button
      type="button"
      class="bare star"
      tabIndex={tabIndex}
      aria-pressed={star}
      aria-label={`Star ${design.id}`}
      title={note === '' ? undefined : note}
      onClick={(event) => {
        event.stopPropagation();
        toggleStar(loaded, design);
      }}
    >
      <svg viewBox="0 0 20 20" aria-hidden="true">
        <path d="M10 1.8L12.5 7.3L18.5 8L14.1 12.1L15.3 18L10 15L4.7 18L5.9 12.1L1.5 8L7.5 7.3Z" />
      </svg>
    </button>
  );
}
