/** The limits that apply to a brief: the built-in ones and its own. */
import type { Brief, Limit } from './schema.ts';

/** A bound that always applies, with the key of the brief that sets it. */
interface BuiltInLimit {
  readonly measure: string;
  readonly bound: 'atMost' | 'atLeast';
  readonly value: number;
  readonly from: string;
}

/** Channels never overlap, and no wall is thinner than the process prints. */
export function builtInLimits(process: Brief['process']): readonly BuiltInLimit[] {
  return [
    { measure: 'overlapDepth_mm', bound: 'atMost', value: 0, from: 'a sound part' },
    {
      measure: 'thinnestWall_mm',
      bound: 'atLeast',
      value: process.minimumWall_mm,
      from: 'process.minimumWall_mm',
    },
  ];
}

/**
 * Every limit a design must keep: the built-in ones first, then those of the brief in its order,
 * one entry per measure, the tighter bound where two are given.
 *
 * - overlapDepth_mm at most 0
 * - thinnestWall_mm at least process.minimumWall_mm
 */
export function effectiveLimits(brief: Brief): Limit[] {
  const bounds = new Map<string, { atMost?: number; atLeast?: number }>();
  const add = (measure: string, atMost: number | undefined, atLeast: number | undefined): void => {
    const known = bounds.get(measure) ?? {};
    bounds.set(measure, known);
    if (atMost !== undefined) known.atMost = Math.min(atMost, known.atMost ?? Infinity);
    if (atLeast !== undefined) known.atLeast = Math.max(atLeast, known.atLeast ?? -Infinity);
  };
  for (const { measure, bound, value } of builtInLimits(brief.process)) {
    add(measure, bound === 'atMost' ? value : undefined, bound === 'atLeast' ? value : undefined);
  }
  for (const limit of brief.goals.limits) add(limit.measure, limit.atMost, limit.atLeast);
  return [...bounds].map(([measure, bound]) => ({ measure, ...bound }));
}
