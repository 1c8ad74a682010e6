/** The fronts that are open: what they are called, which is at hand, which are compared. */
import type { JSX } from 'preact';
import { leftOut, shown, toggleShown } from '../state/comparison.ts';
import { desk } from '../state/desk.ts';
import { active, activeId, dropFront, fronts, putFront } from '../state/fronts.ts';
import type { LoadedFront } from '../state/fronts.ts';
import { notesOf } from '../state/notes.ts';
import { MarkSign } from './mark-sign.tsx';

export function FrontList(): JSX.Element {
  if (fronts.value.length === 0) return <p>No front is open yet.</p>;
  return (
    <div class="scroll" tabIndex={0} role="region" aria-label="Open fronts">
      <table>
        <thead>
          <tr>
            <th scope="col">Mark</th>
            <th scope="col">Name</th>
            <th scope="col" class="n">
              Designs
            </th>
            <th scope="col">Evolved for</th>
            <th scope="col" class="n">
              Noted
            </th>
            <th scope="col">Compare</th>
            <th scope="col">At hand</th>
            <th scope="col">Close</th>
          </tr>
        </thead>
        <tbody>
          {fronts.value.map((loaded) => (
            <Row key={loaded.id} loaded={loaded} />
          ))}
        </tbody>
      </table>
    </div>
  );
}

function Row({ loaded }: { readonly loaded: LoadedFront }): JSX.Element {
  const { id, name, front } = loaded;
  const series = shown.value.findIndex((other) => other.id === id);
  const own = active.value?.id === id;
  const label = (measure: string): string =>
    front.measures.find((info) => info.id === measure)?.label ?? measure;
  return (
    <tr class={own ? 'chosen' : ''}>
      <td>{series < 0 ? <span class="soft">none</span> : <MarkSign series={series} />}</td>
      <td>
        <input
          type="text"
          class="own-name"
          aria-label={`Name of ${name}`}
          maxLength={60}
          value={name}
          onChange={(event) => {
            const next = event.currentTarget.value.trim();
            if (next !== '') putFront({ ...loaded, name: next });
          }}
        />
      </td>
      <td class="n">{front.designs.length}</td>
      <td>{front.objectives.map(label).join(', ')}</td>
      <td class="n">{notesOf(loaded).length}</td>
      <td>
        <label class="tick">
          <input
            type="checkbox"
            checked={!leftOut.value.includes(id)}
            onChange={() => toggleShown(id)}
          />
          <span class="unseen">Compare {name}</span>
        </label>
      </td>
      <td>
        <button type="button" aria-pressed={own} onClick={() => (activeId.value = id)}>
          {own ? 'At hand' : 'Take'}
          <span class="unseen"> {name}</span>
        </button>
      </td>
      <td>
        <button
          type="button"
          onClick={() => {
            dropFront(id);
            if (loaded.shelf !== undefined) void desk().forget(loaded.shelf);
          }}
        >
          Close<span class="unseen"> {name}</span>
        </button>
      </td>
    </tr>
  );
}
