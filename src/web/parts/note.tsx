/** What somebody notes about a design; it travels with the front. */
import type { JSX } from 'preact';
import { lookUp } from '../state/fronts.ts';
import type { DesignKey } from '../state/fronts.ts';
import { LONGEST_NOTE, noteOf, writeNote } from '../state/notes.ts';
import { Star } from './star.tsx';

/** Star and note of one design, side by side. */
export function Note({ of }: { readonly of: DesignKey }): JSX.Element | null {
  const found = lookUp(of);
  if (found === null) return null;
  const { loaded, design } = found;
  return (
    <div class="note">
      <Star of={of} />
      <label>
        Note on {design.id}{' '}
        <textarea
          rows={2}
          maxLength={LONGEST_NOTE}
          value={noteOf(loaded, design).note}
          onInput={(event) => writeNote(loaded, design, event.currentTarget.value)}
        />
      </label>
    </div>
  );
}
