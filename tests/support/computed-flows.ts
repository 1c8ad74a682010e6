/** Computed flows of invented numbers. */
import type { VerifyCase } from '../../src/formats/index.ts';

export function aComputedFlow(changes: Partial<VerifyCase> = {}): VerifyCase {
  const grid = {
    cellsAcross: 15,
    cells: 60_000,
    steps: 6000,
    loss: 2.5,
    scatter: 0.001,
    massError: 0.005,
    converged: true,
  };
  return {
    design: 'd001',
    digest: 'a'.repeat(64),
    solver: 2,
    role: 'median',
    shape: 0,
    shapes: 1,
    channels: 9,
    cells: 15,
    medianVelocity_m_per_s: 1,
    velocity_m_per_s: 1,
    reynolds: 330,
    density_kg_per_m3: 1.2,
    estimate_Pa: 1.8,
    pressureDrop_Pa: 1.5,
    uncertainty_Pa: 0.1,
    recovery_Pa: 0.2,
    difference: 0.2,
    grids: [grid, { ...grid, cellsAcross: 20, cells: 140_000 }],
    trust: 'by place',
    verdict: 'An invented verdict.',
    features: {
      reynolds: -1.1,
      slenderness: 1.4,
      turning: 0,
      dean: 0,
      areaChange: 0,
      pockets: 0,
      openShare: 0.3,
    },
    field: 'd001-flow-median-1.00.vti',
    slice: 'd001-flow-median-1.00.svg',
    ...changes,
  };
}
