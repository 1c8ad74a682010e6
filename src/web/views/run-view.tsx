/** Start a run. */
import type { JSX } from 'preact';

export function RunView(): JSX.Element {
  return (
    <section aria-labelledby="run-title">
      <h1 id="run-title">Evolve</h1>
      <p>Start a run.</p>
    </section>
  );
}
