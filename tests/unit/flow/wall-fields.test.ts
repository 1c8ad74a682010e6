/** The field between cells, wall shear and backward flow on made-up fields with known answers. */
import { describe, expect, it } from 'vitest';
import { createAirField } from '../../../src/flow/air-field.ts';
import type { ChannelMap } from '../../../src/flow/channel-map.ts';
import { recirculation } from '../../../src/flow/recirculation.ts';
import { shearSummary, wallPatches } from '../../../src/flow/wall-shear.ts';
import { fieldOf, roundDuct, sceneOf } from '../../support/lattice-fields.ts';
import type { Flow } from '../../support/lattice-fields.ts';

const R = 2.5;
const U = 1.2;
const duct = roundDuct(2 * R, 8);
const parabola: Flow = (x, y) => [0, 0, 2 * U * (1 - (x * x + y * y) / (R * R))];
const straight: ChannelMap = {
  length_mm: 8,
  pockets: 0,
  locate(_x, _y, z, out) {
    out.arc_mm = z;
    out.tangent.set([0, 0, 1]);
    out.pocket = -1;
  },
};

describe('createAirField()', () => {
  const field = createAirField(fieldOf(sceneOf(duct, 8.2, 12), parabola));
  const u = new Float64Array(3);

  it('is within 2 % of the greatest speed of the exact profile between the cells, walls included', () => {
    for (let i = 0; i < 40; i++) {
      const r = (R * i) / 39;
      const angle = 0.7 * i;
      const [x, y] = [r * Math.cos(angle), r * Math.sin(angle)];
      field.velocity(x, y, 3.3 + 0.05 * i, u);
      expect(Math.abs(u[2] - parabola(x, y, 0)[2])).toBeLessThan(0.02 * 2 * U);
    }
  });

  it('knows its distance to a round wall within 4 % of a cell', () => {
    for (let i = 0; i < 40; i++) {
      const r = R - (1.2 * field.cell_mm * (i + 0.5)) / 40;
      const angle = 1.1 * i;
      const gap = field.gap(r * Math.cos(angle), r * Math.sin(angle), 4 + 0.03 * i);
      expect(Math.abs(gap - (R - r))).toBeLessThan(0.04 * field.cell_mm);
    }
  });

  it('moves what leaves a channel into the share of the next one', () => {
    const place = Float64Array.of(4.2, 0, -1);
    field.wrap(place);
    expect(place[0]).toBeCloseTo(4.2 - 8.2, 9);
    expect(place[1]).toBe(0);
  });
});

describe('wallPatches()', () => {
  it('finds the shear 8 mu U / D of developed pipe flow within 2 %, and the area of the wall', () => {
    const solved = fieldOf(sceneOf(duct, 8.2, 12), parabola);
    const field = createAirField(solved);
    const patches = wallPatches(solved.grid, solved.scene, 8, field, straight);
    const { mean_Pa, top_Pa, area_mm2 } = shearSummary(patches, 1.8e-5, null);
    // Exact: Hagen & Poiseuille.
    const exact = (8 * 1.8e-5 * U) / (2 * R * 1e-3);
    expect(mean_Pa / exact - 1).toBeGreaterThan(-0.02);
    expect(mean_Pa / exact - 1).toBeLessThan(0.02);
    expect(top_Pa / exact).toBeLessThan(1.1);
    // pi D L; the wall's ends lie within a cell of the faces.
    expect(Math.abs(area_mm2 / (Math.PI * 2 * R * 8) - 1)).toBeLessThan(0.06);
  });
});

describe('recirculation()', () => {
  it('finds the share of an annulus that runs back', () => {
    // Back beyond r = 2: the share 1 - (2 / 2.5)^2 = 0.36 of the section.
    const back: Flow = (x, y) => [0, 0, 4 - x * x - y * y];
    const solved = fieldOf(sceneOf(duct, 8.2, 20), back);
    const field = createAirField(solved);
    const found = recirculation(solved.grid, solved.scene, 8, field, straight);
    expect(found.share).toBeGreaterThan(0.34);
    expect(found.share).toBeLessThan(0.38);
    expect(found.volume_mm3 / (Math.PI * R * R * 8)).toBeGreaterThan(0.97);
    expect(found.volume_mm3 / (Math.PI * R * R * 8)).toBeLessThan(1.03);
  });
});
