/** The scale of a colouring, with numbers and unit. */
import { scaleLinear } from 'd3-scale';
import type { JSX } from 'preact';
import type { ShadeKind } from '../../engine/index.ts';
import { scaleColour } from '../solid/colour-scale.ts';
import { SHADES } from '../solid/shades.ts';
import { rangeOf } from '../solid/stage.ts';
import { shown } from '../solid/look.ts';
import { figure } from '../state/words.ts';
import { modelled } from '../solid/models.ts';

const SIZE = { width: 480, height: 52 } as const;
const BAR = { left: 12, right: 24, top: 6, height: 16 } as const;
const STEPS = 64;

interface Props {
  readonly kind: ShadeKind;
  readonly isWaiting: boolean;
}

export function ShadeLegend({ kind, isWaiting }: Props): JSX.Element {
  const { label, unit, scale, meaning, ofAir } = SHADES[kind];
  const range = rangeOf(kind);
  const [low, high] = [scale * range.low, scale * range.high];
  const x = scaleLinear([low, high], [BAR.left, SIZE.width - BAR.right]);
  const width = (SIZE.width - BAR.right - BAR.left) / STEPS;
  const foot = BAR.top + BAR.height;
  const limit = kind === 'overhang' ? overhangLimit() : null;
  return (
    <figure class="legend">
      <figcaption>
        {label} [{unit}]{isWaiting ? <span class="soft"> working it out ...</span> : null}
      </figcaption>
      <svg
        viewBox={`0 0 ${SIZE.width} ${SIZE.height}`}
        role="img"
        aria-label={`Colours run from dark for ${figure(low)} ${unit} to light for ${figure(high)} ${unit}${range.isOpen ? ' and more' : ''}`}
      >
        {Array.from({ length: STEPS }, (_, k) => (
          <rect
            key={k}
            x={BAR.left + k * width}
            y={BAR.top}
            width={width + 0.6}
            height={BAR.height}
            fill={`rgb(${scaleColour((k + 0.5) / STEPS)
              .map((c) => Math.round(255 * c))
              .join()})`}
          />
        ))}
        {x.ticks(6).map((tick, k, all) => (
          <g key={tick}>
            <line class="axis" x1={x(tick)} x2={x(tick)} y1={foot} y2={foot + 4} />
            <text class="tick" x={x(tick)} y={foot + 16} text-anchor="middle">
              {tick}
              {range.isOpen && k === all.length - 1 ? '+' : ''}
            </text>
          </g>
        ))}
        {limit === null ? null : (
          <g>
            <line class="axis" x1={x(limit)} x2={x(limit)} y1={0} y2={foot + 4} />
            <text class="tick" x={x(limit)} y={foot + 28} text-anchor="middle">
              limit {limit}
            </text>
          </g>
        )}
      </svg>
      <p class="hint">
        <span class="swatch none" /> no value here. {meaning}
        {!ofAir && shown.value !== 'part' ? ' The air itself has none.' : ''}
      </p>
    </figure>
  );
}

function overhangLimit(): number | null {
  const [first] = modelled.value.values();
  return first?.brief.process.overhangLimit_deg ?? null;
}
