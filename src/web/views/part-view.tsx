/** One design, closely. */
import type { JSX } from 'preact';

export function PartView(): JSX.Element {
  return (
    <section aria-labelledby="part-title">
      <h1 id="part-title">Part</h1>
      <p>One design, closely.</p>
    </section>
  );
}
