/** Start, pause, go on, stop; how the run comes along. */
import type { JSX } from 'preact';
import { NearMiss } from '../parts/near-miss.tsx';
import { ScatterPanel } from '../parts/scatter-panel.tsx';
import { HistoryPlot } from '../plots/history-plot.tsx';
import { faults, soundBrief } from '../state/brief.ts';
import { hasWorkers } from '../state/desk.ts';
import { OWN_FRONT, fronts } from '../state/fronts.ts';
import { endRun, forgetKeptRun, goOn, kept, pauseRun, run, startRun } from '../state/run.ts';
import type { RunState } from '../state/run.ts';
import { askForNotes, mayAskForNotes } from '../state/system-notes.ts';
import { duration, figure } from '../state/words.ts';

export function RunView(): JSX.Element {
  return (
    <section aria-labelledby="run-title" class="run">
      <h1 id="run-title">Evolve</h1>
      <KeptRun />
      <Controls />
      <Readings state={run.value} />
      <div class="pair">
        <HistoryPlot
          title="Hypervolume over generations"
          label="hypervolume"
          values={run.value.history.map((entry) => entry.hypervolume)}
        />
        <HistoryPlot
          title="Designs that meet every limit"
          label="share of a generation"
          values={run.value.history.map((entry) => entry.feasibleShare)}
        />
      </div>
      <LiveFront />
    </section>
  );
}

/** The front as it grows, from checkpoint to checkpoint. */
function LiveFront(): JSX.Element | null {
  const own = fronts.value.find(({ id }) => id === OWN_FRONT);
  if (own === undefined || run.value.phase === 'idle') return null;
  return (
    <section aria-labelledby="live-title" class="panel">
      <h2 id="live-title">The front as it grows</h2>
      {own.front.designs.length === 0 ? (
        <NearMiss front={own.front} />
      ) : (
        <ScatterPanel loaded={own} height={380} />
      )}
    </section>
  );
}

/** A run that this browser has kept from before, to go on with. */
function KeptRun(): JSX.Element | null {
  if (kept.value === null) return null;
  const { checkpoint, when } = kept.value;
  return (
    <div class="sheet offer">
      <p>
        A run of &ldquo;{checkpoint.brief.name}&rdquo; was left after {checkpoint.history.length} of{' '}
        {checkpoint.brief.search.generations} generations ({new Date(when).toLocaleString()}).
      </p>
      <p class="buttons">
        <button type="button" class="main" onClick={goOn}>
          Go on with it
        </button>
        <button type="button" onClick={() => void forgetKeptRun()}>
          Forget it
        </button>
        <span class="soft">A new run takes its place.</span>
      </p>
    </div>
  );
}

function Controls(): JSX.Element {
  const { phase, brief } = run.value;
  const draft = soundBrief();
  const busy =
    phase === 'starting' || phase === 'running' || phase === 'pausing' || phase === 'ending';
  return (
    <>
      <p role="status">
        {busy || phase === 'paused' ? <>Evolving &ldquo;{brief?.name}&rdquo;.</> : <Ready />}
      </p>
      <p class="buttons">
        <button
          type="button"
          class="main"
          disabled={busy || draft === null || !hasWorkers}
          onClick={() => {
            if (draft !== null) startRun(draft);
          }}
        >
          Start
        </button>
        <button
          type="button"
          disabled={phase !== 'running' && phase !== 'starting'}
          onClick={pauseRun}
        >
          Pause
        </button>
        <button type="button" disabled={phase !== 'paused'} onClick={goOn}>
          Go on
        </button>
        <button type="button" disabled={phase !== 'paused'} onClick={endRun}>
          Stop for good
        </button>
        {mayAskForNotes.value ? (
          <button type="button" onClick={() => void askForNotes()}>
            Tell me when it ends
          </button>
        ) : null}
      </p>
    </>
  );
}

/** Whether the brief at hand can be evolved, and if not, why not. */
function Ready(): JSX.Element {
  const draft = soundBrief();
  const count = faults.value.length;
  if (!hasWorkers) return <>Without Web Workers this browser cannot evolve a brief.</>;
  if (draft !== null) {
    const { population, generations, seed } = draft.search;
    return (
      <>
        The brief &ldquo;{draft.name}&rdquo; is sound: {population} designs a generation, at most{' '}
        {generations} generations, seed &ldquo;{seed}&rdquo;.
      </>
    );
  }
  if (count === 0) return <>The brief is being checked.</>;
  return (
    <>
      The brief has {count} {count === 1 ? 'fault' : 'faults'}; <a href="#/brief">mend it</a> first.
    </>
  );
}

function Readings({ state }: { readonly state: RunState }): JSX.Element | null {
  if (state.phase === 'idle') return null;
  const last = state.history.at(-1);
  const own = fronts.value.find(({ id }) => id === OWN_FRONT);
  const left = state.generations - state.history.length;
  const perGeneration = state.brief?.search.population ?? 0;
  const seconds = state.rate_per_s > 0 ? (left * perGeneration) / state.rate_per_s : null;
  const rows: readonly (readonly [string, string])[] = [
    ['Generation', `${state.history.length} of ${state.generations}`],
    ['Evaluations', String(last?.evaluations ?? 0)],
    ['Evaluations per second', state.phase === 'running' ? figure(state.rate_per_s) : '-'],
    ['Designs in the front', String(last?.archived ?? own?.front.designs.length ?? 0)],
    ['Hypervolume', figure(last?.hypervolume ?? 0)],
    ['Meet every limit', `${figure(100 * (last?.feasibleShare ?? 0))} % of the last generation`],
    ['Time left', state.phase === 'running' && seconds !== null ? duration(seconds) : '-'],
    ...(state.why === null ? [] : [['Ended', state.why] as const]),
  ];
  return (
    <dl class="readings">
      {rows.map(([term, value]) => (
        <div key={term}>
          <dt>{term}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  );
}
