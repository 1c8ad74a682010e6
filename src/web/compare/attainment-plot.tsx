/** What a quarter, half and three quarters of the fronts reach, as steps over two measures. */
import { scaleLinear } from 'd3-scale';
import type { JSX } from 'preact';
import type { AttainmentSurface, MeasureInfo } from '../../engine/index.ts';
import { titleOf } from '../plots/columns.ts';
import { figure } from '../state/words.ts';
import { stepsOf } from './steps.ts';

const SIZE = { width: 640, height: 440 } as const;
const PLOT = { left: 64, right: 14, top: 34, bottom: 46 } as const;
/** One line style per share; the key names them, colour does not matter. */
const STYLES = ['dotted', 'solid', 'dashed'] as const;

interface Props {
  readonly surfaces: readonly AttainmentSurface[];
  readonly fronts: number;
  readonly x: MeasureInfo;
  readonly y: MeasureInfo;
}

export function AttainmentPlot({ surfaces, fronts, x, y }: Props): JSX.Element {
  const held = distinct(surfaces);
  const all = held.map(({ corners }) => [...corners]);
  const along = spanOf(all.flatMap((corners) => corners.filter((_, k) => k % 2 === 0)));
  const up = spanOf(all.flatMap((corners) => corners.filter((_, k) => k % 2 === 1)));
  const right = SIZE.width - PLOT.right;
  const foot = SIZE.height - PLOT.bottom;
  const xScale = scaleLinear(along, [PLOT.left, right]);
  const yScale = scaleLinear(up, [foot, PLOT.top]);
  const edges = {
    x: x.better === 'lower' ? right : PLOT.left,
    y: y.better === 'lower' ? PLOT.top : foot,
  };
  return (
    <figure class="plot attainment">
      <figcaption>What the fronts attain</figcaption>
      <svg
        viewBox={`0 0 ${SIZE.width} ${SIZE.height}`}
        role="img"
        aria-label={wordsOf(held, fronts)}
      >
        {xScale.ticks(6).map((tick) => (
          <g key={tick}>
            <line class="grid" x1={xScale(tick)} x2={xScale(tick)} y1={PLOT.top} y2={foot} />
            <text class="tick" x={xScale(tick)} y={foot + 16} text-anchor="middle">
              {tick}
            </text>
          </g>
        ))}
        {yScale.ticks(6).map((tick) => (
          <g key={tick}>
            <line class="grid" x1={PLOT.left} x2={right} y1={yScale(tick)} y2={yScale(tick)} />
            <text class="tick" x={PLOT.left - 7} y={yScale(tick) + 4} text-anchor="end">
              {tick}
            </text>
          </g>
        ))}
        <path class="axis" d={`M${PLOT.left} ${PLOT.top}V${foot}H${right}`} fill="none" />
        <text class="name" x={(PLOT.left + right) / 2} y={SIZE.height - 10} text-anchor="middle">
          {titleOf(x)}
        </text>
        <text
          class="name"
          transform={`translate(14 ${(PLOT.top + foot) / 2}) rotate(-90)`}
          text-anchor="middle"
        >
          {titleOf(y)}
        </text>
        {held.map(({ share, corners }, k) => (
          <path
            key={share}
            class={`steps ${STYLES[k]}`}
            d={stepsOf(corners, xScale, yScale, edges)}
          />
        ))}
        {held.map(({ name, share, times }, k) => (
          <g key={share} transform={`translate(${PLOT.left + 190 * k} 16)`}>
            <path class={`steps ${STYLES[k]}`} d="M0 0H34" />
            <text class="name" x={42} y={4}>
              {name}: {times} of {fronts}
            </text>
          </g>
        ))}
      </svg>
      <p class="soft">
        A point on or behind a line is reached by that share of the fronts (Fonseca and Fleming
        1996). It tells most about repeated runs of one brief with different seeds.
      </p>
    </figure>
  );
}

interface Named extends AttainmentSurface {
  readonly name: string;
}

/** Surfaces that hold something; shares that come to the same number of fronts are one line. */
function distinct(surfaces: readonly AttainmentSurface[]): Named[] {
  const held = surfaces.filter(({ corners }) => corners.length > 0);
  return held
    .filter(({ times }, k) => held.findIndex((other) => other.times === times) === k)
    .map((surface) => {
      const shares = held.filter(({ times }) => times === surface.times);
      const name = `${shares.map(({ share }) => Math.round(100 * share)).join(', ')} %`;
      return { ...surface, name };
    });
}

function wordsOf(held: readonly Named[], fronts: number): string {
  const counts = held.map(
    ({ name, times, corners }) =>
      `${name} (${times} of ${fronts}): ${corners.length / 2} corners from ${figure(corners[0])}, ${figure(corners[1])}`,
  );
  return `Attainment surfaces. ${counts.join('; ')}.`;
}

function spanOf(values: readonly number[]): [number, number] {
  if (values.length === 0) return [0, 1];
  const low = Math.min(...values);
  const high = Math.max(...values);
  const room = high > low ? 0.08 * (high - low) : Math.max(0.05 * Math.abs(low), 0.5);
  return [low >= 0 ? Math.max(0, low - room) : low - room, high + room];
}
