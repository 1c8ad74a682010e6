/** What prints in each layer, and what of it hangs. */
import { useSignal } from '@preact/signals';
import type { JSX } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import type { LayerPicture } from '../../engine/index.ts';
import { desk } from '../state/desk.ts';
import { lookUp } from '../state/fronts.ts';
import type { DesignKey } from '../state/fronts.ts';
import { lookedAt } from '../state/looked-at.ts';
import type { LookedAt } from '../state/looked-at.ts';
import { tell, wordsOf } from '../state/notices.ts';
import { layer } from '../solid/look.ts';
import { paintLayer } from '../solid/layer-paint.ts';
import { areaOf } from '../solid/layer-pixels.ts';
import { figure } from '../state/words.ts';
import { inkOf } from '../style/ink.ts';

type Pictures = Readonly<Partial<Record<DesignKey, LayerPicture>>>;

interface Question {
  readonly wanted: number | null;
  readonly entries: readonly LookedAt[];
}

async function answerTo({ wanted, entries }: Question): Promise<Pictures> {
  const found = await Promise.all(
    entries.map(async ({ key, design }) => {
      const brief = lookUp(key)?.loaded.front.brief;
      return brief === undefined ? [] : [[key, await desk().layer(brief, design, wanted)] as const];
    }),
  );
  return Object.fromEntries(found.flat());
}

export function LayersPanel({ keys }: { readonly keys: readonly DesignKey[] }): JSX.Element {
  const pictures = useSignal<Pictures>({});
  const isAsking = useRef(false);
  const entries = keys.flatMap((key) => lookedAt.value.get(key) ?? []);
  const question = useRef<Question>({ wanted: null, entries: [] });

  // One question at a time: while a slider moves, layers in between are passed over.
  const ask = async (): Promise<void> => {
    if (isAsking.current) return;
    isAsking.current = true;
    try {
      for (let served: Question | null = null; served !== question.current;) {
        served = question.current;
        pictures.value = await answerTo(served);
      }
    } catch (error) {
      tell('fault', wordsOf(error));
    } finally {
      isAsking.current = false;
    }
  };
  useEffect(() => {
    question.current = { wanted: layer.value, entries };
    void ask();
  }, [...entries.map((entry) => entry.design), keys.join(), layer.value]);

  const shown = keys.flatMap((key) => pictures.value[key] ?? []);
  const last = Math.max(1, ...shown.map((one) => one.layers - 1));
  const here = layer.value ?? shown[0]?.layer ?? 0;
  return (
    <section class="sheet" aria-labelledby="layers-title">
      <h2 id="layers-title">Layers</h2>
      <p class="pickers">
        <label class="slide">
          Layer{' '}
          <input
            type="range"
            min="1"
            max={last + 1}
            step="1"
            value={here + 1}
            aria-valuetext={`${here + 1} of ${last + 1}`}
            onInput={(event) => {
              layer.value = event.currentTarget.valueAsNumber - 1;
            }}
          />{' '}
          <output class="figures">
            {here + 1} of {last + 1}
          </output>
        </label>
        <button
          type="button"
          aria-pressed={layer.value === null}
          onClick={() => {
            layer.value = null;
          }}
        >
          Where most hangs
        </button>
      </p>
      <div class={`solids of-${keys.length}`}>
        {keys.map((key) => (
          <LayerFigure key={key} of={key} picture={pictures.value[key] ?? null} />
        ))}
      </div>
      <p class="hint">
        <span class="swatch solid-tone" /> prints. <span class="swatch hangs" /> hangs: stands out
        over the layer below by more than the overhang limit allows; a printer bridges short spans
        and needs support under long ones. Seen from above the bed.
      </p>
    </section>
  );
}

interface FigureProps {
  readonly of: DesignKey;
  readonly picture: LayerPicture | null;
}

function LayerFigure({ of: key, picture }: FigureProps): JSX.Element {
  const canvas = useRef<HTMLCanvasElement>(null);
  const entry = lookedAt.value.get(key);
  useEffect(() => {
    const element = canvas.current;
    if (picture === null || element === null) return undefined;
    const paint = (): void => paintLayer(element, picture, inkOf(element));
    paint();
    const scheme = matchMedia('(prefers-color-scheme: dark)');
    scheme.addEventListener('change', paint);
    return () => scheme.removeEventListener('change', paint);
  }, [picture]);
  const words =
    picture === null
      ? 'Drawing ...'
      : `layer ${picture.layer + 1} of ${picture.layers}, ${figure(Number(picture.height_mm.toFixed(3)))} mm above the bed: ` +
        `${figure(areaOf(picture.solid, picture.pixel_mm))} mm\u00b2 print, ${figure(areaOf(picture.hanging, picture.pixel_mm))} mm\u00b2 hang`;
  return (
    <figure class="plot">
      <figcaption>{entry?.title ?? key}</figcaption>
      <canvas
        ref={canvas}
        class="layer-canvas"
        role="img"
        aria-label={`${entry?.title ?? key}, ${words}`}
      />
      <p class="soft figures">{words}</p>
    </figure>
  );
}
