/** The frame of the page: title, the steps of the job, what is wrong, the view of the step at hand. */
import type { JSX } from 'preact';
import { Notices } from './parts/notices.tsx';
import { RunStrip } from './parts/run-strip.tsx';
import { STEPS, step } from './state/route.ts';
import type { Step } from './state/route.ts';
import { BriefView } from './views/brief-view.tsx';
import { CompareView } from './views/compare-view.tsx';
import { FrontView } from './views/front-view.tsx';
import { PartView } from './views/part-view.tsx';
import { RunView } from './views/run-view.tsx';

const VIEWS: Readonly<Record<Step, () => JSX.Element>> = {
  brief: BriefView,
  run: RunView,
  front: FrontView,
  part: PartView,
  compare: CompareView,
};

export function App(): JSX.Element {
  const View = VIEWS[step.value];
  return (
    <>
      <a class="skip" href="#content">
        To the content
      </a>
      <header class="head">
        <p class="brand">
          anfract <span>vent plates, evolved</span>
        </p>
        <nav aria-label="Steps">
          <ol>
            {STEPS.map(({ id, label }) => (
              <li key={id}>
                <a href={`#/${id}`} aria-current={step.value === id ? 'page' : undefined}>
                  {label}
                </a>
              </li>
            ))}
          </ol>
        </nav>
        <RunStrip />
      </header>
      <Notices />
      <main id="content" tabIndex={-1}>
        <View />
      </main>
    </>
  );
}
