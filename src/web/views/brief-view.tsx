/** The brief: form, sketch, plain words; examples, files in and out. */
import { signal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { JSX } from 'preact';
import { BriefSketch } from '../form/brief-sketch.tsx';
import { BriefWords } from '../form/brief-words.tsx';
import { FanChart } from '../form/fan-chart.tsx';
import { StrangeKeys } from '../form/fault-words.tsx';
import { Field } from '../form/field.tsx';
import { goToField } from '../form/go-to-field.ts';
import { isRecord } from '../form/schema.ts';
import type { Node } from '../form/schema.ts';
import { switchOff, switchOn } from '../form/switches.ts';
import {
  EXAMPLES,
  bringBack,
  checked,
  faults,
  faultsUnder,
  isFresh,
  putAt,
  replaced,
  takeEmpty,
  takeExample,
  takeText,
  written,
} from '../state/brief.ts';
import type { Written } from '../state/brief.ts';
import { desk } from '../state/desk.ts';
import { download } from '../state/hand-over.ts';
import { loadMeasureInfos } from '../state/measure-infos.ts';
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
    void loadMeasureInfos();
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
        <aside class="brief-side" aria-label="What the brief means" tabIndex={0}>
          <BriefSketch />
          <BriefWords />
        </aside>
      </div>
      <Verdict />
    </section>
  );
}

/** Where a brief comes from and goes to. */
function Sources(): JSX.Element {
  return (
    <div class="buttons sources">
      <label>
        Begin with{' '}
        <select
          value=""
          onChange={(event) => {
            const { value } = event.currentTarget;
            event.currentTarget.value = '';
            if (value === 'empty') takeEmpty();
            else if (value !== '') void takeExample(value);
          }}
        >
          <option value="">choose ...</option>
          <option value="empty">a new empty brief</option>
          <optgroup label="Invented examples">
            {EXAMPLES.map(({ file, label }) => (
              <option key={file} value={file}>
                {label}
              </option>
            ))}
          </optgroup>
        </select>
      </label>
      <label class="file-button">
        Open a brief ...
        <input
          type="file"
          accept=".json,application/json"
          onChange={(event) => {
            const [file] = event.currentTarget.files ?? [];
            if (file !== undefined) void takeFile(file);
            // The same file can be opened again after it was mended.
            event.currentTarget.value = '';
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
      {replaced.value === null ? null : (
        <button type="button" onClick={bringBack}>
          Bring back {nameOf(replaced.value)}
        </button>
      )}
    </div>
  );
}

function nameOf({ name }: Written): string {
  return typeof name === 'string' && name !== '' ? `\u201c${name}\u201d` : 'the brief before';
}

/** How the brief stands, always in sight. */
function Verdict(): JSX.Element {
  const result = checked.value;
  const count = faults.value.length;
  return (
    <div class="verdict">
      <span role="status" data-fresh={isFresh.value}>
        {result === null
          ? 'The brief is being checked.'
          : result.ok
            ? 'The brief is sound.'
            : `${count} ${count === 1 ? 'fault' : 'faults'} to mend.`}
      </span>
      {result?.ok === true ? (
        <a href="#/run">Evolve it</a>
      ) : count > 0 ? (
        <button type="button" onClick={() => goToField(faults.value[0].path)}>
          Go to the first
        </button>
      ) : null}
    </div>
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
      <StrangeKeys node={node} path={[]} />
      {name === undefined ? null : <Field node={name} path={['name']} />}
      {PARTS.map(({ key, title, open }) => {
        const part = node.properties?.[key];
        if (part === undefined) return null;
        return (
          <details key={key} open={open}>
            <summary id={`part-${key}`}>
              <h2>{title}</h2> <Standing name={key} isOptional={part.default === undefined} />
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

/** What a folded part holds, in a few words. */
function Standing({
  name,
  isOptional,
}: {
  readonly name: string;
  readonly isOptional: boolean;
}): JSX.Element {
  const count = faultsUnder(name).length;
  if (count > 0) {
    return (
      <span class="missed">
        {count} {count === 1 ? 'fault' : 'faults'}
      </span>
    );
  }
  const value = written.value[name];
  const keys = isRecord(value) ? Object.keys(value).filter((key) => !key.startsWith('//')) : [];
  const words =
    value === undefined && isOptional ? 'left out' : keys.length === 0 ? 'as usual' : 'set';
  return <span class="soft">{words}</span>;
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
            onChange={(event) =>
              putAt(
                [name],
                event.currentTarget.checked ? switchOn(node, [name]) : switchOff([name]),
              )
            }
          />
          <span>{node.description}</span>
        </label>
      ) : null}
      {isOptional && !isThere ? null : <Field node={node} path={[name]} label="" />}
    </>
  );
}
