import { describe, expect, it } from 'vitest';
import { briefTemplate } from '../../../src/brief/index.ts';
import { aBrief, faultsWith } from '../../support/briefs.ts';

const side = (changes: Readonly<Record<string, unknown>> = {}): Record<string, unknown> => ({
  'air.route': { kind: 'side', ...changes },
});

describe('a brief with side exits', () => {
  it('leaves out all around, outwards, each channel with its own exit', () => {
    expect(aBrief(side()).air.route).toEqual({
      kind: 'side',
      direction: 'outward',
      sectors: [{ from_deg: 0, to_deg: 360 }],
      merge: 'none',
    });
  });

  it('keeps a brief without a route going through', () => {
    expect(aBrief().air.route).toEqual({ kind: 'through' });
  });

  it.each([
    [{ sectors: [{ from_deg: 40, to_deg: 20 }] }, /sectors\[0\]\.to_deg is 20.*greater than from_deg, which is 40/], // prettier-ignore
    [{ sectors: [{ from_deg: 0, to_deg: 400 }] }, /to_deg is 400.*at most 360/],
    [{ sectors: [{ from_deg: 300, to_deg: 380 }, { from_deg: 10, to_deg: 40 }] }, /sectors\[1\] is 10 to 40 degrees.*keep clear of air\.route\.sectors\[0\]/], // prettier-ignore
    [{ sectors: [{ from_deg: 0, to_deg: 1 }] }, /sectors\[0\] is 1 degrees wide.*hold one bore/],
  ])('refuses sectors that make no sense: %j', (changes, message) => {
    expect(faultsWith(side(changes)).map((fault) => fault.message).join('\n')).toMatch(message); // prettier-ignore
  });

  it('refuses a plenum in a plate on edge, and a plate too thin for a channel inside it', () => {
    const [plenum] = faultsWith({ ...side({ merge: 'plenum' }), 'plate.build': 'edge' });
    expect(plenum.message).toMatch(/plate\.build is 'edge'/);
    const [thin] = faultsWith({ ...side(), 'plate.thickness_mm': 3 });
    expect(thin.message).toMatch(/plate\.thickness_mm is 3.*at least 3\.6/);
  });

  it('refuses an outline away from the origin', () => {
    const points = [[10, 10], [60, 10], [60, 60], [10, 60]]; // prettier-ignore
    const outline = { kind: 'polygon', points_mm: points };
    const messages = faultsWith({ ...side(), 'plate.outline': outline }).map((f) => f.message);
    expect(messages.join('\n')).toMatch(/contain 0, 0 for side exits/);
  });

  it('suggests the nearest name for a slip', () => {
    expect(faultsWith(side({ sector: [] })).map((f) => f.message).join('\n')).toMatch(/sectors/); // prettier-ignore
  });

  it('is told of in the starting brief', () => {
    expect(briefTemplate()).toMatch(/side: it leaves through the rim/);
  });
});
