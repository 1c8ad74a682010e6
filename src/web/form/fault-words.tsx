/** Words beside a field: what it is for, and what is wrong with it. */
import type { JSX } from 'preact';
import { faultsAt, faultsUnder, putAt, valueAt } from '../state/brief.ts';
import { isRecord, pathText } from './schema.ts';
import type { Node, Path } from './schema.ts';

/** Faults right at a place, in plain words. */
export function FaultWords({ path }: { readonly path: Path }): JSX.Element | null {
  const id = pathText(path);
  return <Words id={id} words={faultsAt(id)} />;
}

/** Faults at a place and at all that stands in it, where the parts have no fields of their own. */
export function FaultsWithin({ path }: { readonly path: Path }): JSX.Element | null {
  const id = pathText(path);
  return <Words id={id} words={faultsUnder(id).map(({ message }) => message)} />;
}

function Words({
  id,
  words,
}: {
  readonly id: string;
  readonly words: readonly string[];
}): JSX.Element | null {
  if (words.length === 0) return null;
  return (
    <span class="fault-words" id={`fault-${id}`}>
      {words.join(' ')}
    </span>
  );
}

/** Keys that the format does not know, and marks of the file that are wrong: told, with a way out. */
export function StrangeKeys({
  node,
  path,
}: {
  readonly node: Node;
  readonly path: Path;
}): JSX.Element | null {
  const value = valueAt(path);
  if (!isRecord(value)) return null;
  const known = node.properties ?? {};
  const strange = Object.keys(value).filter((key) => !(key in known) && !key.startsWith('//'));
  const marks = Object.keys(known).filter(
    (key) => key !== 'kind' && known[key].const !== undefined && value[key] !== known[key].const,
  );
  return (
    <>
      {marks.map((key) => (
        <Mend
          key={key}
          path={[...path, key]}
          words={`Make it ${JSON.stringify(known[key].const)}`}
          mend={() => putAt([...path, key], known[key].const)}
        />
      ))}
      {strange.map((key) => (
        <Mend
          key={key}
          path={[...path, key]}
          words={`Remove ${key}`}
          mend={() => putAt([...path, key], undefined)}
        />
      ))}
    </>
  );
}

function Mend({
  path,
  words,
  mend,
}: {
  readonly path: Path;
  readonly words: string;
  readonly mend: () => void;
}): JSX.Element {
  return (
    <p class="mend">
      <FaultWords path={path} />
      <button type="button" id={pathText(path)} onClick={mend}>
        {words}
      </button>
    </p>
  );
}

export function Hint({
  text,
  id,
}: {
  readonly text: string | undefined;
  /** Place of the field that is described, if the words belong to one. */
  readonly id?: string;
}): JSX.Element | null {
  if (text === undefined) return null;
  return (
    <span class="hint" id={id === undefined ? undefined : `hint-${id}`}>
      {text}
    </span>
  );
}
