/** Runs of the folder that the server shows: pictures, filters, progress of those under way. */
import { useSignal } from '@preact/signals';
import type { JSX } from 'preact';
import { useEffect } from 'preact/hooks';
import { HistoryPlot } from '../plots/history-plot.tsx';
import { fronts } from '../state/fronts.ts';
import {
  askForRuns,
  followRun,
  followed,
  openListed,
  runAddress,
  runList,
} from '../state/run-list.ts';
import { fittingRuns } from '../state/run-filter.ts';
import type { ListedRun } from '../../engine/index.ts';
import { figure } from '../state/words.ts';

/** Most runs shown at once; the filter finds the others. */
const MOST = 60;

export function RunList(): JSX.Element | null {
  const words = useSignal('');
  const state = useSignal<'all' | 'ended' | 'open'>('all');
  const following = useSignal<string | null>(null);
  useEffect(() => void askForRuns(), []);
  useEffect(() => {
    const folder = following.value;
    return folder === null ? undefined : followRun(folder);
  }, [following.value]);
  const runs = runList.value;
  if (runs === null) return null;
  const fitting = fittingRuns(runs, words.value, state.value);
  return (
    <details class="runs" open={fronts.value.length === 0}>
      <summary>
        <h2>Runs of this server</h2>
      </summary>
      <p class="pickers">
        <label>
          Find{' '}
          <input
            type="search"
            value={words.value}
            onInput={(event) => (words.value = event.currentTarget.value)}
          />
        </label>
        <label>
          State{' '}
          <select
            value={state.value}
            onChange={(event) => {
              const { value } = event.currentTarget;
              state.value = value === 'ended' || value === 'open' ? value : 'all';
            }}
          >
            <option value="all">all</option>
            <option value="ended">ended</option>
            <option value="open">not ended</option>
          </select>
        </label>
        <button type="button" onClick={() => void askForRuns()}>
          Ask again
        </button>
        <span role="status">
          {fitting.length} of {runs.length} runs
        </span>
      </p>
      <ul class="run-cards">
        {fitting.slice(0, MOST).map((run) => (
          <RunCard key={run.folder} run={run} following={following} />
        ))}
      </ul>
      {fitting.length > MOST ? <p class="soft">The newest {MOST} are shown.</p> : null}
    </details>
  );
}

function RunCard({
  run,
  following,
}: {
  readonly run: ListedRun;
  readonly following: { value: string | null };
}): JSX.Element {
  const own = following.value === run.folder;
  return (
    <li class="sheet">
      {run.picture ? (
        <img
          class="picture"
          loading="lazy"
          src={runAddress(run.folder, 'pictures/front.svg')}
          alt={`Front of ${run.folder}`}
        />
      ) : (
        <p class="no-picture soft">no picture yet</p>
      )}
      <h3>{run.folder}</h3>
      <p>
        {run.name}; {run.archived} designs, generation {run.generation} of {run.generations},
        hypervolume {figure(run.hypervolume)}
      </p>
      <p class="soft">
        {run.finished ? 'ended' : 'not ended'}, changed {new Date(run.changed).toLocaleString()}
      </p>
      <p class="buttons">
        <button
          type="button"
          disabled={!run.finished && run.generation === 0}
          onClick={() => void openListed(run)}
        >
          Open<span class="unseen"> {run.folder}</span>
        </button>
        {run.finished ? null : (
          <button
            type="button"
            aria-pressed={own}
            onClick={() => (following.value = own ? null : run.folder)}
          >
            Follow<span class="unseen"> {run.folder}</span>
          </button>
        )}
      </p>
      {own ? <Tail folder={run.folder} /> : null}
    </li>
  );
}

/** The run in progress as it grows. */
function Tail({ folder }: { readonly folder: string }): JSX.Element {
  const entries = followed.value?.folder === folder ? followed.value.entries : [];
  const last = entries.at(-1);
  return (
    <>
      <p role="status">
        {last === undefined
          ? 'Looking ...'
          : `Generation ${entries.length}: ${last.archived} designs, ${last.evaluations} evaluations.`}
      </p>
      <HistoryPlot
        title="Hypervolume"
        label="share of the yardstick"
        values={entries.map((entry) => entry.hypervolume)}
      />
    </>
  );
}
