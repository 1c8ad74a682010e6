/** How computed flows are told beside their estimates, wherever they show. */
import { figure } from './figure.ts';
import type { Trust, VerifyCase } from './verify-schema.ts';

/** Headings of `verifyRow`. */
export const VERIFY_HEADINGS = [
  'channel',
  'velocity [m/s]',
  'Reynolds',
  'estimate [Pa]',
  'computed [Pa]',
  '+- [Pa]',
  'estimate off by [%]',
  'trust',
] as const;

const TRUST_WORDS: Readonly<Record<Trust, string>> = {
  computed: 'computed',
  either: 'either',
  'by place': 'by place',
  neither: 'neither',
};

const ROLE_WORDS: Readonly<Record<VerifyCase['role'], string>> = {
  least: 'least flow',
  median: 'median flow',
  widest: 'greatest flow',
};

/** One computed flow as a row of a table. */
export function verifyRow(entry: VerifyCase): string[] {
  return [
    ROLE_WORDS[entry.role],
    entry.velocity_m_per_s.toFixed(2),
    entry.reynolds.toFixed(0),
    figure(entry.estimate_Pa),
    figure(entry.pressureDrop_Pa),
    String(Number(entry.uncertainty_Pa.toPrecision(2))),
    (100 * entry.difference).toFixed(1),
    TRUST_WORDS[entry.trust],
  ];
}

/** What each verdict says, once, with the velocities it holds for. */
export function verdictLines(cases: readonly VerifyCase[]): string[] {
  const byVerdict = new Map<string, string[]>();
  for (const { verdict, velocity_m_per_s } of cases) {
    const at = byVerdict.get(verdict) ?? [];
    at.push(velocity_m_per_s.toFixed(2));
    byVerdict.set(verdict, at);
  }
  const many = byVerdict.size > 1;
  return [...byVerdict].map(([verdict, at]) =>
    many ? `At ${[...new Set(at)].join(', ')} m/s: ${verdict}` : verdict,
  );
}

/** How the numbers came about, for whoever reads them later. */
export const VERIFY_METHOD =
  'Computed by lattice Boltzmann on two grids, one channel of an endless array of its like, bore as drawn, smooth wall; the uncertainty joins grid, unsteadiness and outlet.';

/** A few words on a computed design, for the table of a front: 'computed, estimate +12 %'. */
export function verifyMark(cases: readonly VerifyCase[]): string | null {
  const first = cases.find((entry) => entry.role === 'median') ?? cases.at(0);
  if (first === undefined) return null;
  const percent = Math.round(100 * first.difference);
  return `computed, estimate ${percent < 0 ? '' : '+'}${percent} %`;
}
