/** What a design can be taken away as, and what is noted about it. */
import type { JSX } from 'preact';
import type { DesignKey } from '../state/fronts.ts';
import { LinkTo } from './link-to.tsx';
import { Note } from './note.tsx';
import { handDesign, handMesh, handPicture } from '../state/hand-over.ts';

export function HandOver({ keys }: { readonly keys: readonly DesignKey[] }): JSX.Element {
  return (
    <div class="sheet">
      <h2>Hand over</h2>
      <LinkTo target="part" />
      {keys.map((key) => {
        const id = key.slice(key.lastIndexOf('/') + 1);
        return (
          <div key={key}>
            <p class="buttons">
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
            <Note of={key} />
          </div>
        );
      })}
    </div>
  );
}
