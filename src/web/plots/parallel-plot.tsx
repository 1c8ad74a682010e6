/** Parallel coordinates of any number of measures; ranges are dragged on the axes or moved by keys. */
import type { JSX } from 'preact';
import { useMemo, useRef } from 'preact/hooks';
import { AxisHandles } from '../parts/axis-handles.tsx';
import { SavePlot } from '../parts/save-plot.tsx';
import { hovered, ranges, select, selected } from '../state/fronts.ts';
import type { LoadedFront } from '../state/fronts.ts';
import { brushing, dropRange, keepRange, keptOf } from '../state/kept.ts';
import {
  axisAt,
  beginBrush,
  brushTo,
  heightAt,
  layAxes,
  leastWidth,
  linesOf,
  nearestLine,
  valueAt,
} from './parallel-data.ts';
import type { Brush } from './parallel-data.ts';
import { drawParallelAxes, drawParallelTop } from './parallel-draw.ts';
import type { Picture } from './pictures.ts';
import { rowOf } from './rows.ts';
import { useLayer, usePicture, useSize } from './use-layer.ts';
import type { Drawing } from './use-layer.ts';
import { isAtRest } from './use-pan-zoom.ts';

interface Props {
  readonly loaded: LoadedFront;
  /** Measures in the order of the axes. */
  readonly ids: readonly string[];
  readonly height?: number;
}

const REACH = 14;

function at(event: PointerEvent): readonly [number, number] {
  const box = (event.currentTarget as HTMLElement).getBoundingClientRect();
  return [event.clientX - box.x, event.clientY - box.y];
}

export function ParallelPlot({ loaded, ids, height = 400 }: Props): JSX.Element {
  const frame = useRef<HTMLDivElement>(null);
  const ground = useRef<HTMLCanvasElement>(null);
  const top = useRef<HTMLCanvasElement>(null);
  const size = useSize(frame, () => height);
  const { front } = loaded;
  const names = useMemo(() => front.designs.map(({ id }) => id), [front]);
  const order = ids.join();
  const width = size.value.width;
  const scene = useMemo(() => layAxes(front, ids, width, height), [front, order, width, height]);
  const lines = useMemo(() => linesOf(scene), [scene]);

  const readyGround = (): Picture => ({ kind: 'parallel', scene, kept: keptOf(loaded) });
  const chosenRows = (): ReadonlyMap<number, string> => {
    const rows = selected.value.map((key) => rowOf(loaded, key)).filter((row) => row >= 0);
    return new Map(rows.map((row) => [row, names[row]]));
  };
  const readyTop = (): Drawing => {
    const chosen = chosenRows();
    const over = rowOf(loaded, hovered.value);
    const bounds = ranges.value;
    return (pen) => {
      drawParallelAxes(pen, scene, bounds);
      drawParallelTop(pen, lines, chosen, over, names[over] ?? '');
    };
  };
  usePicture(ground, size, readyGround, [scene, loaded]);
  useLayer(top, size, readyTop, [lines, loaded]);

  const brush = useRef<{ brush: Brush; axis: number; y: number; moved: boolean } | null>(null);
  // Whether the pointer, not the keyboard, chose what is looked at.
  const pointed = useRef(false);
  const rowAt = (x: number, y: number): number => {
    const kept = keptOf(loaded);
    return nearestLine(lines, x, y, REACH, (row) => kept[row] === 1);
  };
  const onPointerDown = (event: PointerEvent): void => {
    if (event.button !== 0) return;
    const [x, y] = at(event);
    const axis = axisAt(scene, x);
    if (axis < 0) return;
    const column = scene.columns[axis];
    const range = ranges.value[column.info.id] ?? null;
    brush.current = { brush: beginBrush(scene, column, range, y), axis, y, moved: false };
    (event.currentTarget as HTMLElement).setPointerCapture(event.pointerId);
  };
  const onPointerMove = (event: PointerEvent): void => {
    const [x, y] = at(event);
    const held = brush.current;
    if (held === null) {
      if (isAtRest(event)) return;
      pointed.current = true;
      const row = rowAt(x, y);
      hovered.value = row < 0 ? null : `${loaded.id}/${names[row]}`;
      return;
    }
    if (!held.moved && Math.abs(y - held.y) < 3) return;
    held.moved = true;
    brushing.value = true;
    const column = scene.columns[held.axis];
    const [low, high] = brushTo(held.brush, column, valueAt(scene, column, y));
    keepRange(loaded, column.info.id, low, high);
  };
  const onPointerLeave = (): void => {
    if (pointed.current) hovered.value = null;
    pointed.current = false;
  };
  const letGo = (): void => {
    brush.current = null;
    brushing.value = false;
  };
  const onPointerUp = (event: PointerEvent): void => {
    const held = brush.current;
    letGo();
    if (held?.moved === true) return;
    const [x, y] = at(event);
    const row = rowAt(x, y);
    if (row >= 0) select(`${loaded.id}/${names[row]}`, event.shiftKey || event.ctrlKey);
    else if (held !== null) dropRange(scene.columns[held.axis].info.id);
  };
  const title = `${front.designs.length} designs over ${scene.columns.length} measures`;
  return (
    <figure class="plot parallel">
      <div class="sideways">
        <div ref={frame} class="canvas layers" style={{ minWidth: `${leastWidth(ids.length)}px` }}>
          <div
            class="brushes"
            role="img"
            aria-label={`${title}: ${scene.columns.map(({ info }) => info.label).join(', ')}. The ends of the ranges are sliders on the axes.`}
            onPointerDown={onPointerDown}
            onPointerMove={onPointerMove}
            onPointerUp={onPointerUp}
            onPointerCancel={letGo}
            onPointerLeave={onPointerLeave}
          >
            <canvas ref={ground} style={{ height: `${height}px` }} />
            <canvas ref={top} class="top" style={{ height: `${height}px` }} />
            {scene.x.map((x) => (
              <span key={x} class="axis-strip" style={{ left: `${x}px` }} />
            ))}
          </div>
          {scene.columns.map((column, k) =>
            column.low === column.high ? null : (
              <AxisHandles
                key={column.info.id}
                loaded={loaded}
                column={column}
                x={scene.x[k]}
                heightOf={(value) => heightAt(scene, column, value)}
              />
            ),
          )}
        </div>
      </div>
      <div class="plot-tools">
        <span class="soft">Drag on an axis to keep a range; click a line to select it.</span>
        <SavePlot
          title={`Parallel coordinates of ${loaded.name}`}
          size={() => size.peek()}
          picture={() => ({
            kind: 'parallel',
            scene,
            kept: keptOf(loaded),
            top: { ranges: ranges.value, chosen: chosenRows() },
          })}
        />
      </div>
    </figure>
  );
}
