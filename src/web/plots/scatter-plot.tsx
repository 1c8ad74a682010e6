/** Designs over two measures, a third as size; drawn on canvas, five thousand at a time. */
import { useSignal, useSignalEffect } from '@preact/signals';
import type { JSX } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import { hovered, isKept, lookUp, select, selected } from '../state/fronts.ts';
import type { DesignKey, LoadedFront } from '../state/fronts.ts';
import { figure } from '../state/words.ts';
import { nearestPoint, pointTowards } from './point-cloud.ts';
import type { Cloud } from './point-cloud.ts';
import { collectPoints, fitView, panView, zoomView } from './scatter-data.ts';
import type { PlotView, ScatterPoint } from './scatter-data.ts';
import { PLOT_MARGIN, drawScatter } from './scatter-draw.ts';

interface Props {
  readonly fronts: readonly LoadedFront[];
  /** Ids of measures; null for no third. */
  readonly x: string;
  readonly y: string;
  readonly size: string | null;
  readonly height?: number;
}

/** How near the pointer must be to a point [px]. */
const REACH = 18;
const ARROWS: Readonly<Record<string, 'left' | 'right' | 'up' | 'down'>> = {
  ArrowLeft: 'left',
  ArrowRight: 'right',
  ArrowUp: 'up',
  ArrowDown: 'down',
};

function isPointKept(point: ScatterPoint): boolean {
  return isKept(point.loaded.front, point.design);
}

export function ScatterPlot({ fronts, x, y, size, height = 440 }: Props): JSX.Element {
  const canvas = useRef<HTMLCanvasElement>(null);
  const cloud = useRef<Cloud<DesignKey>>({
    keys: [],
    x: new Float64Array(0),
    y: new Float64Array(0),
  });
  const width = useSignal(640);
  const view = useSignal<PlotView | null>(null);
  const points = collectPoints(fronts, x, y, size);
  const info = (id: string) => fronts[0]?.front.measures.find((entry) => entry.id === id);
  const fitted = fitView(points);

  // Another pair of measures or another front: look at all of it again.
  useEffect(() => {
    view.value = null;
  }, [x, y, fronts.map(({ id }) => id).join()]);

  useEffect(() => {
    const element = canvas.current;
    if (element === null) return undefined;
    const observer = new ResizeObserver(([entry]) => (width.value = entry.contentRect.width));
    observer.observe(element);
    return () => observer.disconnect();
  }, []);

  const draw = (): void => {
    const element = canvas.current;
    if (element === null) return;
    cloud.current = drawScatter(element, {
      points,
      view: view.value ?? fitted,
      width: width.value,
      height,
      isKept: isPointKept,
      selected: selected.value,
      hovered: hovered.value,
      xInfo: info(x),
      yInfo: info(y),
    });
  };
  useSignalEffect(draw);
  useEffect(draw);

  const at = (event: MouseEvent): DesignKey | null => {
    const box = (event.currentTarget as HTMLElement).getBoundingClientRect();
    const found = nearestPoint(cloud.current, event.clientX - box.x, event.clientY - box.y, REACH);
    return found < 0 ? null : cloud.current.keys[found];
  };
  const now = (): PlotView => view.value ?? fitted;
  const plotWidth = (): number => width.value - PLOT_MARGIN.left - PLOT_MARGIN.right;
  const plotHeight = height - PLOT_MARGIN.top - PLOT_MARGIN.bottom;

  const onKeyDown = (event: KeyboardEvent): void => {
    const towards = ARROWS[event.key];
    if (towards !== undefined) {
      const keys = cloud.current.keys;
      const from = Math.max(
        0,
        keys.findIndex((key) => key === hovered.value),
      );
      if (keys.length > 0) hovered.value = keys[pointTowards(cloud.current, from, towards)];
    } else if (event.key === 'Enter' || event.key === ' ') {
      if (hovered.value !== null) select(hovered.value, event.shiftKey || event.ctrlKey);
    } else if (event.key === '+' || event.key === '=') view.value = zoomView(now(), 0.8, 0.5, 0.5);
    else if (event.key === '-') view.value = zoomView(now(), 1.25, 0.5, 0.5);
    else if (event.key === '0') view.value = null;
    else return;
    event.preventDefault();
  };
  const onPointerMove = (event: PointerEvent): void => {
    if (event.buttons === 1 && view.value !== null) {
      view.value = panView(
        view.value,
        -event.movementX / plotWidth(),
        event.movementY / plotHeight,
      );
      return;
    }
    hovered.value = at(event);
  };
  const onWheel = (event: WheelEvent): void => {
    if (!event.ctrlKey && !event.shiftKey) return;
    event.preventDefault();
    const box = (event.currentTarget as HTMLElement).getBoundingClientRect();
    const shareX = (event.clientX - box.x - PLOT_MARGIN.left) / plotWidth();
    const shareY = 1 - (event.clientY - box.y - PLOT_MARGIN.top) / plotHeight;
    view.value = zoomView(now(), event.deltaY > 0 ? 1.15 : 1 / 1.15, shareX, shareY);
  };

  return (
    <figure class="plot scatter">
      <div
        class="canvas"
        role="application"
        aria-roledescription="scatter plot"
        aria-label={`${points.length} designs, ${info(y)?.label ?? y} over ${info(x)?.label ?? x}. Arrow keys move between designs, Enter selects.`}
        tabIndex={0}
        onKeyDown={onKeyDown}
        onPointerMove={onPointerMove}
        onPointerLeave={() => (hovered.value = null)}
        onWheel={onWheel}
        onClick={(event) => {
          const key = at(event);
          if (key !== null) select(key, event.shiftKey || event.ctrlKey);
        }}
      >
        <canvas ref={canvas} height={height} />
      </div>
      <p class="plot-tools">
        <button type="button" onClick={() => (view.value = zoomView(now(), 0.7, 0.5, 0.5))}>
          Closer
        </button>
        <button type="button" onClick={() => (view.value = zoomView(now(), 1.4, 0.5, 0.5))}>
          Farther
        </button>
        <button type="button" disabled={view.value === null} onClick={() => (view.value = null)}>
          Whole front
        </button>
        <HoverWords x={x} y={y} size={size} />
      </p>
    </figure>
  );
}

/** The design under the pointer in words. */
function HoverWords({ x, y, size }: Pick<Props, 'x' | 'y' | 'size'>): JSX.Element {
  const found = hovered.value === null ? null : lookUp(hovered.value);
  if (found === null) return <span class="soft">Shift with the wheel looks closer.</span>;
  const { loaded, design } = found;
  const parts = [x, y, ...(size === null ? [] : [size])].map((id) => {
    const j = loaded.front.measures.findIndex((entry) => entry.id === id);
    const entry = loaded.front.measures[j];
    const unit = entry === undefined || entry.unit === '-' ? '' : ` ${entry.unit}`;
    return `${entry?.label ?? id} ${figure(design.readings[j] ?? null)}${unit}`;
  });
  return (
    <span>
      <strong>{design.id}</strong> {parts.join(', ')}
    </span>
  );
}
