/** Switching parts of the brief on, off and to another kind, without losing what was typed before. */
import { valueAt } from '../state/brief.ts';
import { beginWith } from './first-values.ts';
import { branchFor, branchesOf, isRecord, pathText } from './schema.ts';
import type { Node, Path } from './schema.ts';

/** What stood at a place before it was switched, as long as the page lives. */
const before = new Map<string, unknown>();

/** The value of a place switched on: as it was, else a first one. */
export function switchOn(node: Node, path: Path): unknown {
  return before.get(pathText(path)) ?? beginWith(node, path);
}

/** Keeps what stands at a place for later; undefined, which is what the place becomes. */
export function switchOff(path: Path): undefined {
  before.set(pathText(path), valueAt(path));
  return undefined;
}

/** The value of another branch of a union: as it was, else a first one with the values both know. */
export function otherKind(node: Node, path: Path, to: number): unknown {
  const branches = branchesOf(node);
  const value = valueAt(path) ?? node.default;
  before.set(`${pathText(path)}(${branchFor(node, value)})`, value);
  const known = before.get(`${pathText(path)}(${to})`);
  if (known !== undefined) return known;
  const first = beginWith(branches[to], path);
  if (!isRecord(first) || !isRecord(value)) return first;
  const shared = Object.entries(value).filter(
    ([key]) => key !== 'kind' && branches[to].properties?.[key] !== undefined,
  );
  return { ...first, ...Object.fromEntries(shared) };
}
