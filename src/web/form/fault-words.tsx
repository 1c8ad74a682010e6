/** Words beside a field: what it is for, and what is wrong with it. */
import type { JSX } from 'preact';
import { faultsAt } from '../state/brief.ts';
import { pathText } from './schema.ts';
import type { Path } from './schema.ts';

/** Faults right at a place, in plain words. */
export function FaultWords({ path }: { readonly path: Path }): JSX.Element | null {
  const found = faultsAt(pathText(path));
  if (found.length === 0) return null;
  return (
    <span class="fault-words" id={`fault-${pathText(path)}`}>
      {found.join(' ')}
    </span>
  );
}

export function Hint({ text }: { readonly text: string | undefined }): JSX.Element | null {
  return text === undefined ? null : <span class="hint">{text}</span>;
}
