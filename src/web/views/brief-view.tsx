/** The brief: form, sketch, plain words; examples, files in and out. */
import { signal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { JSX } from 'preact';
import { BriefSketch } from '../form/brief-sketch.tsx';
import { BriefWords } from '../form/brief-words.tsx';
import { FanChart } from '../form/fan-chart.tsx';
import { Field } from '../form/field.tsx';
import type { Node } from '../form/schema.ts';
import { EXAMPLES, takeExample, takeText, written } from '../state/brief.ts';
import { desk } from '../state/desk.ts';
import { download } from '../state/hand-over.ts';
import { tell, wordsOf } from '../state/notices.ts';

const schema = signal<Node | null>(null);

/** Parts of the form in the order of the job; those open from the start first. */
const PARTS: readonly { readonly key: string; readonly title: string; readonly open: boolean }[] = [
  { key: 'plate', title: 'Plate', open: true },
  { key: 'air', title: 'Air and fan', open: true },
  { key: 'goals', title: 'Goals and limits', open: true },
  { key: 'routes', title: 'Routes the search may try', open: false },
  { key: 'process', title: 'Printing', open: false },
  { key: 'safety', title: 'Safety', open: false },
  { key: 'dust', title: 'Dust', open: false },
  { key: 'heat', title: 'Heat', open: false },
  { key: 'strength', title: 'Strength', open: false },
  { key: 'sound', title: 'Sound', open: false },
  { key: 'light', title: 'Light', open: false },
  { key: 'batch', title: 'Batches', open: false },
  { key: 'calibration', title: 'Calibration', open: false },
  { key: 'search', title: 'Search', open: false },
];

export function BriefView(): JSX.Element {
  useEffect(() => {
    if (schema.value !== null) return;
    desk()
      .briefSchema()
      .then((found) => (schema.value = found as Node))
      .catch((error: unknown) => tell('fault', wordsOf(error)));
  }, []);
  return (
    <section aria-labelledby="brief-title" class="brief">
      <h1 id="brief-title">Brief</h1>
      <Sources />
      <div class="brief-columns">
        <form class="brief-form" onSubmit={(event) => event.preventDefault()}>
          {schema.value === null ? (
            <p class="soft">Loading the form ...</p>
          ) : (
            <Parts node={schema.value} />
          )}
        </form>
        <aside class="brief-side" aria-label="What the brief means">
          <BriefSketch />
          <BriefWords />
        </aside>
      </div>
    </section>
  );
}

/** Where a brief comes from and goes to. */
function Sources(): JSX.Element {
  return (
    <p class="buttons">
      <label>
        Begin with{' '}
        <select
          value=""
          onChange={(event) => {
            const { value } = event.currentTarget;
            event.currentTarget.value = '';
            if (value !== '') void takeExample(value);
          }}
        >
          <option value="">an invented example ...</option>
          {EXAMPLES.map(({ file, label }) => (
            <option key={file} value={file}>
              {label}
            </option>
          ))}
        </select>
      </label>
      <label class="file">
        Open a brief{' '}
        <input
          type="file"
          accept=".json,application/json"
          onChange={(event) => {
            const [file] = event.currentTarget.files ?? [];
            if (file !== undefined) void takeFile(file);
          }}
        />
      </label>
      <button
        type="button"
        onClick={() =>
          download('brief.json', `${JSON.stringify(written.value, null, 2)}\n`, 'application/json')
        }
      >
        Save the brief
      </button>
    </p>
  );
}

/** Far above any honest brief. */
const LARGEST_BYTES = 2_000_000;

async function takeFile(file: File): Promise<void> {
  if (file.size > LARGEST_BYTES) {
    tell(
      'fault',
      `${file.name} has ${file.size} bytes; a brief has no more than ${LARGEST_BYTES}.`,
    );
    return;
  }
  takeText(file.name, await file.text());
}

function Parts({ node }: { readonly node: Node }): JSX.Element {
  const { name } = node.properties ?? {};
  return (
    <>
      {name === undefined ? null : <Field node={name} path={['name']} />}
      {PARTS.map(({ key, title, open }) => {
        const part = node.properties?.[key];
        if (part === undefined) return null;
        return (
          <details key={key} open={open}>
            <summary>
              <h2>{title}</h2>
            </summary>
            {key === 'air' ? <FanChart /> : null}
            <Part
              node={part}
              name={key}
              isOptional={part.default === undefined && key !== 'plate' && key !== 'air'}
            />
          </details>
        );
      })}
    </>
  );
}

/** A part that may be left out as a whole comes with a switch. */
function Part({
  node,
  name,
  isOptional,
}: {
  readonly node: Node;
  readonly name: string;
  readonly isOptional: boolean;
}): JSX.Element | null {
  const isThere = written.value[name] !== undefined;
  return (
    <>
      {isOptional ? (
        <label class="switch">
          <input
            type="checkbox"
            checked={isThere}
            onChange={(event) => {
              const { [name]: _, ...rest } = written.value;
              written.value = event.currentTarget.checked ? { ...rest, [name]: {} } : rest;
            }}
          />{' '}
          {node.description}
        </label>
      ) : null}
      {isOptional && !isThere ? null : <Field node={node} path={[name]} label="" />}
    </>
  );
}
