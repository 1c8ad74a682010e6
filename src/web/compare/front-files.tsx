/** What the front at hand can be taken away as, and the link to what is shown of it. */
import type { JSX } from 'preact';
import { LinkTo } from '../parts/link-to.tsx';
import { active } from '../state/fronts.ts';
import type { LoadedFront } from '../state/fronts.ts';
import { handFront, handNotes, handReport, handZip, making } from '../state/hand-over-front.ts';

export function FrontFiles(): JSX.Element | null {
  const loaded = active.value;
  return loaded === null ? null : <FilesOf key={loaded.id} loaded={loaded} />;
}

function FilesOf({ loaded }: { readonly loaded: LoadedFront }): JSX.Element {
  const busy = making.value !== null;
  const empty = loaded.front.designs.length === 0;
  return (
    <section class="sheet" aria-labelledby="front-files-title">
      <h2 id="front-files-title">Hand over {loaded.name}</h2>
      <p class="buttons">
        <button type="button" disabled={busy} onClick={() => void handFront(loaded, 'json')}>
          Front file
        </button>
        <button type="button" disabled={busy} onClick={() => void handFront(loaded, 'csv')}>
          CSV table
        </button>
        <button
          type="button"
          disabled={busy || empty || loaded.front.objectives.length < 2}
          onClick={() => void handFront(loaded, 'picture')}
        >
          Picture (SVG)
        </button>
        <button type="button" disabled={busy} onClick={() => void handReport(loaded)}>
          Report (HTML)
        </button>
        <button type="button" disabled={busy} onClick={() => void handZip(loaded)}>
          Run folder (zip)
        </button>
        <button type="button" disabled={busy} onClick={() => void handNotes(loaded)}>
          Notes and stars
        </button>
      </p>
      <p role="status">{making.value === null ? '' : `${making.value} ...`}</p>
      <LinkTo target="compare" />
      <p class="soft">
        The zip, unpacked, is a run folder: <code>anfract show</code> reads it. Whoever opens it
        here sees the notes too.
      </p>
    </section>
  );
}
