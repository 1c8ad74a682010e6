/** A front without designs: which limits the nearest one breaks, in words. */
import type { JSX } from 'preact';
import type { Front } from '../../engine/index.ts';
import { figure } from '../state/words.ts';

const BOUNDS = { atMost: 'at most', atLeast: 'at least' } as const;

export function NearMiss({ front }: { readonly front: Front }): JSX.Element {
  const { nearest } = front;
  const broken = nearest?.limits.filter(({ margin }) => margin < 0) ?? [];
  return (
    <div class="sheet near-miss">
      <p>
        <strong>No design meets every limit</strong> after {front.generation} generations and{' '}
        {front.evaluations} evaluations.
      </p>
      {nearest === null ? (
        <p>None came near enough to be kept as the nearest either.</p>
      ) : (
        <>
          <p>
            The nearest, {nearest.id} ({nearest.origin}), breaks {broken.length}{' '}
            {broken.length === 1 ? 'limit' : 'limits'}:
          </p>
          <ul>
            {broken.map(({ measure, bound, value, margin }) => {
              const j = front.measures.findIndex(({ id }) => id === measure);
              const info = front.measures[j];
              const unit = info === undefined || info.unit === '-' ? '' : ` ${info.unit}`;
              return (
                <li key={`${measure} ${bound}`}>
                  {info?.label ?? measure}: {figure(nearest.readings[j] ?? null)}
                  {unit}, wanted {BOUNDS[bound]} {figure(value)}
                  {unit}; misses it by {figure(-margin)}
                  {unit}.
                </li>
              );
            })}
          </ul>
          <p>
            More generations may still find one. If they do not, loosen these limits, or give the
            plate more room, in the <a href="#/brief">brief</a>.
          </p>
        </>
      )}
    </div>
  );
}
