/** Wall shear, backward flow and dust in a computed flow, as plain data and as a file of landings. */
import type { Brief } from '../brief/index.ts';
import { DEFAULT_GRAINS, flowFindings, landingFile, solveReversed } from '../flow/index.ts';
import type {
  Duct,
  FindingsOptions,
  ReversedProgress,
  SolvedChannel,
  VerifyOptions,
} from '../flow/index.ts';
import type { VerifyFindings } from '../formats/index.ts';
import { downOf } from '../measures/index.ts';
import { sha256 } from '../numeric/index.ts';
import { FINE_TEST_DUST } from '../physics/index.ts';

/** What is to be found in a solved channel. */
export interface FindingsPlan {
  readonly digest: string;
  readonly options: FindingsOptions;
  /** Flow of the purge over that of the solved flow, 0 when the brief asks for none. */
  readonly reverseShare: number;
}

/** Measure whose naming in a brief makes the reversed flow worth its time. */
const PURGE = 'purge';

/** @param where the channel and the air of the solve. */
export function planFindings(
  brief: Brief,
  where: Pick<FindingsOptions, 'samples' | 'shape' | 'air'>,
): FindingsPlan {
  return {
    digest: dustDigest(brief),
    options: {
      ...where,
      classes: brief.dust.classes ?? FINE_TEST_DUST,
      density_kg_per_m3: brief.dust.density_kg_per_m3,
      down: downOf(brief),
      grains: DEFAULT_GRAINS,
    },
    reverseShare: asksForPurge(brief) ? brief.air.reverseShare : 0,
  };
}

function asksForPurge({ goals }: Brief): boolean {
  return goals.objectives.includes(PURGE) || goals.limits.some(({ measure }) => measure === PURGE);
}

/** SHA-256 of what findings hang on besides the plate and its air. */
export function dustDigest(brief: Brief): string {
  const { density_kg_per_m3, classes = FINE_TEST_DUST } = brief.dust;
  const reverse = asksForPurge(brief) ? brief.air.reverseShare : 0;
  const text = JSON.stringify([density_kg_per_m3, classes, downOf(brief), reverse, DEFAULT_GRAINS]);
  return sha256(new TextEncoder().encode(text));
}

export interface Found {
  readonly findings: VerifyFindings;
  /** Landings as VTK PolyData. */
  readonly landings: string;
}

/**
 * Looks for everything in the solved channel; solves the reversed flow first where the plan asks for it.
 */
export function* findInFlow(
  channel: SolvedChannel,
  duct: Duct,
  options: VerifyOptions,
  plan: FindingsPlan,
): Generator<ReversedProgress & { readonly pass: number }, Found> {
  let reversed: SolvedChannel | null = null;
  if (plan.reverseShare > 0) {
    const march = solveReversed(duct, options, plan.reverseShare, channel.velocity_m_per_s);
    let next = march.next();
    for (; next.done !== true; next = march.next()) yield { ...next.value, pass: 2 };
    reversed = next.value;
  }
  const found = flowFindings(channel, reversed, plan.options);
  const { dust } = found;
  return {
    findings: {
      digest: plan.digest,
      wallShear: found.wallShear,
      pocketShear: [...found.pocketShear],
      runsBack: found.recirculation.share,
      runsBackInPockets: Array.from(found.recirculation.pocketShare),
      dust: {
        dry: found.dryDust.caught,
        dryInPockets: found.dryDust.inPockets,
        caught: dust.caught,
        inPockets: dust.inPockets,
        byPocket: Array.from(dust.byPocket, upToOne),
        byTenth: Array.from(dust.byTenth, upToOne),
        classes: [...dust.classes],
        lifted: found.lifted,
        purged: found.purged,
      },
    },
    landings: landingFile(dust),
  };
}

/** Sums of shares pass 1 by rounding. */
function upToOne(share: number): number {
  return Math.min(1, share);
}
