/** The two ends of a range on an axis, as sliders: for keys, and for readers that speak. */
import type { JSX } from 'preact';
import type { Column } from '../plots/columns.ts';
import { stepEnd } from '../plots/parallel-data.ts';
import type { Span } from '../plots/scatter-data.ts';
import { ranges } from '../state/fronts.ts';
import type { LoadedFront } from '../state/fronts.ts';
import { dropRange, keepRange } from '../state/kept.ts';
import { figure } from '../state/words.ts';

interface Props {
  readonly loaded: LoadedFront;
  readonly column: Column;
  /** Where the axis stands, and a value on it [px]. */
  readonly x: number;
  readonly heightOf: (value: number) => number;
}

/** Hundredths of the axis per key. */
const STEPS: Readonly<Record<string, number>> = {
  ArrowUp: 1,
  ArrowRight: 1,
  ArrowDown: -1,
  ArrowLeft: -1,
  PageUp: 10,
  PageDown: -10,
  Home: -100,
  End: 100,
};

export function AxisHandles({ loaded, column, x, heightOf }: Props): JSX.Element {
  const { info } = column;
  const range: Span = ranges.value[info.id] ?? [column.low, column.high];
  return (
    <>
      {([0, 1] as const).map((end) => {
        const value = Math.min(column.high, Math.max(column.low, range[end]));
        return (
          <div
            key={end}
            class={`handle ${end === 0 ? 'low' : 'high'}`}
            role="slider"
            tabIndex={0}
            aria-orientation="vertical"
            aria-label={`${info.label}, ${end === 0 ? 'least' : 'greatest'} kept`}
            aria-valuemin={column.low}
            aria-valuemax={column.high}
            aria-valuenow={value}
            aria-valuetext={`${figure(value)}${info.unit === '-' ? '' : ` ${info.unit}`}`}
            style={{ left: `${x}px`, top: `${heightOf(value)}px` }}
            onKeyDown={(event) => {
              const step = STEPS[event.key];
              if (event.key === 'Delete' || event.key === 'Escape') dropRange(info.id);
              else if (step === undefined) return;
              else {
                const [low, high] = stepEnd(column, range, end, step);
                keepRange(loaded, info.id, low, high);
              }
              event.preventDefault();
            }}
          />
        );
      })}
    </>
  );
}
