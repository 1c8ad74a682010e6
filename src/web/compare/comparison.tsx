/** Several fronts over each other, and what comes of it in numbers. */
import type { JSX } from 'preact';
import { useMemo } from 'preact/hooks';
import type { Comparison as Found, MeasureInfo } from '../../engine/index.ts';
import { ScatterPlot } from '../plots/scatter-plot.tsx';
import {
  compared,
  comparedAxes,
  comparedX,
  comparedY,
  countBy,
  shown,
  surfaces,
} from '../state/comparison.ts';
import { attainedLines, attainedWords } from './attained-lines.ts';
import { BeatenTable, JointTable, yardstickWords } from './comparison-tables.tsx';

export function Comparison(): JSX.Element | null {
  const known = compared.value;
  const steps = useMemo(
    () => attainedLines(surfaces.value, shown.value.length),
    [surfaces.value, shown.value.length],
  );
  if (shown.value.length < 2) {
    return <p class="soft">Open two or more fronts to see them side by side.</p>;
  }
  if (known === null) return <p role="status">Comparing ...</p>;
  const axes = comparedAxes.value;
  if (axes === null) return <p>These fronts have no measure in common: nothing can be compared.</p>;
  const [x, y] = axes.map((id) => known.common.find((info) => info.id === id));
  const count = shown.value.length;
  return (
    <>
      <h2>Side by side</h2>
      <p class="pickers">
        <Picker label="Across" measures={known.common} value={axes[0]} onPick={comparedX} />
        <Picker label="Up" measures={known.common} value={axes[1]} onPick={comparedY} />
        <label>
          Judged by{' '}
          <select
            value={countBy.value}
            onChange={(event) =>
              (countBy.value = event.currentTarget.value === 'axes' ? 'axes' : 'objectives')
            }
          >
            <option value="objectives">the objectives all share</option>
            <option value="axes">the two measures of the plot</option>
          </select>
        </label>
      </p>
      <ScatterPlot
        fronts={shown.value}
        x={axes[0]}
        y={axes[1]}
        size={null}
        height={520}
        steps={steps}
      />
      {x === undefined || y === undefined || steps.length === 0 ? null : (
        <p class="soft attained">
          Staircases: what the fronts attain. {attainedWords(surfaces.value, count, x, y)} A point
          on a staircase or behind it is reached by that share of the fronts (Fonseca and Fleming
          1996); it tells most about repeated runs of one brief with different seeds.
        </p>
      )}
      {known.found === null ? (
        <p class="fault-words">{known.why}</p>
      ) : (
        <Numbers found={known.found} />
      )}
    </>
  );
}

function Picker({
  label,
  measures,
  value,
  onPick,
}: {
  readonly label: string;
  readonly measures: readonly MeasureInfo[];
  readonly value: string;
  readonly onPick: { value: string };
}): JSX.Element {
  return (
    <label>
      {label}{' '}
      <select value={value} onChange={(event) => (onPick.value = event.currentTarget.value)}>
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

function Numbers({ found }: { readonly found: Found }): JSX.Element {
  return (
    <>
      <h2>Joint front</h2>
      <p>
        Judged by {found.by.map(({ label, better }) => `${label} (${better} is better)`).join(', ')}
        .
      </p>
      <JointTable found={found} />
      <p class="soft">{yardstickWords(found)}</p>
      <h2>Who beats whom</h2>
      <BeatenTable found={found} />
      {found.remarks.length === 0 ? null : (
        <>
          <h2>To bear in mind</h2>
          <ul>
            {found.remarks.map((remark) => (
              <li key={remark}>{remark}</li>
            ))}
          </ul>
        </>
      )}
    </>
  );
}
