/** Fronts side by side. */
import type { JSX } from 'preact';

export function CompareView(): JSX.Element {
  return (
    <section aria-labelledby="compare-title">
      <h1 id="compare-title">Compare</h1>
      <p>Fronts side by side.</p>
    </section>
  );
}
