/** What the 3D views show, and from where. */
import type { JSX } from 'preact';
import type { ShadeKind } from '../../engine/index.ts';
import { AXES, cut, isLit, shade, shown, view } from '../solid/look.ts';
import type { Cut, Shown } from '../solid/look.ts';
import { SHADES, SHADE_KINDS } from '../solid/shades.ts';
import { PRESETS, fitted, fromPreset, viewWords, zoomed } from '../solid/view.ts';

const SHOWN: readonly { readonly id: Shown; readonly label: string }[] = [
  { id: 'part', label: 'Part' },
  { id: 'air', label: 'Channels alone (the air)' },
  { id: 'both', label: 'Part with its air' },
];

export function SolidTools(): JSX.Element {
  return (
    <div class="solid-tools">
      <p class="pickers">
        <label>
          Show{' '}
          <select
            value={shown.value}
            onChange={(event) => {
              shown.value = event.currentTarget.value as Shown;
            }}
          >
            {SHOWN.map(({ id, label }) => (
              <option key={id} value={id}>
                {label}
              </option>
            ))}
          </select>
        </label>
        <label>
          Colour by{' '}
          <select
            value={shade.value ?? ''}
            onChange={(event) => {
              const { value } = event.currentTarget;
              shade.value = value === '' ? null : (value as ShadeKind);
              if (shade.value !== null) isLit.value = false;
            }}
          >
            <option value="">nothing</option>
            {SHADE_KINDS.map((kind) => (
              <option key={kind} value={kind}>
                {SHADES[kind].label.toLowerCase()}
              </option>
            ))}
          </select>
        </label>
        <CutTools />
      </p>
      <div class="buttons" role="group" aria-label="Views">
        {PRESETS.map((preset) => (
          <button
            key={preset.id}
            type="button"
            onClick={() => {
              view.value = fromPreset(view.value, preset);
            }}
          >
            {preset.label}
          </button>
        ))}
        <button type="button" aria-pressed={isLit.value} onClick={lookThrough}>
          Against the light
        </button>
        <button
          type="button"
          aria-label="Enlarge"
          onClick={() => {
            view.value = zoomed(view.value, 1.25);
          }}
        >
          +
        </button>
        <button
          type="button"
          aria-label="Make smaller"
          onClick={() => {
            view.value = zoomed(view.value, 0.8);
          }}
        >
          {'\u2212'}
        </button>
        <button
          type="button"
          onClick={() => {
            view.value = fitted(view.value);
          }}
        >
          Fit
        </button>
        <output class="soft figures">{viewWords(view.value)}</output>
      </div>
      <details>
        <summary>Mouse, touch and keys</summary>
        <p class="hint">
          Drag turns; shift or the right button moves; two fingers move and enlarge. With the focus
          on a view: arrow keys turn, shift and arrows move, + and - or the wheel enlarge, 0 fits, 1
          to 5 are the views above. All designs turn together, drawn to one scale; z runs with the
          air.
        </p>
      </details>
    </div>
  );
}

/** Looks along the air with a lamp behind the plate, or puts the lamp out. */
function lookThrough(): void {
  isLit.value = !isLit.value;
  if (!isLit.value) return;
  shade.value = null;
  cut.value = null;
  if (shown.value === 'air') shown.value = 'part';
  const outlet = PRESETS.find(({ id }) => id === 'outlet') ?? PRESETS[0];
  view.value = fromPreset(view.value, outlet);
}

function put(change: Partial<Cut>): void {
  if (cut.value !== null) cut.value = { ...cut.value, ...change };
}

function CutTools(): JSX.Element {
  const now = cut.value;
  return (
    <>
      <label>
        Cut{' '}
        <select
          value={now === null ? '' : String(now.axis)}
          onChange={(event) => {
            const { value } = event.currentTarget;
            const axis = ([0, 1, 2] as const).find((k) => String(k) === value);
            cut.value =
              axis === undefined ? null : { share: 0.5, other: false, ...cut.value, axis };
            if (cut.value !== null) isLit.value = false;
          }}
        >
          <option value="">nowhere</option>
          {AXES.map((name, k) => (
            <option key={name} value={String(k)}>
              across {name}
            </option>
          ))}
        </select>
      </label>
      {now === null ? null : (
        <>
          <label class="slide">
            at{' '}
            <input
              type="range"
              min="0"
              max="1"
              step="0.005"
              value={now.share}
              aria-valuetext={`${Math.round(100 * now.share)} % along ${AXES[now.axis]}`}
              onInput={(event) => put({ share: event.currentTarget.valueAsNumber })}
            />
          </label>
          <label>
            <input
              type="checkbox"
              checked={now.other}
              onChange={(event) => put({ other: event.currentTarget.checked })}
            />{' '}
            other half
          </label>
        </>
      )}
    </>
  );
}
