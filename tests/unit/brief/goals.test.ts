/** Goals of a brief: limits that say nothing, contradict, or always apply. */
import { describe, expect, it } from 'vitest';
import { effectiveLimits } from '../../../src/brief/index.ts';
import { aBrief, faultsWith } from '../../support/briefs.ts';

type Changes = Readonly<Record<string, unknown>>;
const messages = (changes: Changes): string[] => faultsWith(changes).map((fault) => fault.message);
const paths = (changes: Changes): string[] => faultsWith(changes).map((fault) => fault.path);
const limits = (...list: readonly unknown[]): Changes => ({ 'goals.limits': list });

describe('goals', () => {
  it('refuses a limit without a bound', () => {
    expect(paths(limits({ measure: 'mass_g' }))).toEqual(['goals.limits[0]']);
  });

  it('refuses bounds that no value keeps, in one limit or in two', () => {
    const message = /is 5; it must be at most 3, the bound of goals\.limits\[0\]\.atMost\./u;
    expect(messages(limits({ measure: 'mass_g', atMost: 3, atLeast: 5 }))[0]).toMatch(message);
    expect(
      messages(limits({ measure: 'mass_g', atMost: 3 }, { measure: 'mass_g', atLeast: 5 }))[0],
    ).toMatch(message);
  });

  it('refuses to loosen a built-in limit, or to contradict it', () => {
    expect(paths(limits({ measure: 'thinnestWall_mm', atLeast: 0.4 }))).toEqual([
      'goals.limits[0].atLeast',
    ]);
    expect(paths(limits({ measure: 'thinnestWall_mm', atMost: 0.4 }))).toEqual([
      'goals.limits[0].atMost',
    ]);
    expect(paths(limits({ measure: 'overlapDepth_mm', atMost: 0.1 }))).toEqual([
      'goals.limits[0].atMost',
    ]);
  });

  it('always applies the built-in limits', () => {
    expect(effectiveLimits(aBrief({ 'process.minimumWall_mm': 1.2 }))).toEqual([
      { measure: 'overlapDepth_mm', atMost: 0 },
      { measure: 'thinnestWall_mm', atLeast: 1.2 },
    ]);
  });

  it('adds the limits of the brief and keeps the tighter bound', () => {
    const brief = aBrief(
      limits(
        { measure: 'mass_g', atMost: 40 },
        { measure: 'thinnestWall_mm', atLeast: 1.5 },
        { measure: 'mass_g', atMost: 30, atLeast: 10 },
      ),
    );
    expect(effectiveLimits(brief)).toEqual([
      { measure: 'overlapDepth_mm', atMost: 0 },
      { measure: 'thinnestWall_mm', atLeast: 1.5 },
      { measure: 'mass_g', atMost: 30, atLeast: 10 },
    ]);
  });
});
