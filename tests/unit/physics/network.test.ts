/** Flow networks against closed forms, the loop method of Cross, and conservation. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { solveNetwork } from '../../../src/physics/index.ts';
import type { BranchLaw, Network } from '../../../src/physics/index.ts';

type Branch = readonly [from: number, to: number];

function network(
  nodes: number,
  branches: readonly Branch[],
  held: Readonly<Record<number, number>>,
  fed: Readonly<Record<number, number>> = {},
): Network {
  return {
    nodes,
    from: Int32Array.from(branches, ([a]) => a),
    to: Int32Array.from(branches, ([, b]) => b),
    held_Pa: Float64Array.from({ length: nodes }, (_, n) => held[n] ?? NaN),
    inflow_m3_per_s: Float64Array.from({ length: nodes }, (_, n) => fed[n] ?? 0),
  };
}

const linear =
  (resistance: readonly number[]): BranchLaw =>
  (b, q, out) => {
    out[0] = resistance[b] * q;
    out[1] = resistance[b];
  };

const quadratic =
  (k: readonly number[]): BranchLaw =>
  (b, q, out) => {
    out[0] = k[b] * q * Math.abs(q);
    out[1] = 2 * k[b] * Math.abs(q);
  };

describe('solveNetwork()', () => {
  it('adds resistances in series', () => {
    const found = solveNetwork(network(3, [[0, 1], [1, 2]], { 0: 10, 2: 0 }), linear([2, 3])); // prettier-ignore
    expect(found.flow_m3_per_s[0]).toBeCloseTo(2, 12);
    expect(found.flow_m3_per_s[1]).toBeCloseTo(2, 12);
    expect(found.pressure_Pa[1]).toBeCloseTo(6, 12);
  });

  it('adds conductances in parallel', () => {
    const net = network(2, [[0, 1], [0, 1]], { 1: 0 }, { 0: 5 }); // prettier-ignore
    const found = solveNetwork(net, linear([2, 3]));
    // 1/R = 1/2 + 1/3.
    expect(found.pressure_Pa[0]).toBeCloseTo(6, 12);
    expect(found.flow_m3_per_s[0]).toBeCloseTo(3, 12);
  });

  it('balances a Wheatstone bridge of linear branches, and solves one out of balance', () => {
    const bridge: Branch[] = [[0, 1], [0, 2], [1, 2], [1, 3], [2, 3]]; // prettier-ignore
    const balanced = solveNetwork(network(4, bridge, { 0: 1, 3: 0 }), linear([1, 2, 7, 3, 6]));
    expect(Math.abs(balanced.flow_m3_per_s[2])).toBeLessThan(1e-14);
    // Unbalanced, by Kirchhoff's two equations solved by hand: 1, 2, 1, 2, 1 ohm between 1 V and 0
    // give 4/7 V at node 1 and 3/7 V at node 2.
    const open = solveNetwork(network(4, bridge, { 0: 1, 3: 0 }), linear([1, 2, 1, 2, 1]));
    expect(open.pressure_Pa[1]).toBeCloseTo(4 / 7, 12);
    expect(open.pressure_Pa[2]).toBeCloseTo(3 / 7, 12);
    expect(open.flow_m3_per_s[2]).toBeCloseTo(1 / 7, 12);
  });

  it('splits quadratic branches by the roots of their resistances', () => {
    const k = [1, 4, 9];
    const net = network(2, [[0, 1], [0, 1], [0, 1]], { 1: 0 }, { 0: 11 }); // prettier-ignore
    const found = solveNetwork(net, quadratic(k));
    // Q_i = Q (1/sqrt k_i) / sum(1/sqrt k), dp = (Q / sum(1/sqrt k))^2: 6, 3, 2 and 36.
    expect(found.pressure_Pa[0]).toBeCloseTo(36, 9);
    expect(Array.from(found.flow_m3_per_s, (q) => Math.round(1e9 * q) / 1e9)).toEqual([6, 3, 2]);
    expect(found.imbalance).toBeLessThan(1e-14);
  });

  it('leaves the bridge of a balanced quadratic Wheatstone bridge still', () => {
    const bridge: Branch[] = [[0, 1], [0, 2], [1, 2], [1, 3], [2, 3]]; // prettier-ignore
    const found = solveNetwork(network(4, bridge, { 0: 4, 3: 0 }), quadratic([1, 4, 1, 3, 12]));
    // Both arms divide 4 as 1 : 3, so nothing drives the bridge.
    expect(Math.abs(found.flow_m3_per_s[2])).toBeLessThan(1e-5);
    expect(found.pressure_Pa[1]).toBeCloseTo(3, 9);
    expect(found.flow_m3_per_s[0]).toBeCloseTo(1, 6);
  });

  it('agrees with the loop corrections of Cross 1936 on two loops', () => {
    // 100 l/s in at node 0; 20, 50 and 30 l/s drawn at nodes 1, 3 and 2; h = k Q |Q|, invented k.
    const k = [6, 3, 5, 2, 4];
    const branches: Branch[] = [[0, 1], [0, 2], [1, 2], [1, 3], [2, 3]]; // prettier-ignore
    const q = [50, 50, 0, 30, 20];
    // Loops 0-1-2 and 1-3-2, with the sense of each branch in them.
    const loops: readonly (readonly [number, number])[][] = [
      [[0, 1], [2, 1], [1, -1]], // prettier-ignore
      [[3, 1], [4, -1], [2, -1]], // prettier-ignore
    ];
    for (let round = 0; round < 300; round++) {
      for (const loop of loops) {
        let head = 0;
        let slope = 0;
        for (const [b, sense] of loop) {
          head += sense * k[b] * q[b] * Math.abs(q[b]);
          slope += 2 * k[b] * Math.abs(q[b]);
        }
        for (const [b, sense] of loop) q[b] -= (sense * head) / slope;
      }
    }
    const net = network(4, branches, { 0: 0 }, { 1: -20, 2: -30, 3: -50 });
    const found = solveNetwork(net, quadratic(k));
    for (let b = 0; b < 5; b++) expect(found.flow_m3_per_s[b]).toBeCloseTo(q[b], 8);
    expect(found.imbalance).toBeLessThan(1e-12);
  });

  it('takes a branch that drives: the operating point of a fan is where the curves meet', () => {
    // Fan 100 - 4 Q^2 against a plate 21 Q^2: 25 Q^2 = 100, Q = 2, 84 Pa.
    const law: BranchLaw = (b, q, out) => {
      out[0] = b === 0 ? 4 * q * Math.abs(q) - 100 : 21 * q * Math.abs(q);
      out[1] = (b === 0 ? 8 : 42) * Math.abs(q);
    };
    const found = solveNetwork(network(2, [[0, 1], [1, 0]], { 0: 0 }), law); // prettier-ignore
    expect(found.flow_m3_per_s[0]).toBeCloseTo(2, 9);
    expect(found.pressure_Pa[1]).toBeCloseTo(84, 8);
  });

  it('refuses a node that hangs in the air', () => {
    const net = network(4, [[0, 1], [2, 3]], { 0: 1 }); // prettier-ignore
    expect(() => solveNetwork(net, linear([1, 1]))).toThrow(/node 2 /);
  });

  it('balances any network to 1e-9, with one answer whatever the start', () => {
    const size = fc.integer({ min: 3, max: 14 });
    fc.assert(
      fc.property(
        size,
        fc.infiniteStream(fc.double({ min: 0, max: 1, noNaN: true })),
        (n, draws) => {
          const next = (): number => draws.next().value;
          // A tree reaches every node, further branches close loops.
          const branches: Branch[] = [];
          for (let i = 1; i < n; i++) branches.push([Math.floor(next() * i * 0.999), i]);
          for (let i = 0; i < n; i++) {
            const a = Math.floor(next() * n * 0.999);
            const b = Math.floor(next() * n * 0.999);
            if (a !== b) branches.push([a, b]);
          }
          const fed: Record<number, number> = {};
          for (let i = 1; i < n; i++) fed[i] = Math.round(20 * next() - 10);
          const k = branches.map(() => 0.1 + 10 * next());
          const mix = branches.map(() => next());
          // Laminar and turbulent shares in one law: monotone, with a slope that is only roughly right.
          const law: BranchLaw = (b, q, out) => {
            out[0] = k[b] * q * (1 - mix[b] + mix[b] * Math.abs(q));
            out[1] = 1.2 * k[b] * (1 - mix[b] + 2 * mix[b] * Math.abs(q));
          };
          const net = network(n, branches, { 0: 0 }, fed);
          const found = solveNetwork(net, law);
          expect(found.imbalance).toBeLessThanOrEqual(1e-9);
          const start = Float64Array.from(branches, () => 200 * next() - 100);
          const again = solveNetwork(net, law, start);
          expect(again.imbalance).toBeLessThanOrEqual(1e-9);
          let most = 0;
          for (const q of found.flow_m3_per_s) most = Math.max(most, Math.abs(q));
          found.flow_m3_per_s.forEach((q, b) => {
            expect(Math.abs(q - again.flow_m3_per_s[b])).toBeLessThanOrEqual(1e-4 * most + 1e-4);
          });
        },
      ),
      { seed: 9, numRuns: 300 },
    );
  });
});
