/** What a design can be taken away as. */
import type { JSX } from 'preact';
import type { DesignKey } from '../state/fronts.ts';
import { handDesign, handMesh, handPicture } from '../state/hand-over.ts';

export function HandOver({ keys }: { readonly keys: readonly DesignKey[] }): JSX.Element {
  return (
    <div class="sheet">
      <h2>Hand over</h2>
      {keys.map((key) => {
        const id = key.slice(key.lastIndexOf('/') + 1);
        return (
          <p key={key} class="buttons">
            <strong>{id}</strong>
            <button type="button" onClick={() => void handMesh(key, 'stl')}>
              STL of {id}
            </button>
            <button type="button" onClick={() => void handMesh(key, '3mf')}>
              3MF of {id}
            </button>
            <button type="button" onClick={() => void handDesign(key)}>
              Design file of {id}
            </button>
            <button type="button" onClick={() => handPicture(key)}>
              Drawing of {id}
            </button>
          </p>
        );
      })}
    </div>
  );
}
