/** One grain against exact solutions of its equation of motion. */
import { describe, expect, it } from 'vitest';
import particles from '../../reference/data/particles.json' with { type: 'json' };
import { grainKind } from '../../../src/flow/dust-tracking.ts';
import { createStepper } from '../../../src/flow/grains.ts';
import type { GrainKind, Wind } from '../../../src/flow/grains.ts';
import { roomAir } from '../../../src/physics/index.ts';

const still: Wind = (_x, _y, _z, out) => {
  out.fill(0);
};
const stokes = (relaxation_ms: number): GrainKind => ({
  relaxation_ms,
  reynoldsPerSpeed_s_per_m: 0,
  radius_mm: 0,
});
const g = 9.80665e-3;

describe('createStepper()', () => {
  it('moves a grain that does not feel the air along the parabola of a thrown stone', () => {
    const stepper = createStepper(stokes(1e12), still, [0, -g, 0]);
    const place = Float64Array.of(1, 2, 3);
    const velocity = Float64Array.of(0.5, 0.2, -1);
    for (let n = 0; n < 10; n++) stepper.step(place, velocity, 3);
    expect(place[0]).toBeCloseTo(1 + 0.5 * 30, 6);
    expect(place[1]).toBeCloseTo(2 + 0.2 * 30 - 0.5 * g * 900, 6);
    expect(place[2]).toBeCloseTo(3 - 30, 6);
  });

  it('stops a grain thrown into still air after the Stokes stopping distance v tau', () => {
    for (const step of [0.01, 0.7, 50]) {
      const stepper = createStepper(stokes(2), still, [0, 0, 0]);
      const place = new Float64Array(3);
      const velocity = Float64Array.of(3, 0, 0);
      for (let t = 0; t < 100; t += step) stepper.step(place, velocity, step);
      expect(place[0]).toBeCloseTo(6, 9);
    }
  });

  it('lets grains fall as fast as tabled for spheres beyond creeping flow', () => {
    // Terminal velocities of the library fluids 1.0.22, without slip; its drag law (Barati 2014) and that
    // of Schiller & Naumann lie up to 3.3 % apart at a grain Reynolds number of 19.
    const air = roomAir(20, 0);
    const { columns, rows } = particles.tables.slip_relaxation_settling;
    const at = (name: string): number => columns.indexOf(name);
    for (const row of rows.filter((one) => one[at('d_um')] >= 40)) {
      const kind = grainKind(row[at('d_um')], row[at('rho_p_kg_m3')], air);
      const stepper = createStepper(kind, still, [0, 0, g]);
      const place = new Float64Array(3);
      const velocity = new Float64Array(3);
      for (let n = 0; n < 4000; n++) stepper.step(place, velocity, 1);
      expect(velocity[2] / row[at('v_terminal_library_m_s')]).toBeGreaterThan(0.96);
      expect(velocity[2] / row[at('v_terminal_library_m_s')]).toBeLessThan(1.04);
    }
  });

  it('carries a grain through a stagnation flow as the exact solution does, at second order', () => {
    // u = -a x: x'' tau + x' + a x = 0, a damped swing; tau a > 1/4 swings through (Taylor 1940).
    const a = 1;
    const tau = 1;
    const wind: Wind = (x, _y, _z, out) => {
      out[0] = -a * x;
      out[1] = 0;
      out[2] = 0;
    };
    const w = Math.sqrt(a / tau - 1 / (4 * tau * tau));
    const end = 3;
    const decay = Math.exp(-end / (2 * tau));
    // x(0) = 1, v(0) = -a.
    const exact = decay * (Math.cos(w * end) + ((1 / (2 * tau) - a) / w) * Math.sin(w * end));
    const errors = [0.05, 0.025, 0.0125].map((step) => {
      const stepper = createStepper(stokes(tau), wind, [0, 0, 0]);
      const place = Float64Array.of(1, 0, 0);
      const velocity = Float64Array.of(-a, 0, 0);
      for (let n = 0; n < Math.round(end / step); n++) stepper.step(place, velocity, step);
      return Math.abs(place[0] - exact);
    });
    expect(errors[0]).toBeLessThan(1e-3);
    expect(errors[0] / errors[1]).toBeGreaterThan(3.5);
    expect(errors[1] / errors[2]).toBeGreaterThan(3.5);
  });

  it('lets only grains above a Stokes number of 1/4 reach the plane of a stagnation flow', () => {
    // Exact threshold of the swing above; known for impaction on a plane at least since Taylor 1940.
    const wind: Wind = (x, _y, _z, out) => {
      out[0] = -x;
      out[1] = 0;
      out[2] = 0;
    };
    const reaches = (tau: number): boolean => {
      const stepper = createStepper(stokes(tau), wind, [0, 0, 0]);
      const place = Float64Array.of(1, 0, 0);
      const velocity = Float64Array.of(-1, 0, 0);
      for (let n = 0; n < 20_000; n++) {
        stepper.step(place, velocity, 0.005);
        if (place[0] < 0) return true;
      }
      return false;
    };
    expect(reaches(0.24)).toBe(false);
    expect(reaches(0.3)).toBe(true);
  });
});
