/** The run in one line, on every view. */
import type { JSX } from 'preact';
import { run } from '../state/run.ts';

const WORDS = {
  idle: 'no run',
  starting: 'starting',
  running: 'running',
  pausing: 'finishing the generation',
  paused: 'paused',
  ending: 'scoring the front once more',
  done: 'done',
} as const;

export function RunStrip(): JSX.Element {
  const { phase, history, generations } = run.value;
  const done = history.length;
  return (
    <p class="strip">
      <span>{WORDS[phase]}</span>
      {phase === 'idle' ? null : (
        <>
          <meter
            min={0}
            max={Math.max(1, generations)}
            value={done}
            aria-label="generations done"
          />
          <span>
            {done} of {generations}
          </span>
        </>
      )}
    </p>
  );
}
