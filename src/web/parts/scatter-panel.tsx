/** The scatter with the choice of its measures. */
import type { JSX } from 'preact';
import { plottable } from '../plots/columns.ts';
import { ScatterPlot } from '../plots/scatter-plot.tsx';
import { axisSize, axisX, axisY } from '../state/axes.ts';
import type { LoadedFront } from '../state/fronts.ts';
import { scatterAxes, scatterView, thirdAs } from '../state/plot-choices.ts';
import { MeasurePicker } from './measure-picker.tsx';

interface Props {
  readonly loaded: LoadedFront;
  readonly height?: number;
}

export function ScatterPanel({ loaded, height = 440 }: Props): JSX.Element {
  const { front } = loaded;
  const measures = plottable(front);
  const { x, y, third } = scatterAxes(front);
  return (
    <div class="scatter-panel">
      <p class="pickers">
        <MeasurePicker label="Across" measures={measures} chosen={axisX} shown={x} />
        <MeasurePicker label="Up" measures={measures} chosen={axisY} shown={y} />
        <MeasurePicker
          label="Third"
          measures={measures}
          chosen={axisSize}
          shown={third ?? 'none'}
          none="none"
        />
        <label class="picker">
          <span>shown as</span>
          <select
            value={thirdAs.value}
            disabled={third === null}
            onChange={(event) =>
              (thirdAs.value = event.currentTarget.value === 'shade' ? 'shade' : 'size')
            }
          >
            <option value="size">size</option>
            <option value="shade">shade</option>
          </select>
        </label>
      </p>
      <ScatterPlot
        fronts={[loaded]}
        x={x}
        y={y}
        size={third}
        thirdAs={thirdAs.value}
        height={height}
        looked={scatterView}
      />
    </div>
  );
}
