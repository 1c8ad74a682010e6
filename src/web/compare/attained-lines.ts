/** What a quarter, half and three quarters of several fronts attain: staircases and words for them. */
import type { AttainmentSurface, MeasureInfo } from '../../engine/index.ts';
import type { StepLine } from '../plots/steps-draw.ts';
import { figure } from '../state/words.ts';

interface Named extends AttainmentSurface {
  readonly name: string;
}

/** Surfaces that hold something; shares that come to the same number of fronts are one line. */
function distinct(surfaces: readonly AttainmentSurface[], fronts: number): Named[] {
  const held = surfaces.filter(({ corners }) => corners.length > 0);
  return held
    .filter(({ times }, k) => held.findIndex((other) => other.times === times) === k)
    .map((surface) => {
      const shares = held.filter(({ times }) => times === surface.times);
      const percent = shares.map(({ share }) => Math.round(100 * share)).join(', ');
      return { ...surface, name: `${percent} %: ${surface.times} of ${fronts}` };
    });
}

export function attainedLines(
  surfaces: readonly AttainmentSurface[],
  fronts: number,
): readonly StepLine[] {
  return distinct(surfaces, fronts).map(({ name, corners }) => ({ name, corners }));
}

/** For those who do not see the lines: where each has its ends. */
export function attainedWords(
  surfaces: readonly AttainmentSurface[],
  fronts: number,
  x: MeasureInfo,
  y: MeasureInfo,
): string {
  return distinct(surfaces, fronts)
    .map(({ name, corners }) => {
      const at = (k: number): string =>
        `${figure(short(corners[k]))}${unitOf(x)}, ${figure(short(corners[k + 1]))}${unitOf(y)}`;
      const last = corners.length - 2;
      return `${name}, from ${at(0)}${last > 0 ? ` to ${at(last)}` : ''}.`;
    })
    .join(' ');
}

function unitOf({ unit }: MeasureInfo): string {
  return unit === '-' ? '' : ` ${unit}`;
}

function short(value: number): number {
  return Number(value.toPrecision(4));
}
