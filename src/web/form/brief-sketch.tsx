/** The plate from above: outline, rim, mounting holes, fan ring, ports of the first starting design. */
import type { JSX } from 'preact';
import type { Sketch } from '../../engine/index.ts';
import { checked } from '../state/brief.ts';
import { figure } from '../state/words.ts';

/** The last sound sketch stays while a field is half typed. */
let last: Sketch | null = null;

export function BriefSketch(): JSX.Element {
  const result = checked.value;
  if (result?.ok === true) last = result.sketch;
  if (last === null) return <p class="soft">The plate is drawn once the brief is sound.</p>;
  const sketch = last;
  const xs = sketch.outline.map(([x]) => x);
  const ys = sketch.outline.map(([, y]) => y);
  const box = {
    x0: Math.min(...xs),
    x1: Math.max(...xs),
    y0: Math.min(...ys),
    y1: Math.max(...ys),
  };
  const wide = box.x1 - box.x0;
  const high = box.y1 - box.y0;
  const room = 0.14 * Math.max(wide, high);
  const path = sketch.outline.map(([x, y]) => `${x} ${-y}`).join('L');
  const hair = 0.004 * Math.max(wide, high);
  const text = 4 * 1.1 * hair * 2.2;
  return (
    <figure class="plot sketch">
      <svg
        viewBox={`${box.x0 - room} ${-box.y1 - room} ${wide + 2 * room} ${high + 2 * room}`}
        role="img"
        aria-label={`Plate of ${figure(wide)} by ${figure(high)} mm with ${sketch.ports.length} ports and ${sketch.holes.length} mounting holes`}
        stroke-width={hair}
      >
        <path class="solid" d={`M${path}Z`} />
        {sketch.swept === null ? null : (
          <g class="ring" transform={`translate(${sketch.swept.x_mm} ${-sketch.swept.y_mm})`}>
            <circle r={sketch.swept.diameter_mm / 2} />
            <circle r={sketch.swept.hub_mm / 2} />
          </g>
        )}
        {sketch.ports.map(({ x_mm, y_mm, bore_mm }) => (
          <circle key={`${x_mm} ${y_mm}`} class="port" cx={x_mm} cy={-y_mm} r={bore_mm / 2} />
        ))}
        {sketch.holes.map(({ x_mm, y_mm, diameter_mm }) => (
          <g key={`${x_mm} ${y_mm}`} class="hole">
            <circle cx={x_mm} cy={-y_mm} r={diameter_mm / 2} />
            <path
              d={`M${x_mm - diameter_mm} ${-y_mm}h${2 * diameter_mm}M${x_mm} ${-y_mm - diameter_mm}v${2 * diameter_mm}`}
            />
          </g>
        ))}
        <g class="dimension" font-size={text}>
          <path d={`M${box.x0} ${-box.y1 - 0.5 * room}H${box.x1}`} />
          <text x={(box.x0 + box.x1) / 2} y={-box.y1 - 0.6 * room} text-anchor="middle">
            {figure(wide)} mm
          </text>
          <path d={`M${box.x0 - 0.5 * room} ${-box.y1}V${-box.y0}`} />
          <text
            x={box.x0 - 0.6 * room}
            y={-(box.y0 + box.y1) / 2}
            text-anchor="middle"
            transform={`rotate(-90 ${box.x0 - 0.6 * room} ${-(box.y0 + box.y1) / 2})`}
          >
            {figure(high)} mm
          </text>
        </g>
      </svg>
      <figcaption>
        From the outlet side. Ports: {sketch.ports.length} of the starting design &ldquo;
        {sketch.start ?? 'none'}&rdquo;.{sketch.swept === null ? '' : ' Chain lines: fan and hub.'}
      </figcaption>
    </figure>
  );
}
