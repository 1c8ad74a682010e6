/** Drawings of the designs looked at. */
import type { JSX } from 'preact';
import type { DesignKey } from '../state/fronts.ts';
import { lookedAt } from '../state/looked-at.ts';
import { SvgPicture } from './svg-picture.tsx';

export function Drawings({ keys }: { readonly keys: readonly DesignKey[] }): JSX.Element {
  return (
    <div class="pair">
      {keys.map((key) => {
        const entry = lookedAt.value.get(key);
        const title = entry?.title ?? key;
        return (
          <figure key={key} class="plot drawn">
            <figcaption>{title}</figcaption>
            {entry === undefined || entry.open === null ? (
              <p class="soft">Drawing ...</p>
            ) : (
              <SvgPicture svg={entry.open} alt={`Isometric view of ${title}, cut open`} />
            )}
            {entry === undefined || entry.drawing === null ? null : (
              <SvgPicture svg={entry.drawing} alt={`Plan and section of ${title}`} />
            )}
          </figure>
        );
      })}
    </div>
  );
}
