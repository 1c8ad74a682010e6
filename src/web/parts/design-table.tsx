/**
 * Designs of a front as rows: objectives, measures chosen besides, origin. Only rows in sight stand
 * in the document, so five thousand designs cost no more than fifty.
 */
import { useComputed, useSignal } from '@preact/signals';
import type { JSX } from 'preact';
import { useEffect, useMemo, useRef } from 'preact/hooks';
import { columnsOf, nameOf } from '../plots/columns.ts';
import type { Column } from '../plots/columns.ts';
import { rowOf } from '../plots/rows.ts';
import { hovered, select, selected } from '../state/fronts.ts';
import type { DesignKey, LoadedFront } from '../state/fronts.ts';
import { keptOf, settledRanges } from '../state/kept.ts';
import { figure } from '../state/words.ts';
import { sortedRows, windowOf } from './table-window.ts';
import type { RowWindow } from './table-window.ts';
import { Star } from './star.tsx';

interface Props {
  readonly loaded: LoadedFront;
  /** Measures shown as columns; the objectives by default. */
  readonly ids?: readonly string[];
}

const NO_VALUES = new Float64Array(0);

export function DesignTable({ loaded, ids = loaded.front.objectives }: Props): JSX.Element {
  const { front } = loaded;
  const scroller = useRef<HTMLDivElement>(null);
  const body = useRef<HTMLTableSectionElement>(null);
  const sorted = useSignal<{ readonly id: string; readonly down: boolean }>({
    id: front.objectives[0],
    down: false,
  });
  const rowHeight = useSignal(30);
  const shown = useSignal<RowWindow>({ from: 0, to: 60 });
  const known = columnsOf(front);
  const columns = ids.flatMap((id) => known.get(id) ?? []);
  // Sorting and laying rows out takes longer than a frame: not while a range is dragged.
  const kept = keptOf(loaded, settledRanges.value);
  const { id: by, down } = sorted.value;
  const rows = useMemo(
    () => sortedRows(known.get(by)?.values ?? NO_VALUES, kept, down),
    [known, kept, by, down],
  );
  /** The row that Tab comes to. */
  const current = useSignal<DesignKey | null>(null);

  const renew = (): void => {
    const element = scroller.current;
    if (element === null) return;
    const next = windowOf(rows.length, rowHeight.value, element.scrollTop, element.clientHeight);
    const { from, to } = shown.value;
    if (next.from !== from || next.to !== to) shown.value = next;
  };
  useEffect(() => {
    const row = body.current?.querySelector('tr[aria-rowindex]');
    if (row instanceof HTMLElement && row.offsetHeight > 0) rowHeight.value = row.offsetHeight;
    renew();
  });
  const reveal = (place: number): void => {
    const element = scroller.current;
    if (element === null || place < 0) return;
    // The head sticks to the top and covers a row and a half.
    const head = 1.6 * rowHeight.value;
    const top = place * rowHeight.value;
    const seen = element.clientHeight - head - rowHeight.value;
    if (top < element.scrollTop) element.scrollTop = top;
    else if (top > element.scrollTop + seen) element.scrollTop = top - seen;
    renew();
  };
  // A design selected elsewhere comes into sight.
  const last = selected.value.at(-1) ?? null;
  useEffect(() => {
    if (last === null) return;
    const row = rowOf(loaded, last);
    reveal(rows.indexOf(row));
    if (row >= 0) current.value = last;
  }, [last]);

  const keyAt = (place: number): DesignKey => `${loaded.id}/${front.designs[rows[place]].id}`;
  const place = Math.max(0, rows.indexOf(rowOf(loaded, current.value)));
  const onKeyDown = (event: KeyboardEvent): void => {
    const page = 10;
    const steps: Readonly<Record<string, number>> = {
      ArrowDown: 1,
      ArrowUp: -1,
      PageDown: page,
      PageUp: -page,
      Home: -rows.length,
      End: rows.length,
    };
    const step = steps[event.key];
    if (step === undefined || rows.length === 0) return;
    event.preventDefault();
    const next = Math.min(rows.length - 1, Math.max(0, place + step));
    current.value = keyAt(next);
    hovered.value = current.value;
    reveal(next);
    const focus = (): boolean => {
      const button = body.current?.querySelector<HTMLElement>(
        `tr[aria-rowindex="${next + 2}"] button`,
      );
      button?.focus();
      return button !== null && button !== undefined;
    };
    // After a long way the row may only now come into the document.
    if (!focus()) requestAnimationFrame(focus);
  };
  const from = Math.min(shown.value.from, rows.length);
  const to = Math.min(shown.value.to, rows.length);
  const room = (count: number): JSX.Element | null =>
    count === 0 ? null : (
      <tr aria-hidden="true" class="room">
        <td colSpan={columns.length + 3} style={{ height: `${count * rowHeight.value}px` }} />
      </tr>
    );
  return (
    <div
      ref={scroller}
      class="scroll designs"
      tabIndex={0}
      role="region"
      aria-label="Designs of the front"
      onScroll={renew}
    >
      <table aria-rowcount={rows.length + 1}>
        <thead>
          <tr aria-rowindex={1}>
            <th scope="col">Design</th>
            {columns.map(({ info }) => {
              const own = by === info.id;
              return (
                <th
                  key={info.id}
                  scope="col"
                  class="n"
                  aria-sort={own ? (down ? 'descending' : 'ascending') : 'none'}
                >
                  <button
                    type="button"
                    class="bare"
                    title={`${info.better} is better`}
                    onClick={() => (sorted.value = { id: info.id, down: own && !down })}
                  >
                    {nameOf(info)}
                    {own ? <span aria-hidden="true">{down ? ' ↓' : ' ↑'}</span> : null}
                  </button>
                </th>
              );
            })}
            <th scope="col">Origin</th>
            <th scope="col">Star</th>
          </tr>
        </thead>
        <tbody ref={body} onKeyDown={onKeyDown}>
          {room(from)}
          {rows.slice(from, to).map((row, k) => (
            <Row
              key={front.designs[row].id}
              loaded={loaded}
              row={row}
              place={from + k}
              columns={columns}
              isStop={from + k === place}
            />
          ))}
          {room(rows.length - to)}
        </tbody>
      </table>
    </div>
  );
}

interface RowProps {
  readonly loaded: LoadedFront;
  /** Place in the front, and in the table as sorted. */
  readonly row: number;
  readonly place: number;
  readonly columns: readonly Column[];
  readonly isStop: boolean;
}

function Row({ loaded, row, place, columns, isStop }: RowProps): JSX.Element {
  const design = loaded.front.designs[row];
  const key: DesignKey = `${loaded.id}/${design.id}`;
  // Signals as attributes: hovering changes a class, and renders no row anew.
  const chosen = useComputed(() => (selected.value.includes(key) ? 'true' : 'false'));
  const look = useComputed(
    () => `${chosen.value === 'true' ? 'chosen' : ''} ${hovered.value === key ? 'hovered' : ''}`,
  );
  return (
    <tr
      class={look}
      aria-rowindex={place + 2}
      onPointerEnter={() => (hovered.value = key)}
      onPointerLeave={() => {
        if (hovered.value === key) hovered.value = null;
      }}
    >
      <th scope="row">
        <button
          type="button"
          class="bare"
          tabIndex={isStop ? 0 : -1}
          aria-pressed={chosen}
          onClick={(event) => select(key, event.shiftKey || event.ctrlKey)}
        >
          {design.id}
        </button>
      </th>
      {columns.map(({ info, values }) => (
        <td key={info.id} class="n">
          {figure(Number.isNaN(values[row]) ? null : values[row])}
        </td>
      ))}
      <td>{design.origin}</td>
      <td>
        <Star of={key} tabIndex={isStop ? 0 : -1} />
      </td>
    </tr>
  );
}
