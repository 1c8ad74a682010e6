/** Several fronts over each other, and what comes of it in numbers. */
import type { JSX } from 'preact';
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
import { AttainmentPlot } from './attainment-plot.tsx';
import { BeatenTable, JointTable, yardstickWords } from './comparison-tables.tsx';

export function Comparison(): JSX.Element | null {
  const known = compared.value;
  if (shown.value.length < 2) {
    return <p class="soft">Open two or more fronts to see them side by side.</p>;
  }
  if (known === null) return <p role="status">Comparing ...</p>;
  const axes = comparedAxes.value;
  if (axes === null) return <p>These fronts have no measure in common: nothing can be compared.</p>;
  const [x, y] = axes.map((id) => known.common.find((info) => info.id === id));
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
      <div class="pair">
        <ScatterPlot fronts={shown.value} x={axes[0]} y={axes[1]} size={null} />
        {x === undefined || y === undefined || surfaces.value.length === 0 ? null : (
          <AttainmentPlot surfaces={surfaces.value} fronts={shown.value.length} x={x} y={y} />
        )}
      </div>
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
