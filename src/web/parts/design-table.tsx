/** Designs of a front as rows: objectives, origin, tightest limit. */
import { useSignal } from '@preact/signals';
import type { JSX } from 'preact';
import type { FrontDesign } from '../../engine/index.ts';
import { hovered, isKept, keyOf, select, selected } from '../state/fronts.ts';
import type { LoadedFront } from '../state/fronts.ts';
import { figure } from '../state/words.ts';

export function DesignTable({ loaded }: { readonly loaded: LoadedFront }): JSX.Element {
  const { front } = loaded;
  const sorted = useSignal<{ readonly id: string; readonly down: boolean }>({
    id: front.objectives[0],
    down: false,
  });
  const column = (id: string): number => front.measures.findIndex((info) => info.id === id);
  const at = column(sorted.value.id);
  const turn = sorted.value.down ? -1 : 1;
  const rows = front.designs
    .filter((design) => isKept(front, design))
    .toSorted((a, b) => turn * ((a.readings[at] ?? 0) - (b.readings[at] ?? 0)));
  return (
    <div class="scroll" tabIndex={0} role="region" aria-label="Designs of the front">
      <table>
        <thead>
          <tr>
            <th scope="col">Design</th>
            {front.objectives.map((id) => {
              const info = front.measures[column(id)];
              const own = sorted.value.id === id;
              return (
                <th
                  key={id}
                  scope="col"
                  class="n"
                  aria-sort={own ? (sorted.value.down ? 'descending' : 'ascending') : 'none'}
                >
                  <button
                    type="button"
                    class="bare"
                    onClick={() => (sorted.value = { id, down: own && !sorted.value.down })}
                  >
                    {info.label}
                    {info.unit === '-' ? '' : ` [${info.unit}]`}
                  </button>
                </th>
              );
            })}
            <th scope="col">Origin</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((design) => (
            <Row key={design.id} loaded={loaded} design={design} />
          ))}
        </tbody>
      </table>
    </div>
  );
}

function Row({
  loaded,
  design,
}: {
  readonly loaded: LoadedFront;
  readonly design: FrontDesign;
}): JSX.Element {
  const key = keyOf(loaded, design);
  const chosen = selected.value.includes(key);
  const { front } = loaded;
  return (
    <tr
      class={`${chosen ? 'chosen' : ''} ${hovered.value === key ? 'hovered' : ''}`}
      onPointerEnter={() => (hovered.value = key)}
      onPointerLeave={() => (hovered.value = null)}
    >
      <th scope="row">
        <button
          type="button"
          class="bare"
          aria-pressed={chosen}
          onClick={(event) => select(key, event.shiftKey || event.ctrlKey)}
        >
          {design.id}
        </button>
      </th>
      {front.objectives.map((id) => {
        const j = front.measures.findIndex((info) => info.id === id);
        return (
          <td key={id} class="n">
            {figure(design.readings[j])}
          </td>
        );
      })}
      <td>{design.origin}</td>
    </tr>
  );
}
