/**
 * Formulas of air and losses against tables. Data: tests/reference/data, from the python package
 * fluids 1.0.22 (a second typing of handbook formulas) and own numerical or exact solutions, as
 * each table's `origin` says. Same formula: 1e-5 relative, the digits given. Other formula for the
 * same thing: the spread stated beside the check.
 */
import { describe, expect, it } from 'vitest';
import atmosphere from './data/atmosphere.json' with { type: 'json' };
import bends from './data/bends.json' with { type: 'json' };
import changes from './data/entrances-area-changes.json' with { type: 'json' };
import curved from './data/friction-curved.json' with { type: 'json' };
import ducts from './data/laminar-ducts.json' with { type: 'json' };
import straight from './data/friction-straight.json' with { type: 'json' };
import {
  airAt,
  apparentFRe,
  blendedFriction,
  conicalDiffuser,
  haalandFriction,
  itoCurvedFriction,
  itoQuarterBend,
  obliqueInletExtra,
  polygonFRe,
  rectangleFRe,
  separationLoss,
  shahApparentFRe,
  sharpInlet,
  slotFRe,
  standardPressure,
  teardropFRe,
  whiteFactor,
} from '../../src/physics/index.ts';

function near(value: number, expected: number, relative: number, where = ''): void {
  expect(Math.abs(value / expected - 1), `${where} ${value} for ${expected}`).toBeLessThan(
    relative,
  );
}

describe('air', () => {
  it('standardPressure() gives the ISO 2533 pressures', () => {
    for (const [H, T, p, rho, mu] of atmosphere.tables.iso2533_geopotential_altitude.rows) {
      near(standardPressure(H), p, 1e-6);
      const air = airAt(T, p);
      near(air.density_kg_per_m3, rho, 2e-6);
      near(air.viscosity_Pa_s, mu, 1e-6);
    }
  });

  it('airAt() gives density, viscosity, conductivity, Prandtl number and sound speed', () => {
    for (const [t, p, rho, mu, nu, k, Pr, c] of atmosphere.tables.at_temperature_and_pressure
      .rows) {
      const air = airAt(t + 273.15, p * 1000);
      near(air.density_kg_per_m3, rho, 1e-6);
      near(air.viscosity_Pa_s, mu, 1e-6);
      near(air.kinematicViscosity_m2_per_s, nu, 1e-6);
      near(air.conductivity_W_per_m_K, k, 1e-6);
      near(air.prandtl, Pr, 1e-6);
      near(air.soundSpeed_m_per_s, c, 1e-6);
    }
  });

  it('airAt() scales the mean free path with T/p', () => {
    // Willeke 1976: 66 nm at 20 C and 101.325 kPa (from memory); halving p doubles it.
    expect(airAt(293.15, 101325).meanFreePath_m).toBeCloseTo(66e-9, 15);
    expect(airAt(293.15, 101325 / 2).meanFreePath_m).toBeCloseTo(132e-9, 15);
  });
});

describe('friction', () => {
  it('laminar and Haaland factors match the table', () => {
    for (const [e, Re, laminar, , haaland] of straight.tables.darcy_f.rows) {
      if (e === null || Re === null) continue;
      if (laminar !== null && Re <= 2300) near(blendedFriction(Re, e, 64), laminar, 1e-5);
      if (haaland !== null) near(haalandFriction(Re, e), haaland, 1e-5);
    }
  });

  it('blendedFriction() meets the table outside 2300..4000 and its ends inside', () => {
    for (const row of straight.tables.darcy_f.rows) {
      const [e, Re] = row;
      const blend = row[7];
      if (e === null || Re === null || blend === null) continue;
      if (Re <= 2300 || Re >= 4000) near(blendedFriction(Re, e, 64), blend, 1e-5);
      // The table's passage is linear, ours smooth: at most 0.0963 of the span apart (3-2t cubic).
      else {
        const span = haalandFriction(4000, e) - 64 / 2300;
        expect(Math.abs(blendedFriction(Re, e, 64) - blend)).toBeLessThan(0.0963 * span);
      }
    }
  });

  it('fully developed shapes match numerical solutions', () => {
    const table = new Map(
      ducts.tables.fully_developed_shapes.rows.map(([name, fRe]) => [String(name), Number(fRe)]),
    );
    const check = (name: string, value: number, relative: number): void =>
      near(value, table.get(name) ?? Number.NaN, relative, name);
    for (const sides of [3, 4, 6, 8]) check(`regular ${sides}-gon`, polygonFRe(sides), 1e-5);
    for (const aspect of [1.5, 2, 3])
      check(`stadium slot length/width=${aspect}`, slotFRe(aspect), 5e-4);
    check('teardrop, 90 deg apex on a circle', teardropFRe(1), 1e-5);
    check('circle', teardropFRe(0), 1e-9);
    // Polynomial of Shah & London, claimed and seen within 0.06 %.
    for (const a of [0.9, 0.75, 0.5, 0.25, 0.125, 0.1]) {
      check(`rectangle short/long=${a}`, rectangleFRe(a), 7e-4);
    }
  });

  it('slotFRe() and polygonFRe() reach their limits', () => {
    near(slotFRe(1), 64, 1e-4);
    // Parallel plates, exact 96; a slot of 4000 is within 0.1 % of them.
    near(slotFRe(4000), 96, 1e-3);
    near(polygonFRe(100), 64, 5e-4);
  });

  it('developing friction agrees with the marching solution', () => {
    for (const [x, fApp, shah] of ducts.tables.developing_round_tube.rows) {
      near(shahApparentFRe(x), shah, 1e-5);
      // On sqrt(A): z = x (pi/4), since L/(D Re) = L nu/(U D^2) and z = L nu/(U A) ... times D^2/A.
      const z = x / (Math.PI / 4);
      const d = (64 / 4) * (Math.sqrt(Math.PI) / 2);
      const onBore = apparentFRe(z, d) * (2 / Math.sqrt(Math.PI));
      // The published claim is 10 %; on the circle it is within 1.7 %.
      near(onBore, fApp, 0.017, `x+ ${x}`);
    }
  });
});

describe('curved friction and bends', () => {
  it('whiteFactor() matches the table', () => {
    for (const [, , De, white] of curved.tables.laminar_multiplier.rows)
      near(whiteFactor(De), white, 1e-5);
  });

  it('itoCurvedFriction() matches the table', () => {
    for (const [RD, Re, , , mori, ito] of curved.tables.turbulent_f.rows) {
      near(itoCurvedFriction(Re, 1 / (2 * RD)), ito, 1e-5);
      // Mori & Nakayama 1967 is an independent correlation.
      near(itoCurvedFriction(Re, 1 / (2 * RD)), mori, 0.04);
    }
  });

  it('separationLoss() is the handbook bend without its arc friction', () => {
    for (const row of bends.tables.rounded.rows) {
      const [Re, RD, angle, f, total, arc] = row.map(Number);
      if (Re < 4000) continue;
      const K = separationLoss(Re, RD, (angle * Math.PI) / 180, 0) * ((Re + 500) / Re);
      near(K, total - arc, 2e-5, `Re ${Re} R/D ${RD} ${angle} deg, f ${f}`);
    }
  });

  it('separationLoss() with arc friction agrees with an independent correlation for 90 degrees', () => {
    for (const row of bends.tables.rounded.rows) {
      const [Re, RD, angle, , , arc] = row.map(Number);
      if (angle !== 90 || Re < 1e4 || RD < 1 || RD > 5 || row[6] === null) continue;
      near(itoQuarterBend(Re, RD), row[6], 2e-3);
      // The two handbook methods themselves lie within 13 % of each other here; our fade at
      // low Re takes 2.5..5 % off the first.
      near(separationLoss(Re, RD, Math.PI / 2, 0) + arc, itoQuarterBend(Re, RD), 0.13);
    }
  });
});

describe('ends and area changes', () => {
  it('inlets match the tables', () => {
    expect(sharpInlet(0)).toBe(0.5);
    for (const [th, K] of changes.tables.entrance_angled.rows) {
      near(0.57 + obliqueInletExtra(Math.cos((th * Math.PI) / 180)), K, 1e-5);
    }
  });

  it('conicalDiffuser() is the table less the friction of the cone', () => {
    for (const [angle, b, K] of changes.tables.diffuser_conical.rows) {
      if (b === null || angle === null || K === null) continue;
      const friction =
        angle <= 60 ? (0.03 * (1 - b ** 4)) / (8 * Math.sin((angle * Math.PI) / 360)) : 0;
      near(conicalDiffuser(angle, b) + friction, K, 2e-5, `${angle} deg, b ${b}`);
    }
  });
});
