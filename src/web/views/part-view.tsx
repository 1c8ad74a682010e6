/** One to four designs, closely: the part, its drawings, its numbers. */
import { useEffect } from 'preact/hooks';
import type { JSX } from 'preact';
import { DesignNumbers } from '../parts/design-numbers.tsx';
import { ComputedFlows } from '../parts/computed-flows.tsx';
import { Drawings } from '../parts/drawings.tsx';
import { GeneTable } from '../parts/gene-table.tsx';
import { HandOver } from '../parts/hand-over.tsx';
import { LayersPanel } from '../parts/layers-panel.tsx';
import { SolidPanel } from '../parts/solid-panel.tsx';
import { active, keyOf, lookUp, selected } from '../state/fronts.ts';
import type { DesignKey } from '../state/fronts.ts';
import { lookAt } from '../state/looked-at.ts';

/** Most designs side by side. */
const MOST = 4;

export function PartView(): JSX.Element {
  const keys = shownKeys();
  useEffect(
    () => {
      for (const key of keys) void lookAt(key);
    },
    keys.flatMap((key) => [key, lookUp(key)?.design.genes.join()]),
  );
  return (
    <section aria-labelledby="part-title">
      <h1 id="part-title">Part</h1>
      {keys.length === 0 ? (
        <p>
          No design is chosen: pick one to four in the <a href="#/front">front</a>.
        </p>
      ) : (
        <>
          <SolidPanel keys={keys} />
          <LayersPanel keys={keys} />
          <Drawings keys={keys} />
          <GeneTable keys={keys} />
          <HandOver keys={keys} />
          <DesignNumbers keys={keys} />
          <ComputedFlows keys={keys} />
        </>
      )}
    </section>
  );
}

/** The selection, or else the first design of the front at hand. */
function shownKeys(): readonly DesignKey[] {
  if (selected.value.length > 0) return selected.value.slice(0, MOST);
  const loaded = active.value;
  const [first] = loaded?.front.designs ?? [];
  return loaded === null || first === undefined ? [] : [keyOf(loaded, first)];
}
