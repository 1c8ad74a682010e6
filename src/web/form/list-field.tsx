/** Lists of the brief: choices to tick, names in order, rows of numbers. */
import type { JSX } from 'preact';
import { putAt, valueAt } from '../state/brief.ts';
import { FaultWords, FaultsWithin, Hint, StrangeKeys } from './fault-words.tsx';
import { nextEntry } from './first-values.ts';
import { optionWords } from './option-words.ts';
import { NumberField } from './plain-fields.tsx';
import { pathText } from './schema.ts';
import type { Node, Path } from './schema.ts';

interface Props {
  readonly node: Node;
  readonly path: Path;
  readonly label: string;
  /** Draws one entry; handed in, since entries may hold lists again. */
  readonly Entry: (props: {
    readonly node: Node;
    readonly path: Path;
    readonly label?: string;
  }) => JSX.Element | null;
}

/** So many options are ticked; more are picked from a list, one after the other. */
const MOST_TICKS = 10;
/** Longer lists can only come from a file that is wrong anyway; the rest of them is not drawn. */
const MOST_ROWS = 200;

export function ListField({ node, path, label, Entry }: Props): JSX.Element {
  const options = node.items?.enum ?? [];
  const ticked = options.length > 0 && options.length <= MOST_TICKS;
  return (
    <fieldset id={pathText(path)} tabIndex={-1}>
      <legend>{label}</legend>
      <Hint text={node.description} />
      {ticked ? <FaultsWithin path={path} /> : <FaultWords path={path} />}
      {node.prefixItems !== undefined ? (
        <div class="rows">
          <RowField node={node} path={path} at={0} Entry={Entry} />
        </div>
      ) : ticked ? (
        <Ticks node={node} path={path} options={options} />
      ) : (
        <Rows node={node} path={path} Entry={Entry} />
      )}
    </fieldset>
  );
}

function entriesAt(node: Node, path: Path): readonly unknown[] {
  const value = valueAt(path) ?? node.default;
  return Array.isArray(value) ? value : [];
}

function Ticks({
  node,
  path,
  options,
}: {
  readonly node: Node;
  readonly path: Path;
  readonly options: readonly (string | number)[];
}): JSX.Element {
  const chosen = entriesAt(node, path);
  return (
    <div class="ticks">
      {options.map((option) => (
        <label key={option} class="switch">
          <input
            type="checkbox"
            checked={chosen.includes(option)}
            onChange={(event) =>
              putAt(
                path,
                // In the order of the options, whatever the order of ticking.
                options.filter((other) =>
                  other === option ? event.currentTarget.checked : chosen.includes(other),
                ),
              )
            }
          />
          <span>{optionWords(String(path.at(-1)), option)}</span>
        </label>
      ))}
    </div>
  );
}

function Rows({ node, path, Entry }: Omit<Props, 'label'>): JSX.Element {
  const entries = entriesAt(node, path);
  const items = node.items ?? {};
  const put = (next: readonly unknown[]): void => putAt(path, next);
  const full = node.maxItems !== undefined && entries.length >= node.maxItems;
  return (
    <>
      <ol class="rows">
        {entries.slice(0, MOST_ROWS).map((_, i) => (
          // Rows have no name of their own; their place is what stays.
          // oxlint-disable-next-line react/no-array-index-key
          <li key={i}>
            <RowField node={items} path={[...path, i]} at={i} Entry={Entry} />
            <button
              type="button"
              class="remove"
              aria-label={`Remove row ${i + 1}`}
              title="Remove"
              disabled={entries.length <= (node.minItems ?? 0)}
              onClick={() => put(entries.filter((__, k) => k !== i))}
            >
              &times;
            </button>
            {items.type === 'object' || items.prefixItems !== undefined ? (
              <FaultWords path={[...path, i]} />
            ) : null}
          </li>
        ))}
      </ol>
      {entries.length > MOST_ROWS ? (
        <p class="hint">... and {entries.length - MOST_ROWS} more rows, not drawn.</p>
      ) : null}
      <button
        type="button"
        id={`add-${pathText(path)}`}
        disabled={full}
        onClick={() => put([...entries, nextEntry(node, path, entries)])}
      >
        Add a row
      </button>
    </>
  );
}

function RowField({
  node,
  path,
  at,
  Entry,
}: Omit<Props, 'label'> & { readonly at: number }): JSX.Element {
  if (node.prefixItems !== undefined) {
    return (
      <>
        {node.prefixItems.map((child, k) => (
          <NumberField
            key={child.description ?? k}
            node={withoutWords(child)}
            path={[...path, k]}
            label={child.description?.replace(/\.$/, '') ?? String(k + 1)}
          />
        ))}
      </>
    );
  }
  if (node.type === 'object') {
    return (
      <>
        <StrangeKeys node={node} path={path} />
        {Object.entries(node.properties ?? {}).map(([key, child]) => (
          <Entry key={key} node={child} path={[...path, key]} />
        ))}
      </>
    );
  }
  return <Entry node={node} path={path} label={String(at + 1)} />;
}

/** A node without its description: rows are short. */
function withoutWords(node: Node): Node {
  return Object.fromEntries(Object.entries(node).filter(([key]) => key !== 'description'));
}
