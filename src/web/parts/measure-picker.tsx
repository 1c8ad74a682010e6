/** Choice of a measure. */
import type { Signal } from '@preact/signals';
import type { JSX } from 'preact';
import type { MeasureInfo } from '../../engine/index.ts';
import { titleOf } from '../plots/columns.ts';

interface Props {
  readonly label: string;
  readonly measures: readonly MeasureInfo[];
  /** Id of the measure; empty for none. */
  readonly chosen: Signal<string>;
  /** What is chosen where the signal names none of the measures. */
  readonly shown?: string;
  /** Value of the entry for none; without it there is none. */
  readonly none?: string;
}

export function MeasurePicker({ label, measures, chosen, shown, none }: Props): JSX.Element {
  return (
    <label class="picker">
      <span>{label}</span>
      <select
        value={shown ?? chosen.value}
        onChange={(event) => (chosen.value = event.currentTarget.value)}
      >
        {none === undefined ? null : <option value={none}>nothing</option>}
        {measures.map((info) => (
          <option key={info.id} value={info.id}>
            {titleOf(info)}
          </option>
        ))}
      </select>
    </label>
  );
}
