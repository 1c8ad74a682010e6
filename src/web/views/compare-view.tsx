/** Fronts from anywhere, side by side; what leaves the page as files of a front. */
import type { JSX } from 'preact';
import { useEffect } from 'preact/hooks';
import { Comparison } from '../compare/comparison.tsx';
import { FrontFiles } from '../compare/front-files.tsx';
import { FrontList } from '../compare/front-list.tsx';
import { OpenFiles } from '../compare/open-files.tsx';
import { RunList } from '../compare/run-list.tsx';
import { followComparison } from '../state/comparison.ts';

export function CompareView(): JSX.Element {
  useEffect(followComparison, []);
  return (
    <section class="compare" aria-labelledby="compare-title">
      <h1 id="compare-title">Compare</h1>
      <OpenFiles />
      <RunList />
      <h2>Fronts at hand</h2>
      <FrontList />
      <Comparison />
      <FrontFiles />
    </section>
  );
}
