/** What is told of a real computed flow beyond its pressure drop; the march is cut short. */
import { describe, expect, it } from 'vitest';
import { planVerification } from '../../../src/engine/index.ts';
import type { VerifyPlan } from '../../../src/engine/index.ts';
import { findInFlow } from '../../../src/engine/verify-findings.ts';
import { flowFindings, reversedDuct } from '../../../src/flow/index.ts';
import type { Duct, SolvedChannel } from '../../../src/flow/index.ts';
import { solveDuct } from '../../../src/flow/solve.ts';
import { readVerifyFile, writeVerifyFile } from '../../../src/formats/index.ts';
import { findingLines } from '../../../src/cli/verify-findings.ts';
import { aComputedFlow } from '../../support/computed-flows.ts';
import { aBrief, aChannel, aDesign, aGrid } from '../../support/plates.ts';

/** Four bores of 10 mm through 4 mm: about 10 000 cells. */
const bore = aChannel({
  bore_mm: [10],
  points_mm: [
    [0, 0, 0],
    [0, 0, 4],
  ],
  placements: aGrid(2, 20),
});
const design = aDesign({ plate: { thickness_mm: 4 }, channels: [bore] });

function planFor(objective: string): VerifyPlan {
  const usual = aBrief();
  const objectives = ['pressureDrop_Pa', objective];
  const brief = {
    ...usual,
    plate: { ...usual.plate, thickness_mm: 4 },
    goals: { ...usual.goals, objectives },
  };
  const plan = planVerification(brief, design, 10, 1);
  if (typeof plan === 'string') throw new Error(plan);
  return plan;
}

function solve(duct: Duct, plan: VerifyPlan, share: number): SolvedChannel {
  const march = solveDuct(duct, {
    ...plan.options,
    inletLength_mm: 10,
    outletLength_mm: 15,
    reynolds: plan.reynolds * share,
    tolerance: 0.01,
    maxSteps: 1500,
    speed: 0.08,
    subgrid: 0.05,
  });
  let next = march.next();
  while (next.done !== true) next = march.next();
  return { solved: next.value, speed: 0.08, velocity_m_per_s: plan.velocity_m_per_s * share };
}

describe('findInFlow()', () => {
  const plan = planFor('dustCapture');
  const channel = solve(plan.duct, plan, 1);
  const found = findInFlow(channel, plan.duct, plan.options, plan.findings).next();
  if (found.done !== true) throw new Error('no second flow was asked for');
  const { findings, landings } = found.value;

  it('lands next to nothing in a short straight bore, and says how sure it is', () => {
    const { caught, dry, classes, byPocket } = findings.dust;
    expect(caught.share).toBeLessThan(0.02);
    expect(caught.high).toBeGreaterThan(caught.share);
    expect(dry.share).toBeLessThan(0.02);
    expect(byPocket).toEqual([]);
    for (const one of classes) {
      expect(one.entered + one.onFace + one.afloat).toBeGreaterThanOrEqual(one.started);
      expect(one.entered).toBeGreaterThan(0.2 * one.started);
    }
  });

  it('finds more shear than developed flow has at the walls of so short a bore', () => {
    // Developed: 8 mu U / D (Hagen & Poiseuille); an entrance has several times that.
    const developed_Pa = (8 * 1.82e-5 * 1) / 0.01;
    expect(findings.wallShear.mean_Pa).toBeGreaterThan(1.2 * developed_Pa);
    expect(findings.wallShear.mean_Pa).toBeLessThan(8 * developed_Pa);
    expect(findings.wallShear.top_Pa).toBeGreaterThan(findings.wallShear.mean_Pa);
    // pi D L of the wall.
    expect(findings.wallShear.area_mm2).toBeGreaterThan(0.85 * Math.PI * 40);
    expect(findings.wallShear.area_mm2).toBeLessThan(1.1 * Math.PI * 40);
  });

  it('is asked for reversed air by a brief that names purge, and only then', () => {
    expect(plan.findings.reverseShare).toBe(0);
    expect(findings.dust.purged).toBeNull();
    const purge = planFor('purge');
    expect(purge.findings.reverseShare).toBe(aBrief().air.reverseShare);
    expect(purge.findings.digest).not.toBe(plan.findings.digest);
    const reversed = solve(reversedDuct(plan.duct), plan, 0.4);
    const { purged } = flowFindings(channel, reversed, plan.findings.options);
    expect(purged?.low).toBeLessThanOrEqual(purged?.share ?? Number.NaN);
    expect(purged?.high).toBeGreaterThanOrEqual(purged?.share ?? Number.NaN);
  });

  it('comes back from the file as it went in, and shows in words', () => {
    const [read] = readVerifyFile(
      writeVerifyFile('0.1.0', [aComputedFlow({ findings })]),
      'verify.json',
    );
    expect(read.findings).toEqual(findings);
    expect(findingLines([read]).join('\n')).toContain('caught dry [%]');
    expect(landings).toContain('<PolyData>');
  });
});
