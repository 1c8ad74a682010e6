/** Numbers and texts of the brief. */
import { useEffect, useState } from 'preact/hooks';
import type { JSX } from 'preact';
import { faultsAt, putAt, valueAt } from '../state/brief.ts';
import { FaultWords, Hint } from './fault-words.tsx';
import { pathText } from './schema.ts';
import type { Node, Path } from './schema.ts';

interface Props {
  readonly node: Node;
  readonly path: Path;
  readonly label: string;
}

/** A number as its author types it: half-typed text stays in the field and never reaches the brief. */
export function NumberField({ node, path, label }: Props): JSX.Element {
  const id = pathText(path);
  const value = valueAt(path);
  const shown = typeof value === 'number' ? String(value) : '';
  const [text, setText] = useState(shown);
  useEffect(() => {
    if (Number(text) !== value || text === '') setText(shown);
  }, [shown]);
  const isWrong = faultsAt(id).length > 0 || (text !== '' && !Number.isFinite(Number(text)));
  return (
    <label class="field" for={id}>
      <span>{label}</span>
      <input
        id={id}
        type="text"
        inputMode="decimal"
        autocomplete="off"
        value={text}
        placeholder={typeof node.default === 'number' ? String(node.default) : ''}
        aria-invalid={isWrong}
        aria-describedby={isWrong ? `fault-${id}` : undefined}
        onInput={(event) => {
          const next = event.currentTarget.value.trim().replace(',', '.');
          setText(event.currentTarget.value);
          if (next === '') putAt(path, undefined);
          else if (Number.isFinite(Number(next))) putAt(path, Number(next));
        }}
      />
      <Hint text={node.description} />
      {text !== '' && !Number.isFinite(Number(text.replace(',', '.'))) ? (
        <span class="fault-words" id={`fault-${id}`}>
          &ldquo;{text}&rdquo; is no number.
        </span>
      ) : (
        <FaultWords path={path} />
      )}
    </label>
  );
}

export function TextField({ node, path, label }: Props): JSX.Element {
  const id = pathText(path);
  const value = valueAt(path) ?? node.default;
  return (
    <label class="field" for={id}>
      <span>{label}</span>
      <input
        id={id}
        type="text"
        autocomplete="off"
        value={typeof value === 'string' ? value : ''}
        aria-describedby={`fault-${id}`}
        onInput={(event) => putAt(path, event.currentTarget.value)}
      />
      <Hint text={node.description} />
      <FaultWords path={path} />
    </label>
  );
}
