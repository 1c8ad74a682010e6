/** Measures of a plot in order: added, taken away, moved, and their ranges as numbers. */
import type { JSX } from 'preact';
import type { MeasureInfo } from '../../engine/index.ts';
import { columnsOf, nameOf } from '../plots/columns.ts';
import { movedBy } from '../plots/parallel-data.ts';
import { ranges } from '../state/fronts.ts';
import type { LoadedFront } from '../state/fronts.ts';
import { dropRange, keepRange } from '../state/kept.ts';

interface AddProps {
  readonly label: string;
  readonly measures: readonly MeasureInfo[];
  readonly add: (id: string) => void;
}

/** Adds one of the measures that are not shown yet. */
export function AddMeasure({ label, measures, add }: AddProps): JSX.Element {
  return (
    <label class="picker">
      <span>{label}</span>
      <select
        value=""
        disabled={measures.length === 0}
        onChange={(event) => {
          const id = event.currentTarget.value;
          event.currentTarget.value = '';
          if (id !== '') add(id);
        }}
      >
        <option value="">choose a measure</option>
        {measures.map((info) => (
          <option key={info.id} value={info.id}>
            {nameOf(info)}
          </option>
        ))}
      </select>
    </label>
  );
}

interface ListProps {
  readonly loaded: LoadedFront;
  readonly ids: readonly string[];
  readonly change: (ids: readonly string[]) => void;
}

/** The axes of the parallel coordinates as a table. */
export function MeasureList({ loaded, ids, change }: ListProps): JSX.Element {
  return (
    <div class="measure-list">
      <table>
        <thead>
          <tr>
            <th scope="col">Axis</th>
            <th scope="col">Better</th>
            <th scope="col">Kept from</th>
            <th scope="col">to</th>
            <th scope="col">Order</th>
          </tr>
        </thead>
        <tbody>
          {ids.map((id, k) => (
            <ListRow key={id} loaded={loaded} id={id} place={k} ids={ids} change={change} />
          ))}
        </tbody>
      </table>
    </div>
  );
}

function ListRow({
  loaded,
  id,
  place,
  ids,
  change,
}: ListProps & { readonly id: string; readonly place: number }): JSX.Element | null {
  const column = columnsOf(loaded.front).get(id);
  if (column === undefined) return null;
  const { info, low, high } = column;
  const range = ranges.value[id] ?? [low, high];
  const ends = ['least', 'greatest'] as const;
  return (
    <tr>
      <th scope="row">{nameOf(info)}</th>
      <td>{info.better}</td>
      {ends.map((words, end) => (
        <td key={words}>
          <input
            type="number"
            step="any"
            aria-label={`${info.label}, ${words} kept`}
            value={Number(range[end].toPrecision(6))}
            onChange={(event) => {
              const value = event.currentTarget.valueAsNumber;
              if (Number.isNaN(value)) dropRange(id);
              else if (end === 0) keepRange(loaded, id, Math.min(value, range[1]), range[1]);
              else keepRange(loaded, id, range[0], Math.max(value, range[0]));
            }}
          />
        </td>
      ))}
      <td class="buttons">
        <button
          type="button"
          aria-label={`Move ${info.label} to the left`}
          disabled={place === 0}
          onClick={() => change(movedBy(ids, id, -1))}
        >
          <span aria-hidden="true">←</span>
        </button>
        <button
          type="button"
          aria-label={`Move ${info.label} to the right`}
          disabled={place === ids.length - 1}
          onClick={() => change(movedBy(ids, id, 1))}
        >
          <span aria-hidden="true">→</span>
        </button>
        <button
          type="button"
          aria-label={`Take ${info.label} away`}
          disabled={ids.length < 3}
          onClick={() => change(ids.filter((other) => other !== id))}
        >
          <span aria-hidden="true">×</span>
        </button>
      </td>
    </tr>
  );
}
