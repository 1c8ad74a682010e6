/** One place of the brief as a field, made from its schema; unions, objects and lists hold further ones. */
import type { JSX } from 'preact';
import { putAt, valueAt } from '../state/brief.ts';
import { FaultWords, Hint } from './fault-words.tsx';
import { ListField } from './list-field.tsx';
import { NumberField, TextField } from './plain-fields.tsx';
import { branchFor, branchLabel, branchesOf, firstValue, labelOf, pathText } from './schema.ts';
import type { Node, Path } from './schema.ts';

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
  const at = branchFor(node, value);
  const id = pathText(path);
  return (
    <fieldset>
      <legend>{label}</legend>
      {branches.length < 2 ? null : (
        <label class="field" for={id}>
          <span>Kind</span>
          <select
            id={id}
            value={String(at)}
            onChange={(event) =>
              putAt(path, firstValue(branches[Number(event.currentTarget.value)]))
            }
          >
            {branches.map((branch, k) => (
              <option key={branchLabel(branch)} value={String(k)}>
                {branchLabel(branch)}
              </option>
            ))}
          </select>
        </label>
      )}
      <Hint text={node.description} />
      <FaultWords path={path} />
      {branches[at].type === 'object' ? (
        <Properties node={branches[at]} path={path} />
      ) : (
        <Field node={branches[at]} path={path} label="Value" />
      )}
    </fieldset>
  );
}

function ObjectField({ node, path, label = '' }: Props): JSX.Element {
  return (
    <fieldset>
      <legend>{label}</legend>
      <Hint text={node.description} />
      <FaultWords path={path} />
      <Properties node={node} path={path} />
    </fieldset>
  );
}

/** The fields of an object; those that may be left out for good come with a switch. */
export function Properties({ node, path }: Props): JSX.Element {
  const required = node.required ?? [];
  return (
    <>
      {Object.entries(node.properties ?? {}).map(([key, child]) => {
        const own = [...path, key];
        const isOptional = !required.includes(key) && child.default === undefined;
        if (!isOptional || child.const !== undefined)
          return <Field key={key} node={child} path={own} />;
        return <OptionalField key={key} node={child} path={own} />;
      })}
    </>
  );
}

function OptionalField({ node, path }: Props): JSX.Element {
  const isThere = valueAt(path) !== undefined;
  const label = labelOf(String(path.at(-1)));
  return (
    <div>
      <label class="switch">
        <input
          type="checkbox"
          checked={isThere}
          onChange={(event) =>
            putAt(path, event.currentTarget.checked ? firstValue(node) : undefined)
          }
        />{' '}
        {label}: {node.description ?? 'may be left out'}
      </label>
      {isThere ? <Field node={node} path={path} /> : null}
    </div>
  );
}

function ChoiceField({ node, path, label = '' }: Props): JSX.Element {
  const id = pathText(path);
  const options = node.enum ?? [];
  const value = valueAt(path) ?? node.default;
  return (
    <label class="field" for={id}>
      <span>{label}</span>
      <select
        id={id}
        value={String(value)}
        aria-describedby={`fault-${id}`}
        onChange={(event) => {
          const text = event.currentTarget.value;
          putAt(
            path,
            options.find((option) => String(option) === text),
          );
        }}
      >
        {options.map((option) => (
          <option key={option} value={String(option)}>
            {option}
          </option>
        ))}
      </select>
      <Hint text={node.description} />
      <FaultWords path={path} />
    </label>
  );
}

function SwitchField({ node, path, label = '' }: Props): JSX.Element {
  return (
    <label class="switch">
      <input
        type="checkbox"
        checked={(valueAt(path) ?? node.default) === true}
        onChange={(event) => putAt(path, event.currentTarget.checked)}
      />{' '}
      {label}: {node.description}
    </label>
  );
}
