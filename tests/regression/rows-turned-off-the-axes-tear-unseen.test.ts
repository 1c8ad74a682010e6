import { expect, it } from 'vitest';
import type { Channel, Placement } from '../../src/design/index.ts';
import { estimatePrint, rasterPrint } from '../../src/print/index.ts';
import { PROCESS } from '../support/printed-plate.ts';
import { aChannel, aDesign, aPlacement, samplesOf } from '../support/plates.ts';

/** A square grid of ports on a round plate of 80 mm, turned as a whole. */
function grid(pitchX_mm: number, pitchY_mm: number, reach_mm: number, turn_deg: number) {
  const c = Math.cos((turn_deg * Math.PI) / 180);
  const s = Math.sin((turn_deg * Math.PI) / 180);
  const placements: Placement[] = [];
  const inRows = new Map<number, number>();
  for (let i = -20; i <= 20; i++) {
    for (let j = -20; j <= 20; j++) {
      const x = i * pitchX_mm;
      const y = j * pitchY_mm;
      if (x * x + y * y > reach_mm * reach_mm) continue;
      inRows.set(y, (inRows.get(y) ?? 0) + 1);
      placements.push(aPlacement({ x_mm: c * x - s * y, y_mm: s * x + c * y }));
    }
  }
  return { placements, inRows };
}

/** Least 1 - n d / chord over the rows, chord of a disc of 80 mm: plane geometry, exact. */
function rowShare(inRows: ReadonlyMap<number, number>, width_mm: number): number {
  const rows = [...inRows].map(([y, n]) => 1 - (n * width_mm) / (2 * Math.sqrt(1600 - y * y)));
  return Math.min(...rows);
}

function shares(channel: Channel): [number, number] {
  const samples = samplesOf(aDesign({ plate: { thickness_mm: 20 }, channels: [channel] }), 64);
  return [
    estimatePrint(samples, PROCESS).weakestSection,
    rasterPrint(samples, PROCESS).weakestSection,
  ];
}

// Ligament efficiency of a perforated plate is taken along the row: n bores d across a chord c leave
// 1 - n d/c there, however the pattern is turned. A search once turned
// its rows by a few degrees, out of the cuts along x and y, and read twice as strong.
it('a row of holes tears alike however the pattern is turned', () => {
  for (const turn_deg of [0, 4, 11, 30, 77]) {
    const { placements, inRows } = grid(6, 7.5, 32, turn_deg);
    const expected = rowShare(inRows, 5);
    for (const share of shares(aChannel({ bore_mm: [5], placements }))) {
      // A pixel of 0.2 mm too much per pitch of 6 mm is .033; the estimate's planes lie 0.5 mm apart.
      expect(Math.abs(share - expected), `${turn_deg} deg: ${share}, ${expected}`).toBeLessThan(
        0.04,
      );
    }
  }
});

it('slots end to end tear alike however the pattern is turned', () => {
  for (const turn_deg of [0, 3, 20]) {
    const { placements, inRows } = grid(21, 5, 24, turn_deg);
    const slot = aChannel({
      section: { kind: 'slot', aspect: 5 },
      bore_mm: [4],
      placements: placements.map((placement) => ({ ...placement, turn_deg })),
    });
    const expected = rowShare(inRows, 20);
    for (const share of shares(slot)) {
      expect(Math.abs(share - expected), `${turn_deg} deg: ${share}, ${expected}`).toBeLessThan(
        0.05,
      );
    }
  }
});
