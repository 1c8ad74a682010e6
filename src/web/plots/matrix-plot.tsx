/** The scatter matrix: every pair of the objectives and of measures chosen besides. */
import { useSignal } from '@preact/signals';
import type { JSX } from 'preact';
import { useMemo, useRef } from 'preact/hooks';
import { SavePlot } from '../parts/save-plot.tsx';
import { hovered, select, selected } from '../state/fronts.ts';
import type { LoadedFront } from '../state/fronts.ts';
import { keptOf } from '../state/kept.ts';
import { cellAt, cellPoints, layMatrix, matrixHeight } from './matrix-data.ts';
import { drawMatrixTop } from './matrix-draw.ts';
import type { Picture } from './pictures.ts';
import { nearestPoint, pointTowards } from './point-cloud.ts';
import { rowOf } from './rows.ts';
import { useLayer, usePicture, useSize } from './use-layer.ts';
import type { Drawing } from './use-layer.ts';
import { isAtRest } from './use-pan-zoom.ts';

interface Props {
  readonly loaded: LoadedFront;
  readonly ids: readonly string[];
}

const REACH = 12;
const LEAST_WIDTH = 110;
const ARROWS: Readonly<Record<string, 'left' | 'right' | 'up' | 'down'>> = {
  ArrowLeft: 'left',
  ArrowRight: 'right',
  ArrowUp: 'up',
  ArrowDown: 'down',
};

export function MatrixPlot({ loaded, ids }: Props): JSX.Element {
  const frame = useRef<HTMLDivElement>(null);
  const ground = useRef<HTMLCanvasElement>(null);
  const top = useRef<HTMLCanvasElement>(null);
  const { front } = loaded;
  const order = ids.join();
  const size = useSize(frame, (width) => matrixHeight(ids.length, width), [ids.length]);
  const { width, height } = size.value;
  const scene = useMemo(() => layMatrix(front, ids, width, height), [front, order, width, height]);
  const clouds = useMemo(
    () =>
      scene.cells.map((cell) => ({
        keys: front.designs.map(({ id }): `${string}/${string}` => `${loaded.id}/${id}`),
        ...cellPoints(scene, cell),
      })),
    [scene, loaded.id],
  );
  /** The cell that arrow keys move in. */
  const current = useSignal(0);

  const chosenRows = (): number[] =>
    selected.value.map((key) => rowOf(loaded, key)).filter((row) => row >= 0);
  const readyGround = (): Picture => ({ kind: 'matrix', scene, kept: keptOf(loaded) });
  const readyTop = (): Drawing => {
    const chosen = chosenRows();
    const over = rowOf(loaded, hovered.value);
    return (pen) => drawMatrixTop(pen, scene, chosen, over);
  };
  usePicture(ground, size, readyGround, [scene, loaded]);
  useLayer(top, size, readyTop, [scene, loaded]);

  const keyAt = (event: MouseEvent) => {
    const box = (event.currentTarget as HTMLElement).getBoundingClientRect();
    const [x, y] = [event.clientX - box.x, event.clientY - box.y];
    const cell = cellAt(scene, x, y);
    if (cell < 0) return null;
    const found = nearestPoint(clouds[cell], x, y, REACH);
    return found < 0 ? null : clouds[cell].keys[found];
  };
  // Whether the pointer, not the keyboard, chose what is looked at.
  const pointed = useRef(false);
  const onKeyDown = (event: KeyboardEvent): void => {
    const towards = ARROWS[event.key];
    const cloud = clouds[current.value];
    if (cloud === undefined) return;
    if (towards !== undefined) {
      const from = Math.max(0, rowOf(loaded, hovered.value));
      if (cloud.keys.length > 0) hovered.value = cloud.keys[pointTowards(cloud, from, towards)];
    } else if (event.key === 'PageDown') current.value = (current.value + 1) % clouds.length;
    else if (event.key === 'PageUp') {
      current.value = (current.value + clouds.length - 1) % clouds.length;
    } else if (event.key === 'Enter' || event.key === ' ') {
      if (hovered.value !== null) select(hovered.value, event.shiftKey || event.ctrlKey);
    } else return;
    event.preventDefault();
  };
  const cell = scene.cells[current.value] ?? scene.cells[0];
  const pair =
    cell === undefined
      ? ''
      : `${scene.columns[cell.up].info.label} over ${scene.columns[cell.across].info.label}`;
  return (
    <figure class="plot matrix">
      <div class="sideways">
        <div
          ref={frame}
          class="canvas layers"
          style={{ minWidth: `${ids.length * LEAST_WIDTH}px` }}
          role="application"
          aria-roledescription="scatter matrix"
          aria-label={`Scatter matrix of ${ids.length} measures, now at ${pair}. Arrow keys move between designs, Page Up and Page Down between pairs, Enter selects.`}
          tabIndex={0}
          onKeyDown={onKeyDown}
          onBlur={() => (hovered.value = null)}
          onPointerMove={(event) => {
            if (isAtRest(event)) return;
            pointed.current = true;
            hovered.value = keyAt(event);
          }}
          onPointerLeave={() => {
            if (pointed.current) hovered.value = null;
            pointed.current = false;
          }}
          onClick={(event) => {
            const key = keyAt(event);
            if (key !== null) select(key, event.shiftKey || event.ctrlKey);
          }}
        >
          <canvas ref={ground} style={{ height: `${height}px` }} />
          <canvas ref={top} class="top" style={{ height: `${height}px` }} />
        </div>
      </div>
      <div class="plot-tools">
        <SavePlot
          title={`Scatter matrix of ${loaded.name}`}
          size={() => size.peek()}
          picture={() => ({ kind: 'matrix', scene, kept: keptOf(loaded), top: chosenRows() })}
        />
      </div>
    </figure>
  );
}
