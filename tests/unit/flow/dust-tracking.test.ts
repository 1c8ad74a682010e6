/** Dust in made-up fields where the share that lands is known exactly; landings on a real channel. */
import { describe, expect, it } from 'vitest';
import { createAirField } from '../../../src/flow/air-field.ts';
import { createChannelMap, createChannelPlace } from '../../../src/flow/channel-map.ts';
import type { ChannelMap } from '../../../src/flow/channel-map.ts';
import { trackDust } from '../../../src/flow/dust-tracking.ts';
import type { DustOptions, DustTracked } from '../../../src/flow/dust-tracking.ts';
import { landingFile } from '../../../src/flow/landing-file.ts';
import {
  ADHESION_RANGE,
  carriedOut,
  liftedByFlow,
  liftingSpeed,
} from '../../../src/flow/lifting.ts';
import { wallPatches } from '../../../src/flow/wall-shear.ts';
import { sampleDesign } from '../../../src/design/index.ts';
import { plugDriftLoss, roomAir, settlingVelocity } from '../../../src/physics/index.ts';
import { fieldOf, roundDuct, sceneOf } from '../../support/lattice-fields.ts';
import type { Flow } from '../../support/lattice-fields.ts';
import { aChannel, aDesign } from '../../support/plates.ts';

const air = roomAir(20, 0);
const L = 20;
const duct = roundDuct(5, L);
const straight: ChannelMap = {
  length_mm: L,
  pockets: 0,
  locate(_x, _y, z, out) {
    out.arc_mm = z;
    out.tangent.set([0, 0, 1]);
    out.pocket = -1;
  },
};
const solvedWith = (flow: Flow): ReturnType<typeof fieldOf> => fieldOf(sceneOf(duct, 8, 10), flow);
const options = (changes: Partial<DustOptions>): DustOptions => ({
  classes: [{ diameter_um: 20, massShare: 1 }],
  density_kg_per_m3: 2650,
  air,
  down: null,
  grains: 400,
  isDry: false,
  start_mm: [-4, 4, -4, 4],
  ...changes,
});
const send = (flow: Flow, changes: Partial<DustOptions>): DustTracked => {
  const bounds = { start_mm: -3.9, thickness_mm: L };
  return trackDust(createAirField(solvedWith(flow)), straight, bounds, options(changes));
};

describe('trackDust()', () => {
  it('lands in a level bore what settles onto its floor in the time of passage', () => {
    // Exact for even flow: the overlap of the bore with itself, shifted by v L / U. Air at a wall stands
    // still in any field, so the made-up stream is slightly slower there: within four points.
    const U = 0.15;
    const v = settlingVelocity(3.274371e-3, 20e-6, air.density_kg_per_m3, air.viscosity_Pa_s);
    const exact = plugDriftLoss((v * L) / (U * 5), 1);
    const { caught } = send(() => [0, 0, U], { down: [0, -1, 0] });
    expect(exact).toBeGreaterThan(0.5);
    expect(caught.low - 0.04).toBeLessThan(exact);
    expect(caught.high + 0.04).toBeGreaterThan(exact);
  });

  it('lands nothing in a straight bore without gravity, whatever the size', () => {
    const classes = [2, 20, 90].map((diameter_um) => ({ diameter_um, massShare: 1 / 3 }));
    const tracked = send((x, y) => [0, 0, Math.max(0.02, 2 - 0.3 * (x * x + y * y))], {
      classes,
      start_mm: [-1.7, 1.7, -1.7, 1.7],
    });
    expect(tracked.caught.share).toBeLessThan(0.005);
    for (const one of tracked.classes) expect(one.entered + one.onFace).toBe(one.started);
  });

  it('gives the same landings twice, and twice as sure a share from four times the grains', () => {
    const flow: Flow = () => [0, 0, 0.15];
    const down = [0, -1, 0] as const;
    const first = send(flow, { down });
    const again = send(flow, { down });
    expect(Array.from(again.landings.place_mm)).toEqual(Array.from(first.landings.place_mm));
    const more = send(flow, { down, grains: 1600 });
    const width = ({ caught }: DustTracked): number => caught.high - caught.low;
    expect(width(first) / width(more)).toBeGreaterThan(1.8);
    expect(width(first) / width(more)).toBeLessThan(2.2);
  });

  it('lets grains fall back that sink faster than the air rises', () => {
    const tracked = send(() => [0, 0, 0.01], { down: [0, 0, -1], grains: 50 });
    expect(tracked.classes[0].fellBack).toBe(50);
    expect(tracked.classes[0].entered).toBe(0);
  });

  it('lets dry grains bounce where sticky ones stay', () => {
    // A stream that blows into the wall at 45 degrees, 1 m/s against the 0.35 m/s at which 20 um stick.
    const slanting: Flow = (_x, _y, z) => [z > 5 ? 1 : 0, 0, 1];
    const classes = [{ diameter_um: 60, massShare: 1 }];
    const sticky = send(slanting, { classes });
    const dry = send(slanting, { classes, isDry: true });
    expect(sticky.caught.share).toBeGreaterThan(0.9);
    expect(dry.caught.share).toBeLessThan(sticky.caught.share);
  });

  it('writes each landing as a point of a VTK file', () => {
    const tracked = send(() => [0, 0, 0.15], { down: [0, -1, 0], grains: 100 });
    const text = landingFile(tracked);
    expect(text).toContain(`NumberOfPoints="${tracked.landings.count}"`);
    const points = /Name="place_mm"[^>]*>\n([^<]*)\n</.exec(text)?.[1].split('\n') ?? [];
    expect(points).toHaveLength(tracked.landings.count);
    // Sinking grains lie on the lower half of the bore's wall.
    for (const point of points) {
      const [x, y] = point.split(' ').map(Number);
      expect(y).toBeLessThan(0.05);
      expect(Math.abs(Math.sqrt(x * x + y * y) - 2.5)).toBeLessThan(0.02);
    }
  });
});

describe('liftedByFlow()', () => {
  it('lifts grains where the friction velocity passes the threshold of their size', () => {
    // Threshold of 20 um quartz: 0.40 m/s (liftingSpeed); parabolas with wall friction on both sides of it.
    const threshold = liftingSpeed(20, 2650, air.density_kg_per_m3, 1);
    expect(threshold).toBeCloseTo(0.402, 2);
    const share = (friction: number): number => {
      const slope_per_ms = (friction * friction) / air.kinematicViscosity_m2_per_s / 1000;
      const parabola: Flow = (x, y) => [0, 0, slope_per_ms * 1.25 * (1 - (x * x + y * y) / 6.25)];
      const solved = solvedWith(parabola);
      const tracked = send(() => [0, 0, 0.15], { down: [0, -1, 0], grains: 100 });
      const field = createAirField(solved);
      const patches = wallPatches(solved.grid, solved.scene, L, field, straight);
      const wall = { patches, grid: solved.grid, scene: solved.scene };
      return liftedByFlow(tracked, wall, options({})).share;
    };
    expect(share(0.9 * threshold)).toBeLessThan(0.02);
    expect(share(1.1 * threshold)).toBeGreaterThan(0.98);
  });
});

describe('carriedOut()', () => {
  it('blows settled grains out once the reversed stream passes their threshold', () => {
    const threshold = liftingSpeed(20, 2650, air.density_kg_per_m3, 1);
    const tracked = send(() => [0, 0, 0.15], { down: [0, -1, 0], grains: 100 });
    const shareAt = (friction: number): number => {
      const slope_per_ms = (friction * friction) / air.kinematicViscosity_m2_per_s / 1000;
      const solved = solvedWith((x, y) => [
        0,
        0,
        slope_per_ms * 1.25 * (1 - (x * x + y * y) / 6.25),
      ]);
      const field = createAirField(solved);
      const patches = wallPatches(solved.grid, solved.scene, L, field, straight);
      const wall = { patches, grid: solved.grid, scene: solved.scene };
      return carriedOut(tracked, field, wall, L, options({})).share;
    };
    expect(tracked.landings.count).toBeGreaterThan(20);
    expect(shareAt(0.9 * threshold)).toBeLessThan(0.02);
    expect(shareAt(1.2 * threshold)).toBeGreaterThan(0.95);
  });

  it('needs air that is faster by the spread of adhesion to be as sure', () => {
    // Fine grains hang by adhesion, u_t ~ sqrt(gamma): from 0.55 to 5/3 of it a factor of 1.74.
    const [loose, sticky] = [ADHESION_RANGE.loosest, ADHESION_RANGE.stickiest].map((adhesion) =>
      liftingSpeed(1, 2650, air.density_kg_per_m3, adhesion),
    );
    expect(sticky / loose).toBeCloseTo(Math.sqrt(5 / 1.65), 2);
  });
});

describe('createChannelMap()', () => {
  it('finds arc, angle and pocket of places on the wall of a bent channel', () => {
    const channel = aChannel({
      bore_mm: [4],
      points_mm: [
        [0, 0, 0],
        [0, 0, 10],
        [3, 0, 20],
      ],
      pockets: [{ at: 0.25, side_deg: 90, length_mm: 4, depth_mm: 1.5, width_deg: 100 }],
    });
    const samples = sampleDesign(aDesign({ plate: { thickness_mm: 20 }, channels: [channel] }), 64);
    const map = createChannelMap(samples, 0);
    const spot = createChannelPlace();
    const wallPlace = (station: number, turn: number, r: number): number[] =>
      [0, 1, 2].map((d) => {
        const i = 3 * station + d;
        return (
          samples.point_mm[i] +
          r * (Math.cos(turn) * samples.first[i] + Math.sin(turn) * samples.second[i])
        );
      });
    for (const station of [4, 16, 30, 50]) {
      for (const turn of [-2.5, -1, 0.4, Math.PI / 2]) {
        const [x, y, z] = wallPlace(station, turn, 2);
        map.locate(x, y, z, spot);
        expect(spot.arc_mm / samples.length_mm[0]).toBeCloseTo(station / 63, 4);
        expect(spot.theta_rad).toBeCloseTo(turn, 4);
        const isInMouth = station === 16 && turn === Math.PI / 2;
        expect(spot.pocket).toBe(isInMouth ? 0 : -1);
      }
    }
  });
});
