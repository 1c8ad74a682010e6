/** The numbers of a comparison as tables. */
import type { JSX } from 'preact';
import type { Comparison } from '../../engine/index.ts';
import { select, selected } from '../state/fronts.ts';
import type { DesignKey } from '../state/fronts.ts';
import { shown } from '../state/comparison.ts';
import { figure } from '../state/words.ts';
import { MarkSign } from './mark-sign.tsx';

/** Most designs of a front named one by one. */
const MOST_NAMED = 40;

/** Which designs survive among all, by front, with each front's hypervolume. */
export function JointTable({ found }: { readonly found: Comparison }): JSX.Element {
  const total = found.fronts.reduce((sum, { joint }) => sum + joint.length, 0);
  return (
    <div class="scroll" tabIndex={0} role="region" aria-label="Joint front">
      <table>
        <caption>
          The joint front holds {total === 1 ? '1 design' : `${total} designs`}: what no design of
          any front beats.
        </caption>
        <thead>
          <tr>
            <th scope="col">Front</th>
            <th scope="col" class="n">
              Designs
            </th>
            <th scope="col" class="n">
              Survive
            </th>
            <th scope="col" class="n">
              Share of the joint front
            </th>
            <th scope="col" class="n">
              Hypervolume
            </th>
            <th scope="col">Survivors</th>
          </tr>
        </thead>
        <tbody>
          {found.fronts.map(({ name, compared, joint, hypervolume }, i) => (
            <tr key={i}>
              <th scope="row">
                <MarkSign series={i} /> {name}
              </th>
              <td class="n">{compared}</td>
              <td class="n">{joint.length}</td>
              <td class="n">
                {total === 0 ? '-' : `${Math.round((100 * joint.length) / total)} %`}
              </td>
              <td class="n">{hypervolume === null ? '-' : figure(hypervolume)}</td>
              <td>
                <Survivors front={shown.value[i]?.id} ids={joint} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function Survivors({
  front,
  ids,
}: {
  readonly front: string | undefined;
  readonly ids: readonly string[];
}): JSX.Element {
  if (front === undefined || ids.length === 0) return <span class="soft">none</span>;
  return (
    <details>
      <summary>{ids.length === 1 ? ids[0] : `${ids[0]} and ${ids.length - 1} more`}</summary>
      <span class="survivors">
        {ids.slice(0, MOST_NAMED).map((id) => {
          const key: DesignKey = `${front}/${id}`;
          return (
            <button
              key={id}
              type="button"
              class="bare"
              aria-pressed={selected.value.includes(key)}
              onClick={(event) => select(key, event.shiftKey || event.ctrlKey)}
            >
              {id}
            </button>
          );
        })}
        {ids.length > MOST_NAMED ? `and ${ids.length - MOST_NAMED} more` : ''}
      </span>
    </details>
  );
}

/** How many designs of one front some design of another beats, pair by pair. */
export function BeatenTable({ found }: { readonly found: Comparison }): JSX.Element {
  return (
    <div class="scroll" tabIndex={0} role="region" aria-label="Who beats whom">
      <table>
        <caption>
          Designs of the front in the column that some design of the front in the row beats: no
          worse anywhere, better somewhere.
        </caption>
        <thead>
          <tr>
            <th scope="col">Front</th>
            {found.fronts.map(({ name, compared }, j) => (
              <th key={j} scope="col" class="n">
                <MarkSign series={j} /> of {name} ({compared})
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {found.fronts.map(({ name }, i) => (
            <tr key={i}>
              <th scope="row">
                <MarkSign series={i} /> {name}
              </th>
              {found.fronts.map((_, j) => (
                <td key={j} class="n">
                  {i === j ? '-' : found.dominated[i][j]}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

/** How the common box of the hypervolumes is set. */
export function yardstickWords({ by, yardstick }: Comparison): string {
  const sides = by.map(({ label, unit }, k) => {
    const of = unit === '-' ? '' : ` ${unit}`;
    return `${label} ${figure(yardstick.best[k])} to ${figure(yardstick.reference[k])}${of}`;
  });
  return `Hypervolume: the share of a box that a front dominates, from the best reading of all designs together to a tenth of the span beyond the worst (${sides.join('; ')}). It holds for these fronts only.`;
}
