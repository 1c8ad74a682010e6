/** Choice of a measure. */
import type { Signal } from '@preact/signals';
import type { JSX } from 'preact';
import type { MeasureInfo } from '../../engine/index.ts';

interface Props {
  readonly label: string;
  readonly measures: readonly MeasureInfo[];
  /** Id of the measure; empty for none. */
  readonly chosen: Signal<string>;
  readonly optional?: boolean;
}

export function MeasurePicker({ label, measures, chosen, optional = false }: Props): JSX.Element {
  return (
    <label>
      {label}{' '}
      <select value={chosen.value} onChange={(event) => (chosen.value = event.currentTarget.value)}>
        {optional ? <option value="">nothing</option> : null}
        {measures.map((info) => (
          <option key={info.id} value={info.id}>
            {info.label}
            {info.unit === '-' ? '' : ` [${info.unit}]`}
          </option>
        ))}
      </select>
    </label>
  );
}
