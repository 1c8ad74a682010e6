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

/**
 * What a typed number means: the number, with decimal point or comma; undefined for nothing; else the
 * text itself, which the check of the brief will find fault with.
 *
 * @example readNumber('2,5') // 2.5
 */
export function readNumber(text: string): number | string | undefined {
  const plain = text.trim().replace('\u2212', '-').replace(',', '.');
  if (plain === '') return undefined;
  return /^[-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?$/iu.test(plain) ? Number(plain) : text;
}

/** How a value of the brief stands in its field. */
export function textOf(value: unknown): string {
  return typeof value === 'number' || typeof value === 'string' ? String(value) : '';
}

/** A number as its author types it; what is no number stays in the field, and in the brief as a fault. */
export function NumberField({ node, path, label }: Props): JSX.Element {
  const id = pathText(path);
  const value = valueAt(path);
  const [text, setText] = useState(textOf(value));
  useEffect(() => {
    // Changed from elsewhere: by the chart, an opened file, a row removed above.
    if (readNumber(text) !== value) setText(textOf(value));
  }, [value]);
  const isWrong = faultsAt(id).length > 0;
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <input
        id={id}
        type="text"
        inputMode="decimal"
        autocomplete="off"
        value={text}
        placeholder={typeof node.default === 'number' ? String(node.default) : ''}
        aria-invalid={isWrong}
        aria-describedby={`${isWrong ? `fault-${id} ` : ''}hint-${id}`}
        onInput={(event) => {
          setText(event.currentTarget.value);
          putAt(path, readNumber(event.currentTarget.value));
        }}
        onBlur={() => {
          const read = readNumber(text);
          if (typeof read === 'number') setText(String(read));
        }}
      />
      <Hint id={id} text={withRange(node)} />
      <FaultWords path={path} />
    </div>
  );
}

/** Words of a number, with what is allowed and what holds when it is left empty. */
function withRange({ description, minimum, maximum, default: usual }: Node): string | undefined {
  if (description === undefined) return undefined;
  const range = minimum === undefined || maximum === undefined ? '' : ` ${minimum} to ${maximum}`;
  const empty = typeof usual === 'number' ? `${range === '' ? ' ' : ', '}${usual} when empty` : '';
  return range === '' && empty === '' ? description : `${description}${range}${empty}.`;
}

export function TextField({ node, path, label }: Props): JSX.Element {
  const id = pathText(path);
  const value = valueAt(path) ?? node.default;
  const isWrong = faultsAt(id).length > 0;
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <input
        id={id}
        type="text"
        autocomplete="off"
        value={textOf(value)}
        aria-invalid={isWrong}
        aria-describedby={`${isWrong ? `fault-${id} ` : ''}hint-${id}`}
        onInput={(event) => putAt(path, event.currentTarget.value)}
      />
      <Hint id={id} text={node.description} />
      <FaultWords path={path} />
    </div>
  );
}
