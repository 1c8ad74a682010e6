/** A brief explained back in plain words. */
import type { Brief, BriefExplained } from '../engine/index.ts';
import { citeCalibration, figure } from '../formats/index.ts';
import { ribWords } from './rib-words.ts';
import type { Terminal } from './terminal.ts';
import { table, wrap } from './words.ts';

export function briefPage(brief: Brief, explained: BriefExplained, terminal: Terminal): string {
  const { goals, search } = brief;
  const lines = [
    terminal.strong(`Brief "${brief.name}" is sound.`),
    '',
    wrap(
      `The plate covers ${figure(explained.plateArea_cm2)} cm2, of which ${figure(explained.usableArea_cm2)} cm2 lie inside the rim. ` +
        `Air: ${figure(explained.air.density_kg_per_m3)} kg/m3 at ${brief.air.temperature_C} C and ${brief.air.altitude_m} m; ` +
        `pressure drop is quoted at ${figure(explained.designFlow_m3_per_h)} m3/h.`,
      '  ',
    ),
    wrap(
      `Better means: ${goals.objectives.join(', ')}. The search has ${explained.genes} genes, ` +
        `${search.population} designs a generation and at most ${search.generations} generations; seed "${search.seed}".`,
      '  ',
    ),
    wrap(`It begins with: ${explained.starts.join(', ')}.`, '  '),
    ...routeWords(brief).map((words) => wrap(words, '  ')),
    '',
    terminal.strong(`${yardstickWords(brief)} at the design flow, as a yardstick`),
    table(
      [
        'bore [mm]',
        'channels',
        'open area [%]',
        'air speed [m/s]',
        'Reynolds',
        'pressure drop [Pa]',
      ],
      explained.plates.map((plate) => [
        figure(plate.bore_mm),
        String(plate.channels),
        figure(100 * plate.openShare),
        figure(plate.velocity_m_per_s),
        figure(plate.reynolds),
        figure(plate.pressureDrop_Pa),
      ]),
    ),
  ];
  const ribs = ribWords(brief);
  if (ribs !== null) lines.push('', wrap(ribs, ''));
  const cited = citeCalibration(brief);
  if (cited !== null) lines.push('', wrap(cited, ''));
  if (explained.warnings.length > 0) {
    lines.push('', terminal.strong('Worth knowing'));
    lines.push(...explained.warnings.map((text) => wrap(text, '  ')));
  }
  return lines.join('\n');
}

function yardstickWords({ air }: Brief): string {
  return air.route.kind === 'side' ? 'Plain side bends' : 'Plain straight channels';
}

/** Which way the air goes, where it does not go straight through. */
function routeWords({ air: { route } }: Brief): string[] {
  if (route.kind !== 'side') return [];
  const way =
    route.direction === 'outward'
      ? 'Air enters at the inlet face and leaves through the rim; the outlet face stays closed.'
      : 'Air enters through the rim and leaves at the outlet face; the inlet face stays closed.';
  const whole = route.sectors.some(({ from_deg, to_deg }) => to_deg - from_deg >= 360);
  const list = route.sectors.map(({ from_deg, to_deg }) => `${from_deg} to ${to_deg} deg`);
  const where = whole ? 'all around' : `only from ${list.join(', from ')}`;
  const merging = {
    none: 'every channel keeps to itself',
    plenum: 'all channels meet in a plenum inside the plate',
    any: 'the search decides whether channels meet in a plenum inside the plate',
  }[route.merge];
  return [`${way} The rim opens ${where}; ${merging}.`];
}
