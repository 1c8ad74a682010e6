/** The fan's curve as points on a chart, to be dragged or moved by arrow keys. */
import { scaleLinear } from 'd3-scale';
import { useRef } from 'preact/hooks';
import type { JSX } from 'preact';
import { putAt, valueAt } from '../state/brief.ts';
import { isRecord } from './schema.ts';

/** Within so much of a point it is grasped; on a telephone that is a fingertip. */
const GRASP = 20;
const SIZE = { width: 520, height: 260 } as const;
const PLOT = { left: 52, right: 14, top: 14, bottom: 42 } as const;

interface Point {
  readonly flow_m3_per_h: number;
  readonly pressure_Pa: number;
}

const CURVE = ['air', 'supply', 'curve'] as const;

/** The curve, or nothing while a point of it is half typed: the chart moves whole curves only. */
function readCurve(): readonly Point[] {
  const curve = valueAt(CURVE);
  if (!Array.isArray(curve)) return [];
  const points = curve.flatMap((entry: unknown) => {
    if (!isRecord(entry)) return [];
    const { flow_m3_per_h: flow, pressure_Pa: pressure } = entry;
    return typeof flow === 'number' && typeof pressure === 'number'
      ? [{ flow_m3_per_h: flow, pressure_Pa: pressure }]
      : [];
  });
  return points.length === curve.length ? points : [];
}

/** Rounded to what a hand can mean. */
function rounded(value: number, span: number): number {
  const step = span > 50 ? 1 : span > 5 ? 0.1 : 0.01;
  return Number((Math.round(value / step) * step).toFixed(2));
}

export function FanChart(): JSX.Element | null {
  const svg = useRef<SVGSVGElement>(null);
  const dragged = useRef(-1);
  const points = readCurve();
  if (points.length < 2) return null;
  const most = { flow: 0, pressure: 0 };
  for (const point of points) {
    most.flow = Math.max(most.flow, point.flow_m3_per_h);
    most.pressure = Math.max(most.pressure, point.pressure_Pa);
  }
  const x = scaleLinear([0, 1.1 * Math.max(1e-3, most.flow)], [PLOT.left, SIZE.width - PLOT.right]);
  const y = scaleLinear(
    [0, 1.15 * Math.max(1e-3, most.pressure)],
    [SIZE.height - PLOT.bottom, PLOT.top],
  );

  /** Moves a point; flows stay in order, nothing goes below zero. */
  const move = (i: number, flow: number, pressure: number): void => {
    const low = i === 0 ? 0 : points[i - 1].flow_m3_per_h;
    const high = i === points.length - 1 ? Number.POSITIVE_INFINITY : points[i + 1].flow_m3_per_h;
    const flow_m3_per_h = rounded(Math.min(high, Math.max(low, flow)), most.flow);
    const pressure_Pa = rounded(Math.max(0, pressure), most.pressure);
    putAt(
      CURVE,
      points.map((point, k) => (k === i ? { flow_m3_per_h, pressure_Pa } : point)),
    );
  };
  const onPointerMove = (event: PointerEvent): void => {
    const element = svg.current;
    if (dragged.current < 0 || element === null) return;
    const box = element.getBoundingClientRect();
    const scale = SIZE.width / box.width;
    move(
      dragged.current,
      x.invert((event.clientX - box.x) * scale),
      y.invert((event.clientY - box.y) * scale),
    );
  };
  // The nearest point is taken, whichever lies on top: a finger covers several.
  const onPointerDown = (event: PointerEvent): void => {
    const element = svg.current;
    if (element === null) return;
    const box = element.getBoundingClientRect();
    const scale = SIZE.width / box.width;
    const offs = points.map((point) =>
      Math.hypot(
        x(point.flow_m3_per_h) - (event.clientX - box.x) * scale,
        y(point.pressure_Pa) - (event.clientY - box.y) * scale,
      ),
    );
    const nearest = offs.indexOf(Math.min(...offs));
    if (nearest < 0 || offs[nearest] > GRASP) return;
    dragged.current = nearest;
    element.setPointerCapture(event.pointerId);
  };
  const onKeyDown = (event: KeyboardEvent, i: number): void => {
    const { flow_m3_per_h: flow, pressure_Pa: pressure } = points[i];
    const [df, dp] = [0.01 * most.flow, 0.01 * most.pressure];
    if (event.key === 'ArrowRight') move(i, flow + df, pressure);
    else if (event.key === 'ArrowLeft') move(i, flow - df, pressure);
    else if (event.key === 'ArrowUp') move(i, flow, pressure + dp);
    else if (event.key === 'ArrowDown') move(i, flow, pressure - dp);
    else return;
    event.preventDefault();
  };

  const foot = SIZE.height - PLOT.bottom;
  const path = points
    .map((point) => `${x(point.flow_m3_per_h).toFixed(1)} ${y(point.pressure_Pa).toFixed(1)}`)
    .join('L');
  return (
    <figure class="plot fan">
      <figcaption>Fan curve: drag its points, or move them with the arrow keys</figcaption>
      <svg
        ref={svg}
        viewBox={`0 0 ${SIZE.width} ${SIZE.height}`}
        role="group"
        aria-label="Fan curve"
        onPointerDown={onPointerDown}
        onPointerMove={onPointerMove}
        onPointerUp={() => (dragged.current = -1)}
        onPointerLeave={() => (dragged.current = -1)}
      >
        {y.ticks(5).map((tick) => (
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
        {x.ticks(6).map((tick) => (
          <text key={tick} class="tick" x={x(tick)} y={foot + 15} text-anchor="middle">
            {tick}
          </text>
        ))}
        <line class="axis" x1={PLOT.left} x2={SIZE.width - PLOT.right} y1={foot} y2={foot} />
        <text class="tick" x={SIZE.width - PLOT.right} y={foot + 32} text-anchor="end">
          flow [m&sup3;/h]
        </text>
        <text class="tick" x={PLOT.left + 4} y={PLOT.top + 4}>
          static pressure [Pa]
        </text>
        <path class="curve" d={`M${path}`} />
        {points.map((point, i) => (
          <g
            // A point of the curve is known by its place in it.
            // oxlint-disable-next-line react/no-array-index-key
            key={i}
            class="grip"
            tabindex={0}
            role="slider"
            aria-label={`Point ${i + 1} of the fan curve`}
            aria-valuenow={point.pressure_Pa}
            aria-valuetext={`${point.flow_m3_per_h} cubic metres per hour, ${point.pressure_Pa} pascals`}
            onKeyDown={(event) => onKeyDown(event, i)}
          >
            <circle class="grasp" cx={x(point.flow_m3_per_h)} cy={y(point.pressure_Pa)} r={GRASP} />
            <circle class="handle" cx={x(point.flow_m3_per_h)} cy={y(point.pressure_Pa)} r={7} />
          </g>
        ))}
      </svg>
    </figure>
  );
}
