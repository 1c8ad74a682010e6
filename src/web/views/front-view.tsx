/** The front at hand: plots and table, all on one selection. */
import { useSignal } from '@preact/signals';
import type { JSX } from 'preact';
import { DesignTable } from '../parts/design-table.tsx';
import { MeasurePicker } from '../parts/measure-picker.tsx';
import { ScatterPlot } from '../plots/scatter-plot.tsx';
import { active } from '../state/fronts.ts';
import type { LoadedFront } from '../state/fronts.ts';

export function FrontView(): JSX.Element {
  const loaded = active.value;
  return (
    <section aria-labelledby="front-title">
      <h1 id="front-title">Front{loaded === null ? '' : ` of ${loaded.name}`}</h1>
      {loaded === null ? (
        <p>
          No front yet. <a href="#/run">Evolve a brief</a>, or <a href="#/compare">open files</a>.
        </p>
      ) : (
        <FrontPlots key={loaded.id} loaded={loaded} />
      )}
    </section>
  );
}

function FrontPlots({ loaded }: { readonly loaded: LoadedFront }): JSX.Element {
  const { front } = loaded;
  const x = useSignal(front.objectives[0]);
  const y = useSignal(front.objectives[1] ?? front.objectives[0]);
  const size = useSignal(front.objectives[2] ?? '');
  return (
    <>
      <p>
        {front.designs.length} designs after {front.generation} generations and {front.evaluations}{' '}
        evaluations; none is better than another in every objective.
      </p>
      <p class="pickers">
        <MeasurePicker label="Across" measures={front.measures} chosen={x} />
        <MeasurePicker label="Up" measures={front.measures} chosen={y} />
        <MeasurePicker label="Size" measures={front.measures} chosen={size} optional />
      </p>
      <ScatterPlot
        fronts={[loaded]}
        x={x.value}
        y={y.value}
        size={size.value === '' ? null : size.value}
      />
      <DesignTable loaded={loaded} />
    </>
  );
}
