/** A link to what is shown now. */
import { useSignal } from '@preact/signals';
import type { JSX } from 'preact';
import { linkTo } from '../state/link.ts';
import type { Step } from '../state/route.ts';

export function LinkTo({ target }: { readonly target: Step }): JSX.Element {
  const link = useSignal('');
  const copied = useSignal('');
  const make = async (): Promise<void> => {
    link.value = (await linkTo(target)) ?? '';
    try {
      await navigator.clipboard.writeText(link.value);
      copied.value = 'Copied.';
    } catch {
      // A browser may forbid it: the link stands there to be copied by hand.
      copied.value = 'Copy it from here.';
    }
  };
  return (
    <div class="link-to">
      <button type="button" onClick={() => void make()}>
        Link to this view
      </button>
      {link.value === '' ? null : (
        <p class="link-row">
          <label>
            Link{' '}
            <input
              type="text"
              readOnly
              value={link.value}
              onFocus={(event) => event.currentTarget.select()}
            />
          </label>
          <span role="status">
            {copied.value} It shows the same view to whoever opens the same front file.
          </span>
        </p>
      )}
    </div>
  );
}
