/** The ranges in force, each with a way to lift it, and how many designs are left. */
import type { JSX } from 'preact';
import { ranges } from '../state/fronts.ts';
import type { LoadedFront } from '../state/fronts.ts';
import { dropRange, keptOf } from '../state/kept.ts';
import { figure } from '../state/words.ts';

export function RangeChips({ loaded }: { readonly loaded: LoadedFront }): JSX.Element {
  const entries = Object.entries(ranges.value);
  const kept = keptOf(loaded).reduce((sum, one) => sum + one, 0);
  const all = loaded.front.designs.length;
  return (
    <div class="chips">
      <p role="status">
        {entries.length === 0
          ? `All ${all} designs are kept: no range is set.`
          : `${kept} of ${all} designs kept:`}
      </p>
      {entries.length === 0 ? null : (
        <ul aria-label="Ranges kept">
          {entries.map(([id, [low, high]]) => {
            const info = loaded.front.measures.find((entry) => entry.id === id);
            const unit = info === undefined || info.unit === '-' ? '' : ` ${info.unit}`;
            const words = `${info?.label ?? id} ${figure(low)} to ${figure(high)}${unit}`;
            return (
              <li key={id}>
                <button type="button" aria-label={`Lift ${words}`} onClick={() => dropRange(id)}>
                  {words} <span aria-hidden="true">×</span>
                </button>
              </li>
            );
          })}
          {entries.length > 1 ? (
            <li>
              <button type="button" class="bare" onClick={() => (ranges.value = {})}>
                Lift all
              </button>
            </li>
          ) : null}
        </ul>
      )}
    </div>
  );
}
