/** The front at hand: plots and table, all on one selection and one set of ranges. */
import type { JSX } from 'preact';
import { DesignTable } from '../parts/design-table.tsx';
import { LinkTo } from '../parts/link-to.tsx';
import { AddMeasure, MeasureList } from '../parts/measure-list.tsx';
import { NearMiss } from '../parts/near-miss.tsx';
import { RangeChips } from '../parts/range-chips.tsx';
import { ScatterPanel } from '../parts/scatter-panel.tsx';
import { plottable } from '../plots/columns.ts';
import { MatrixPlot } from '../plots/matrix-plot.tsx';
import { ParallelPlot } from '../plots/parallel-plot.tsx';
import { active } from '../state/fronts.ts';
import type { LoadedFront } from '../state/fronts.ts';
import { handFront } from '../state/hand-over-front.ts';
import {
  MOST_IN_MATRIX,
  matrixExtra,
  matrixMeasures,
  parallelAxes,
  parallelIds,
  tableMeasures,
} from '../state/plot-choices.ts';

export function FrontView(): JSX.Element {
  const loaded = active.value;
  return (
    <section aria-labelledby="front-title">
      <h1 id="front-title">Front{loaded === null ? '' : ` of ${loaded.name}`}</h1>
      {loaded === null ? (
        <p>
          No front yet. <a href="#/run">Evolve a brief</a>, or <a href="#/compare">open files</a>.
        </p>
      ) : loaded.front.designs.length === 0 ? (
        <NearMiss front={loaded.front} />
      ) : (
        <FrontPlots key={loaded.id} loaded={loaded} />
      )}
    </section>
  );
}

function FrontPlots({ loaded }: { readonly loaded: LoadedFront }): JSX.Element {
  const { front } = loaded;
  return (
    <>
      <p class="front-words">
        {front.designs.length} {front.designs.length === 1 ? 'design' : 'designs'} after{' '}
        {front.generation} generations and {front.evaluations} evaluations
        {front.objectives.length === 1
          ? '; there is one objective, so they are ranked by it.'
          : '; none is better than another in every objective.'}
      </p>
      <div class="buttons">
        <button type="button" onClick={() => void handFront(loaded, 'csv')}>
          Save the table as CSV
        </button>
        <LinkTo target="front" />
      </div>
      <RangeChips loaded={loaded} />
      <div class="front-grid">
        <ScatterPanel loaded={loaded} />
        <div class="front-table">
          <h2>
            Designs <small class="soft">arrow keys move between rows</small>
          </h2>
          <DesignTable loaded={loaded} ids={tableMeasures(front)} />
        </div>
      </div>
      <ParallelPanel loaded={loaded} />
      {front.objectives.length > 1 || matrixExtra.value.length > 0 ? (
        <MatrixPanel loaded={loaded} />
      ) : null}
    </>
  );
}

function ParallelPanel({ loaded }: { readonly loaded: LoadedFront }): JSX.Element {
  const ids = parallelAxes(loaded.front);
  const others = plottable(loaded.front).filter(({ id }) => !ids.includes(id));
  return (
    <section aria-labelledby="parallel-title" class="panel">
      <h2 id="parallel-title">Parallel coordinates</h2>
      <p class="pickers">
        <AddMeasure
          label="Add an axis"
          measures={others}
          add={(id) => (parallelIds.value = [...ids, id])}
        />
        {parallelIds.value === null ? null : (
          <button type="button" onClick={() => (parallelIds.value = null)}>
            Objectives and limits only
          </button>
        )}
      </p>
      <ParallelPlot loaded={loaded} ids={ids} />
      <details>
        <summary>Order of the axes, and ranges as numbers</summary>
        <MeasureList loaded={loaded} ids={ids} change={(next) => (parallelIds.value = next)} />
      </details>
    </section>
  );
}

function MatrixPanel({ loaded }: { readonly loaded: LoadedFront }): JSX.Element {
  const { front } = loaded;
  const ids = matrixMeasures(front);
  const others = plottable(front).filter(({ id }) => !ids.includes(id));
  const extra = ids.filter((id) => !front.objectives.includes(id));
  return (
    <section aria-labelledby="matrix-title" class="panel">
      <h2 id="matrix-title">Scatter matrix</h2>
      <p class="pickers">
        <AddMeasure
          label={`Add a measure (up to ${MOST_IN_MATRIX} in all)`}
          measures={ids.length < MOST_IN_MATRIX ? others : []}
          add={(id) => (matrixExtra.value = [...extra, id])}
        />
        {extra.map((id) => {
          const label = front.measures.find((info) => info.id === id)?.label ?? id;
          return (
            <button
              key={id}
              type="button"
              aria-label={`Take ${label} away`}
              onClick={() => (matrixExtra.value = extra.filter((other) => other !== id))}
            >
              {label} <span aria-hidden="true">×</span>
            </button>
          );
        })}
      </p>
      <MatrixPlot loaded={loaded} ids={ids} />
    </section>
  );
}
