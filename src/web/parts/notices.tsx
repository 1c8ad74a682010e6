/** What the page has to say, where screen readers hear it. */
import type { JSX } from 'preact';
import { dismiss, notices } from '../state/notices.ts';

export function Notices(): JSX.Element {
  return (
    <div class="notices" role="status" aria-live="polite">
      {notices.value.map(({ id, kind, text }) => (
        <p key={id} class={kind}>
          <span>{text}</span>
          <button type="button" onClick={() => dismiss(id)}>
            Dismiss
          </button>
        </p>
      ))}
    </div>
  );
}
