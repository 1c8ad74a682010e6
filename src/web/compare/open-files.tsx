/** Where files come in: dropped or chosen, and what was wrong with them. */
import { useSignal } from '@preact/signals';
import type { JSX } from 'preact';
import { chosenItems, droppedItems } from '../state/dropped.ts';
import { dismissFault, openAll, openFaults, opening } from '../state/open-files.ts';

function take(input: HTMLInputElement): void {
  void openAll(chosenItems([...(input.files ?? [])]));
  // The same file may be chosen again, after a change.
  input.value = '';
}

/** Folders can only be chosen by an attribute that preact does not know. */
function chooseFolders(input: HTMLInputElement | null): void {
  input?.setAttribute('webkitdirectory', '');
}

export function OpenFiles(): JSX.Element {
  const over = useSignal(false);
  return (
    <div
      class={`drop ${over.value ? 'over' : ''}`}
      onDragOver={(event) => {
        event.preventDefault();
        over.value = true;
      }}
      onDragLeave={() => (over.value = false)}
      onDrop={(event) => {
        event.preventDefault();
        over.value = false;
        if (event.dataTransfer !== null) void droppedItems(event.dataTransfer).then(openAll);
      }}
    >
      <h2>Open fronts</h2>
      <p class="chooser">
        <label>
          Files{' '}
          <input
            type="file"
            multiple
            accept=".json,.zip,application/json,application/zip"
            onChange={(event) => take(event.currentTarget)}
          />
        </label>
        <label>
          A folder of runs{' '}
          <input type="file" ref={chooseFolders} onChange={(event) => take(event.currentTarget)} />
        </label>
      </p>
      <p class="soft">
        Or drop them here: <code>front.json</code> files, run folders, zips of them, notes; several
        at once. They stay in this browser.
      </p>
      <p role="status">
        {opening.value.length === 0 ? '' : `Reading ${opening.value.join(', ')} ...`}
      </p>
      {openFaults.value.length === 0 ? null : (
        <ul class="open-faults" aria-label="Files with faults">
          {openFaults.value.map((fault) => (
            <li key={fault.id}>
              <strong>{fault.name}</strong>
              <span class="words">{fault.words}</span>
              <button type="button" onClick={() => dismissFault(fault.id)}>
                Dismiss
              </button>
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}
