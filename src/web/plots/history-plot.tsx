/** A quantity over the generations of a run. */
import { scaleLinear } from 'd3-scale';
import type { JSX } from 'preact';
import { figure } from '../state/words.ts';

const SIZE = { width: 520, height: 220 } as const;
const PLOT = { left: 56, right: 12, top: 12, bottom: 36 } as const;

interface Props {
  readonly title: string;
  readonly label: string;
  /** One value per generation, from the first on. */
  readonly values: readonly number[];
}

export function HistoryPlot({ title, label, values }: Props): JSX.Element {
  const x = scaleLinear([1, Math.max(2, values.length)], [PLOT.left, SIZE.width - PLOT.right]);
  const y = scaleLinear([0, Math.max(1e-9, ...values)], [SIZE.height - PLOT.bottom, PLOT.top]).nice(
    4,
  );
  const path = values.map((value, i) => `${x(i + 1).toFixed(1)} ${y(value).toFixed(1)}`).join('L');
  const foot = SIZE.height - PLOT.bottom;
  const last = values.at(-1);
  return (
    <figure class="plot">
      <figcaption>{title}</figcaption>
      <svg
        viewBox={`0 0 ${SIZE.width} ${SIZE.height}`}
        role="img"
        aria-label={
          last === undefined
            ? `${title}: no generation yet`
            : `${title}: ${figure(last)} after ${values.length} generations`
        }
      >
        {y.ticks(4).map((tick) => (
          <g key={tick}>
            <line
              class="grid"
              x1={PLOT.left}
              x2={SIZE.width - PLOT.right}
              y1={y(tick)}
              y2={y(tick)}
            />
            <text class="tick" x={PLOT.left - 6} y={y(tick) + 4} text-anchor="end">
              {tick}
            </text>
          </g>
        ))}
        {x
          .ticks(6)
          .filter((tick) => Number.isInteger(tick))
          .map((tick) => (
            <text key={tick} class="tick" x={x(tick)} y={foot + 15} text-anchor="middle">
              {tick}
            </text>
          ))}
        <line class="axis" x1={PLOT.left} x2={SIZE.width - PLOT.right} y1={foot} y2={foot} />
        <text class="tick" x={SIZE.width - PLOT.right} y={foot + 30} text-anchor="end">
          generation
        </text>
        <text class="tick" x={PLOT.left} y={PLOT.top - 2}>
          {label}
        </text>
        {values.length === 0 ? null : <path class="curve" d={`M${path}`} />}
      </svg>
    </figure>
  );
}
