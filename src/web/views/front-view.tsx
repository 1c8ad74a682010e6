/** Designs none of which is better than another in everything. */
import type { JSX } from 'preact';

export function FrontView(): JSX.Element {
  return (
    <section aria-labelledby="front-title">
      <h1 id="front-title">Front</h1>
      <p>Designs none of which is better than another in everything.</p>
    </section>
  );
}
