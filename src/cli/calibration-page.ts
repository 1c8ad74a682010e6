/** A calibration for people: readings against the model, factors, and what they are worth. */
import { LOSS_PARTS } from '../brief/index.ts';
import type { Calibrated, PartReport } from '../engine/index.ts';
import { LOSS_WORDS, figure } from '../formats/index.ts';
import type { Terminal } from './terminal.ts';
import { table, wrap } from './words.ts';

export function calibrationPage(title: string, calibrated: Calibrated, terminal: Terminal): string {
  const { calibration, readings, parts, noiseFactor } = calibrated;
  const lines = [
    terminal.strong(`${title}: calibrated by ${calibration.source}`),
    '',
    table(
      [
        'flow [m3/h]',
        'measured [Pa]',
        'estimated [Pa]',
        'off by [%]',
        'calibrated [Pa]',
        'off by [%]',
      ],
      readings.map(({ flow_m3_per_h, pressure_Pa, estimated_Pa, calibrated_Pa }) => [
        figure(flow_m3_per_h),
        figure(pressure_Pa),
        figure(estimated_Pa),
        (100 * (estimated_Pa / pressure_Pa - 1)).toFixed(1),
        figure(calibrated_Pa),
        (100 * (calibrated_Pa / pressure_Pa - 1)).toFixed(1),
      ]),
    ),
    '',
    table(
      [
        'part',
        'factor',
        '95 % from',
        'to',
        'share of the drop [%]',
        'learnt from the readings [%]',
      ],
      LOSS_PARTS.map((part, j) => {
        const { value, low, high } = calibration[part];
        return [
          LOSS_WORDS[part],
          figure(value),
          figure(low),
          figure(high),
          (100 * parts[j].share).toFixed(0),
          (100 * parts[j].learnt).toFixed(0),
        ];
      }),
    ),
  ];
  const doubts = doubtsOf(parts, noiseFactor);
  if (doubts.length > 0) lines.push('', ...doubts.map((text) => wrap(text, '')));
  return lines.join('\n');
}

/** Below this a part's factor rests on the estimate, not on the coupon. */
const LITTLE_LEARNT = 0.2;

function doubtsOf(parts: readonly PartReport[], noiseFactor: number): string[] {
  const doubts: string[] = [];
  const unknown = parts.filter(({ learnt }) => learnt < LITTLE_LEARNT);
  if (unknown.length > 0) {
    const names = unknown.map(({ part }) => LOSS_WORDS[part]).join(', ');
    doubts.push(`The coupon says little about ${names}: those factors stay near the estimate.`);
  }
  for (const { part, atBound } of parts) {
    if (atBound) {
      doubts.push(
        `The factor of ${LOSS_WORDS[part]} ran into its bound: do drawing, air and readings belong together? Measure the printed bores first.`,
      );
    }
  }
  if (noiseFactor > 1.5) {
    doubts.push(
      `Readings miss the model by ${figure(noiseFactor)} times their stated scatter; the intervals are widened by that.`,
    );
  }
  return doubts;
}
