/** What plate is wanted. */
import type { JSX } from 'preact';

export function BriefView(): JSX.Element {
  return (
    <section aria-labelledby="brief-title">
      <h1 id="brief-title">Brief</h1>
      <p>What plate is wanted.</p>
    </section>
  );
}
