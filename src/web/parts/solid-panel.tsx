/** The designs looked at in 3D, side by side with one camera. */
import type { JSX } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import type { DesignKey } from '../state/fronts.ts';
import { lookedAt } from '../state/looked-at.ts';
import { wordsOf } from '../state/notices.ts';
import { followGestures } from '../solid/gestures.ts';
import { AXES, cut, isLit, shade, shown, view } from '../solid/look.ts';
import { askModel, askShade, keepModels, modelled } from '../solid/models.ts';
import { SHADES } from '../solid/shades.ts';
import { openStage } from '../solid/stage.ts';
import type { Stage } from '../solid/stage.ts';
import { viewWords } from '../solid/view.ts';
import { figure } from '../state/words.ts';
import { ShadeLegend } from './shade-legend.tsx';
import { SolidTools } from './solid-tools.tsx';

export function SolidPanel({ keys }: { readonly keys: readonly DesignKey[] }): JSX.Element {
  const [stage, setStage] = useState<Stage | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  useEffect(() => {
    let isLeft = false;
    let opened: Stage | null = null;
    const lost = (): void =>
      setProblem('The browser took the graphics memory back. Come back to this view to try again.');
    openStage(lost)
      .then((made) => {
        opened = made;
        if (isLeft) made.close();
        else setStage(made);
      })
      .catch((error: unknown) => setProblem(wordsOf(error)));
    return () => {
      isLeft = true;
      opened?.close();
      keepModels([]);
    };
  }, []);
  const entries = keys.map((key) => lookedAt.value.get(key));
  useEffect(() => {
    keepModels(keys);
    // Without WebGL nobody sees a body, so none is made.
    if (stage === null) return;
    for (const entry of entries) if (entry !== undefined) void askModel(entry);
  }, [stage, ...entries.map((entry) => entry?.design), keys.join()]);
  const models = keys.map((key) => modelled.value.get(key));
  useEffect(() => {
    if (shade.value === null) return;
    for (const one of models) if (one !== undefined) void askShade(one, shade.value);
  }, [shade.value, ...models.map((one) => one?.model)]);
  if (problem !== null) {
    return (
      <div class="sheet">
        <h2>In 3D</h2>
        <p>
          This browser shows no 3D here: WebGL is missing, switched off or has failed. The drawings
          below show the part, and everything else works.
        </p>
        <p class="soft">It said: {problem}</p>
      </div>
    );
  }
  return (
    <section class="sheet solid" aria-labelledby="solid-title">
      <h2 id="solid-title">In 3D</h2>
      <SolidTools />
      <div class={`solids of-${keys.length}`}>
        {keys.map((key) => (
          <SolidFigure key={key} of={key} stage={stage} />
        ))}
      </div>
      {shade.value === null ? null : (
        <ShadeLegend
          kind={shade.value}
          isWaiting={models.some(
            (one) => one?.shades[`part ${shade.value ?? 'dust'}`] === undefined,
          )}
        />
      )}
      {isLit.value ? (
        <p class="hint">
          A lamp behind the plate: bright is a straight way through along the line of sight. Turn
          the part to look for leaks aslant; the measure of light leak counts all directions.
        </p>
      ) : null}
    </section>
  );
}

function SolidFigure({
  of: key,
  stage,
}: {
  readonly of: DesignKey;
  readonly stage: Stage | null;
}): JSX.Element {
  const canvas = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    if (canvas.current === null || stage === null) return undefined;
    const ends = [stage.attach(key, canvas.current), followGestures(canvas.current)];
    return () => {
      for (const end of ends) end();
    };
  }, [stage, key]);
  const model = modelled.value.get(key);
  const title = lookedAt.value.get(key)?.title ?? key;
  return (
    <figure class="plot">
      <figcaption>
        {title} <CutWords of={key} />
      </figcaption>
      <canvas
        ref={canvas}
        class="solid-canvas"
        tabIndex={0}
        role="application"
        aria-roledescription="3D view"
        aria-label={`${title}: ${shownWords()}, ${viewWords(view.value)}. Arrow keys turn, shift and arrows move, plus and minus enlarge, 0 fits, 1 to 5 are fixed views.`}
      />
      {model === undefined ? <p class="soft">Building the body ...</p> : null}
      {model?.model.air === null && shown.value !== 'part' ? (
        <p class="soft">The air could not be told from the plate.</p>
      ) : null}
      {model?.model.faults.map((fault) => (
        <p key={fault} class="missed">
          {fault}
        </p>
      ))}
    </figure>
  );
}

function shownWords(): string {
  const what = { part: 'the part', air: 'its channels alone', both: 'the part with its air' };
  const by = shade.value === null ? '' : `, coloured by ${SHADES[shade.value].label.toLowerCase()}`;
  return `${what[shown.value]}${by}${cut.value === null ? '' : `, cut across ${AXES[cut.value.axis]}`}`;
}

/** Where the part is cut, in its own coordinates. */
function CutWords({ of: key }: { readonly of: DesignKey }): JSX.Element | null {
  const model = modelled.value.get(key);
  if (cut.value === null || model === undefined) return null;
  const { axis, share } = cut.value;
  const at_mm = model.low[axis] + share * (model.high[axis] - model.low[axis]);
  return (
    <span class="soft">
      cut at {AXES[axis]} = {figure(Number(at_mm.toFixed(2)))} mm
    </span>
  );
}
