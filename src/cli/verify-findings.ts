/** Dust, wall shear and backward flow in computed flows, as text. */
import { flowSplit } from '../engine/index.ts';
import type { VerifyCase, VerifyFindings } from '../formats/index.ts';
import { table, wrap } from './words.ts';

type Known = VerifyFindings['dust']['caught'];
type Found = VerifyCase & { readonly findings: VerifyFindings };

const percent = (share: number): string => (100 * share).toFixed(1);
const range = ({ share, low, high }: Known): string =>
  `${percent(share)} (${percent(low)} to ${percent(high)})`;
const milli = (pascals: number): string => (1000 * pascals).toPrecision(3);

/** What was found in each flow, the first one's dust by size and place, and how to read it. */
export function findingLines(cases: readonly VerifyCase[]): string[] {
  const found = cases.flatMap((entry) =>
    entry.findings === undefined ? [] : [{ ...entry, findings: entry.findings }],
  );
  if (found.length === 0) return [];
  const first = found.find(({ role }) => role === 'median') ?? found[0];
  return [
    table(HEADINGS, found.map(findingRow)),
    `  Dust by size at ${first.velocity_m_per_s.toFixed(2)} m/s:`,
    table(CLASS_HEADINGS, first.findings.dust.classes.map(classRow)),
    wrap(placeWords(first), '  '),
    ...splitWords(cases),
    wrap(METHOD, '  '),
  ];
}

const HEADINGS = [
  'velocity [m/s]',
  'dust caught [%]',
  'in pockets [%]',
  'caught dry [%]',
  'lifted again [%]',
  'purged [%]',
  'wall shear [mPa]',
  'top [mPa]',
  'runs back [%]',
];

function findingRow({ velocity_m_per_s, findings }: Found): string[] {
  const { dust, wallShear, runsBack } = findings;
  return [
    velocity_m_per_s.toFixed(2),
    range(dust.caught),
    range(dust.inPockets),
    range(dust.dry),
    range(dust.lifted),
    dust.purged === null ? '-' : range(dust.purged),
    milli(wallShear.mean_Pa),
    milli(wallShear.top_Pa),
    percent(runsBack),
  ];
}

const CLASS_HEADINGS = ['diameter [um]', 'mass [%]', 'grains', 'caught [%]', 'in pockets [%]'];

function classRow(one: VerifyFindings['dust']['classes'][number]): string[] {
  return [
    String(one.diameter_um),
    percent(one.massShare),
    String(one.entered),
    range(one.caught),
    range(one.inPockets),
  ];
}

function placeWords({ findings }: Found): string {
  const { byTenth, byPocket } = findings.dust;
  const { pocketShear } = findings;
  const tenths = `Landed by tenths of the way through, in % of the mass: ${byTenth.map(percent).join(', ')}.`;
  if (byPocket.length === 0) return tenths;
  const pockets = byPocket.map(
    (share, n) => `${n + 1}: ${percent(share)} % (mean shear ${milli(pocketShear[n].mean_Pa)} mPa)`,
  );
  return `${tenths} Pockets ${pockets.join(', ')}.`;
}

function splitWords(cases: readonly VerifyCase[]): string[] {
  const split = flowSplit(cases);
  if (split.length === 0) return [];
  const parts = split.map(
    ({ role, estimated, computed }) =>
      `${role === 'least' ? 'least' : 'greatest'} flow ${estimated.toFixed(3)} (computed ${computed.toFixed(3)})`,
  );
  return [
    wrap(`Velocity at one pressure drop, over the median channel's: ${parts.join(', ')}.`, '  '),
  ];
}

const METHOD =
  'Grains are tracked through the finer field and stay where they touch a wall; dry ones bounce off what they meet faster than 1 m/s at 7 um, less for larger grains, an order of magnitude. Intervals: 95 % by the number of grains; of lifted and purged dust, the spread of published adhesion (Shao & Lu 2000), an order of magnitude. A brief that names `purge` has the reversed flow solved too.';
