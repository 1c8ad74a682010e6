/** A fitted correction for people: each flow with and without it, and what it is worth. */
import { FLOW_FEATURES } from '../brief/index.ts';
import type { FittedCorrection } from '../engine/index.ts';
import { citeCorrection, figure } from '../formats/index.ts';
import type { Terminal } from './terminal.ts';
import { table, wrap } from './words.ts';

/** Share of a logarithm in percent. */
const percent = (ratio: number): string => (100 * (ratio - 1)).toFixed(1);

export function correctionPage(
  { correction, cases, unsteady }: FittedCorrection,
  terminal: Terminal,
): string {
  const flows = cases.map(({ entry, ratio, fitted, leftOut }) => [
    entry.design,
    entry.role,
    entry.velocity_m_per_s.toFixed(2),
    figure(entry.estimate_Pa),
    figure(entry.pressureDrop_Pa),
    percent(1 / ratio),
    percent(Math.exp(fitted) / ratio),
    percent(Math.exp(leftOut) / ratio),
  ]);
  const features = FLOW_FEATURES.map((name, j) => {
    const { low, high, scale } = correction.features[name];
    const slope = correction.coefficients[j + 1] / scale;
    const doubt = Math.sqrt(correction.covariance[(j + 1) * (FLOW_FEATURES.length + 2)]) / scale;
    return [name, figure(low), figure(high), slope.toFixed(3), doubt.toFixed(3)];
  });
  const half = correction.width * correction.scatter;
  const lines = [
    terminal.strong(`Correction of the pressure estimate by ${correction.source}`),
    '',
    table(
      [
        'design',
        'channel',
        'velocity [m/s]',
        'estimate [Pa]',
        'computed [Pa]',
        'estimate off by [%]',
        'corrected off by [%]',
        'without its design [%]',
      ],
      flows,
    ),
    '',
    table(['feature', 'from', 'to', 'slope of ln factor', 'doubt of it'], features),
    '',
    wrap(citeCorrection({ correction }) ?? '', ''),
    wrap(
      `Of a design like these a corrected pressure drop holds within ${figure(Number((100 * (Math.exp(half) - 1)).toPrecision(2)))} % (95 %), by designs left out; beyond their features the nearest value is used and the design flagged.`,
      '',
    ),
  ];
  if (unsteady > 0) {
    lines.push(
      `${unsteady} computed ${unsteady === 1 ? 'flow' : 'flows'} did not come to rest and ${unsteady === 1 ? 'was' : 'were'} left aside.`,
    );
  }
  return lines.join('\n');
}
