/** Designs over two measures, a third as size or shade; on canvas, five thousand at a time. */
import { useComputed, useSignal } from '@preact/signals';
import type { Signal } from '@preact/signals';
import type { JSX } from 'preact';
import { useMemo, useRef } from 'preact/hooks';
import { SavePlot } from '../parts/save-plot.tsx';
import { hovered, lookUp, select, selected } from '../state/fronts.ts';
import type { DesignKey, LoadedFront } from '../state/fronts.ts';
import { keptOf } from '../state/kept.ts';
import { figure } from '../state/words.ts';
import { nearestPoint, pointTowards } from './point-cloud.ts';
import type { Cloud } from './point-cloud.ts';
import { collectPoints, fitView, panView, pointsOf, viewedOf, zoomView } from './scatter-data.ts';
import type { PlotView } from './scatter-data.ts';
import type { Picture } from './pictures.ts';
import { PLOT_MARGIN, drawScatterTop, locatePoints } from './scatter-draw.ts';
import type { Ring, ScatterScene } from './scatter-draw.ts';
import type { StepLine } from './steps-draw.ts';
import { useLayer, usePicture, useSize } from './use-layer.ts';
import type { Drawing } from './use-layer.ts';
import { usePanZoom } from './use-pan-zoom.ts';
import type { PanZoom } from './use-pan-zoom.ts';

interface Props {
  readonly fronts: readonly LoadedFront[];
  /** Ids of measures; null for no third. */
  readonly x: string;
  readonly y: string;
  readonly size: string | null;
  /** How the third measure shows; as size by default. */
  readonly thirdAs?: 'size' | 'shade';
  readonly height?: number;
  /** Where the part in sight is kept; by the plot itself if left out. */
  readonly looked?: Signal<Looked | null>;
  /** Staircases under the marks. */
  readonly steps?: readonly StepLine[];
}

/** The part in sight, and of what. */
type Looked = { readonly of: string; readonly view: PlotView };

/** How near the pointer must be to a point [px]. */
const REACH = 18;
const ARROWS: Readonly<Record<string, 'left' | 'right' | 'up' | 'down'>> = {
  ArrowLeft: 'left',
  ArrowRight: 'right',
  ArrowUp: 'up',
  ArrowDown: 'down',
};
const NO_STEPS: readonly StepLine[] = [];

export function ScatterPlot(props: Props): JSX.Element {
  const { fronts, x, y, size: third, thirdAs = 'size', height = 440, steps = NO_STEPS } = props;
  const frame = useRef<HTMLDivElement>(null);
  const ground = useRef<HTMLCanvasElement>(null);
  const top = useRef<HTMLCanvasElement>(null);
  const size = useSize(frame, () => height);
  // Another pair of measures or another front: all of it is in sight again. A front that grows is no other.
  const what = viewedOf(x, y, fronts);
  const ownView = useSignal<Looked | null>(null);
  const looked = props.looked ?? ownView;
  const seenOf = ({ of, view }: Looked): PlotView | null => (of === what ? view : null);
  const look = (view: PlotView): void => void (looked.value = { of: what, view });
  const data = useMemo(() => collectPoints(fronts, x, y, third), [x, y, third, ...fronts]);
  const fitted = useMemo(() => fitView(data), [data]);
  const info = (id: string | null) => fronts[0]?.front.measures.find((entry) => entry.id === id);

  // What a drawing needs, without names: they would be copied to the worker at every move.
  const points = useMemo(() => pointsOf(data), [data]);
  const sceneNow = (): ScatterScene => {
    const masks = fronts.map((front) => keptOf(front));
    return {
      data: points,
      view: (looked.value === null ? null : seenOf(looked.value)) ?? fitted,
      thirdAs,
      kept: points.series.map((front, i) => masks[front][data.rows[i]]),
      xInfo: info(x),
      yInfo: info(y),
      thirdInfo: info(third),
      steps,
      names: fronts.map(({ name }) => name),
    };
  };
  const ringsNow = (over: DesignKey | null): readonly Ring[] => {
    const chosen = new Set(selected.value);
    if (chosen.size === 0 && over === null) return [];
    return data.keys.flatMap((key, point) =>
      chosen.has(key) || key === over
        ? [{ point, id: data.ids[point], chosen: chosen.has(key) }]
        : [],
    );
  };
  const inputs = [data, fitted, thirdAs, steps];
  const readyGround = (): Picture => ({ kind: 'scatter', scene: sceneNow() });
  const readyTop = (): Drawing => {
    const scene = sceneNow();
    const rings = ringsNow(hovered.value);
    return (pen) => drawScatterTop(pen, scene, rings);
  };
  usePicture(ground, size, readyGround, inputs);
  useLayer(top, size, readyTop, inputs);

  const now = (): PlotView => {
    const known = looked.peek();
    return (known === null ? null : seenOf(known)) ?? fitted;
  };
  const inner = () => ({
    width: Math.max(1, size.peek().width - PLOT_MARGIN.left - PLOT_MARGIN.right),
    height: Math.max(1, size.peek().height - PLOT_MARGIN.top - PLOT_MARGIN.bottom),
  });
  const located = useRef<{ readonly of: readonly unknown[]; readonly cloud: Cloud<DesignKey> }>(
    null,
  );
  /** Where the designs in sight lie now; worked out when asked, not at every move. */
  const cloudNow = (): Cloud<DesignKey> => {
    const of = [data, now(), size.peek()];
    const known = located.current;
    if (known !== null && of.every((one, k) => one === known.of[k])) return known.cloud;
    const cloud = locatePoints(data, now(), size.peek());
    located.current = { of, cloud };
    return cloud;
  };
  const keyAt = (px: number, py: number): DesignKey | null => {
    const cloud = cloudNow();
    const found = nearestPoint(cloud, px, py, REACH);
    return found < 0 ? null : cloud.keys[found];
  };
  const hands = useRef<PanZoom>(null);
  hands.current = {
    pan: (dx, dy) => look(panView(now(), -dx / inner().width, dy / inner().height)),
    zoom: (factor, px, py) => {
      const shareX = (px - PLOT_MARGIN.left) / inner().width;
      const shareY = 1 - (py - PLOT_MARGIN.top) / inner().height;
      look(zoomView(now(), factor, shareX, shareY));
    },
    hover: (px, py) => (hovered.value = keyAt(px, py)),
    leave: () => (hovered.value = null),
    pick(px, py, adding) {
      const key = keyAt(px, py);
      if (key !== null) select(key, adding);
    },
  };
  usePanZoom(frame, hands);

  const onKeyDown = (event: KeyboardEvent): void => {
    const towards = ARROWS[event.key];
    if (towards !== undefined && event.shiftKey) {
      const [dx, dy] = { left: [-1, 0], right: [1, 0], up: [0, 1], down: [0, -1] }[towards];
      look(panView(now(), 0.1 * dx, 0.1 * dy));
    } else if (towards !== undefined) {
      const cloud = cloudNow();
      const { keys } = cloud;
      const from = Math.max(
        0,
        keys.findIndex((key) => key === hovered.value),
      );
      if (keys.length > 0) hovered.value = keys[pointTowards(cloud, from, towards)];
    } else if (event.key === 'Enter' || event.key === ' ') {
      if (hovered.value !== null) select(hovered.value, event.shiftKey || event.ctrlKey);
    } else if (event.key === '+' || event.key === '=') look(zoomView(now(), 0.8, 0.5, 0.5));
    else if (event.key === '-') look(zoomView(now(), 1.25, 0.5, 0.5));
    else if (event.key === '0') looked.value = null;
    else return;
    event.preventDefault();
  };
  const title = `${info(y)?.label ?? y} over ${info(x)?.label ?? x}`;
  return (
    <figure class="plot scatter">
      <div
        ref={frame}
        class="canvas layers"
        role="application"
        aria-roledescription="scatter plot"
        aria-label={`${data.keys.length} designs, ${title}. Arrow keys move between designs, Enter selects, with Shift they move the view; plus and minus look closer and farther, 0 shows all.`}
        tabIndex={0}
        onKeyDown={onKeyDown}
        onBlur={() => (hovered.value = null)}
      >
        <canvas ref={ground} style={{ height: `${height}px` }} />
        <canvas ref={top} class="top" style={{ height: `${height}px` }} />
      </div>
      <div class="plot-tools">
        <button type="button" onClick={() => look(zoomView(now(), 0.7, 0.5, 0.5))}>
          Closer
        </button>
        <button type="button" onClick={() => look(zoomView(now(), 1.4, 0.5, 0.5))}>
          Farther
        </button>
        <WholeFront
          whole={useComputed(() => looked.value?.of !== what)}
          show={() => (looked.value = null)}
        />
        <SavePlot
          title={title}
          size={() => size.peek()}
          picture={() => ({ kind: 'scatter', scene: sceneNow(), top: ringsNow(null) })}
        />
      </div>
      <HoverWords x={x} y={y} size={third} />
    </figure>
  );
}

/** A component of its own: only it is rendered anew when the view begins to differ. */
function WholeFront({
  whole,
  show,
}: {
  readonly whole: { readonly value: boolean };
  readonly show: () => void;
}): JSX.Element {
  return (
    <button type="button" disabled={whole.value} onClick={show}>
      Whole front
    </button>
  );
}

/** The design under the pointer in words. */
function HoverWords({ x, y, size }: Pick<Props, 'x' | 'y' | 'size'>): JSX.Element {
  const found = hovered.value === null ? null : lookUp(hovered.value);
  if (found === null) {
    return (
      <p class="hover-words soft">
        Drag moves the view; Shift with the wheel, or two fingers, looks closer.
      </p>
    );
  }
  const { loaded, design } = found;
  const parts = [x, y, ...(size === null ? [] : [size])].map((id) => {
    const j = loaded.front.measures.findIndex((entry) => entry.id === id);
    const entry = loaded.front.measures[j];
    const unit = entry === undefined || entry.unit === '-' ? '' : ` ${entry.unit}`;
    return `${entry?.label ?? id} ${figure(design.readings[j] ?? null)}${unit}`;
  });
  return (
    <p class="hover-words">
      <strong>{design.id}</strong> {parts.join(', ')}
    </p>
  );
}
