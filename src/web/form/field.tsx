/** One place of the brief as a field, made from its schema; unions, objects and lists hold further ones. */
import type { JSX } from 'preact';
import { faultsAt, putAt, valueAt } from '../state/brief.ts';
import { measureInfos } from '../state/measure-infos.ts';
import { FaultWords, Hint, StrangeKeys } from './fault-words.tsx';
import { ListField } from './list-field.tsx';
import { optionWords } from './option-words.ts';
import { NumberField, TextField, textOf } from './plain-fields.tsx';
import { branchFor, branchLabel, branchesOf, kindOf, labelOf, pathText } from './schema.ts';
import type { Node, Path } from './schema.ts';
import { otherKind, switchOff, switchOn } from './switches.ts';

interface Props {
  readonly node: Node;
  readonly path: Path;
  /** Label; the last step of the path in words when left out. */
  readonly label?: string;
}

export function Field({
  node,
  path,
  label = labelOf(String(path.at(-1))),
}: Props): JSX.Element | null {
  if (node.const !== undefined) return null;
  if (node.oneOf !== undefined || node.anyOf !== undefined) {
    return <UnionField node={node} path={path} label={label} />;
  }
  if (node.enum !== undefined) return <ChoiceField node={node} path={path} label={label} />;
  switch (node.type) {
    case 'object':
      return <ObjectField node={node} path={path} label={label} />;
    case 'array':
      return <ListField node={node} path={path} label={label} Entry={Field} />;
    case 'number':
    case 'integer':
      return <NumberField node={node} path={path} label={label} />;
    case 'boolean':
      return <SwitchField node={node} path={path} label={label} />;
    default:
      return <TextField node={node} path={path} label={label} />;
  }
}

function UnionField({ node, path, label = '' }: Props): JSX.Element {
  const value = valueAt(path) ?? node.default;
  const branches = branchesOf(node);
  const found = branchFor(node, value);
  const branch = branches[found];
  const id = pathText(path);
  const key = String(path.at(-1));
  const kindPath = [...path, 'kind'];
  const isWrong = faultsAt(pathText(kindPath)).length > 0 || found < 0;
  return (
    <fieldset>
      <legend>{label}</legend>
      <Hint text={node.description} />
      <div class="field wide">
        <label for={id}>{labelOf(key).replace(/ \[.*\]$/u, '')} is</label>
        <select
          id={id}
          value={String(found)}
          aria-invalid={isWrong}
          aria-describedby={isWrong ? `fault-${pathText(kindPath)}` : undefined}
          onChange={(event) =>
            putAt(path, otherKind(node, path, Number(event.currentTarget.value)))
          }
        >
          {found >= 0 ? null : <option value="-1">not chosen yet</option>}
          {branches.map((one, k) => {
            const kind = kindOf(one);
            const words = kind === null ? branchLabel(one) : optionWords(key, kind);
            return (
              <option key={words} value={String(k)}>
                {words}
              </option>
            );
          })}
        </select>
        <FaultWords path={kindPath} />
      </div>
      <FaultWords path={path} />
      {branch === undefined ? null : branch.type === 'object' ? (
        <Properties node={branch} path={path} />
      ) : (
        <Field node={withoutWords(branch)} path={path} label={label} />
      )}
    </fieldset>
  );
}

/** A branch says the words of its union over again. */
function withoutWords(node: Node): Node {
  return Object.fromEntries(Object.entries(node).filter(([key]) => key !== 'description'));
}

function ObjectField({ node, path, label = '' }: Props): JSX.Element {
  return (
    <fieldset>
      <legend>{label}</legend>
      <Hint text={path.length > 1 ? node.description : undefined} />
      <FaultWords path={path} />
      <Properties node={node} path={path} />
    </fieldset>
  );
}

/** The fields of an object; those that may be left out for good come with a switch. */
function Properties({ node, path }: Props): JSX.Element {
  const required = node.required ?? [];
  return (
    <>
      <StrangeKeys node={node} path={path} />
      {Object.entries(node.properties ?? {}).map(([key, child]) => {
        const own = [...path, key];
        const isOptional = !required.includes(key) && child.default === undefined;
        if (!isOptional || child.const !== undefined || isYesOrNo(child))
          return <Field key={key} node={child} path={own} />;
        return <OptionalField key={key} node={child} path={own} />;
      })}
    </>
  );
}

/** Left out means no: one switch says both. */
function isYesOrNo(node: Node): boolean {
  return node.type === 'boolean';
}

function OptionalField({ node, path }: Props): JSX.Element {
  const isThere = valueAt(path) !== undefined;
  const label = labelOf(String(path.at(-1)));
  return (
    <div class="optional">
      <label class="switch">
        <input
          type="checkbox"
          checked={isThere}
          onChange={(event) =>
            putAt(path, event.currentTarget.checked ? switchOn(node, path) : switchOff(path))
          }
        />
        <span>
          {label.replace(/ \[.*\]$/u, '')}
          {isThere ? '' : <span class="hint"> {node.description ?? 'may be left out'}</span>}
        </span>
      </label>
      {isThere ? <Field node={node} path={path} /> : null}
    </div>
  );
}

function ChoiceField({ node, path, label = '' }: Props): JSX.Element {
  const id = pathText(path);
  const options = node.enum ?? [];
  const value = valueAt(path) ?? node.default;
  const isKnown = options.some((option) => option === value);
  const isWrong = faultsAt(id).length > 0;
  const key = String(path.findLast((step) => typeof step === 'string'));
  const info = measureInfos.value.get(String(value));
  const isShort = options.every((option) => typeof option === 'number');
  return (
    <div class={`field ${isShort ? '' : 'wide'}`}>
      <label for={id}>{label}</label>
      <select
        id={id}
        value={isKnown ? String(value) : ''}
        aria-invalid={isWrong}
        aria-describedby={`${isWrong ? `fault-${id} ` : ''}hint-${id}`}
        onChange={(event) => {
          const text = event.currentTarget.value;
          putAt(
            path,
            options.find((option) => String(option) === text),
          );
        }}
      >
        {isKnown ? null : <option value="">{textOf(value)}</option>}
        {options.map((option) => (
          <option key={option} value={String(option)}>
            {optionWords(key, option)}
          </option>
        ))}
      </select>
      {info === undefined ? (
        <Hint id={id} text={node.description} />
      ) : (
        <span class="better" id={`hint-${id}`}>
          {info.better} is better
        </span>
      )}
      <FaultWords path={path} />
    </div>
  );
}

function SwitchField({ node, path, label = '' }: Props): JSX.Element {
  return (
    <div>
      <label class="switch">
        <input
          id={pathText(path)}
          type="checkbox"
          checked={(valueAt(path) ?? node.default) === true}
          onChange={(event) => putAt(path, event.currentTarget.checked)}
        />
        <span>
          {label} <span class="hint">{node.description}</span>
        </span>
      </label>
      <FaultWords path={path} />
    </div>
  );
}
