import { describe, expect, it } from 'vitest';
import { dustConstants, joinClasses } from '../../../src/measures/analyses/dust-classes.ts';
import { createPlainMarch, createPlateMarch } from '../../../src/measures/analyses/dust-plate.ts';
import type { MarchSetup, PlateMarch } from '../../../src/measures/analyses/dust-plate.ts';
import { DUST_WASM } from '../../../src/measures/analyses/dust-wasm.ts';
import type { Channel, Pocket } from '../../../src/design/index.ts';
import { createStream, loadKernel } from '../../../src/numeric/index.ts';
import { FINE_TEST_DUST } from '../../../src/physics/index.ts';
import { aChannel, aDesign, samplesOf } from '../../support/plates.ts';

const AIR = { density_kg_per_m3: 1.2041, viscosity_Pa_s: 1.8134e-5, meanFreePath_m: 66e-9 };

/** Channels that wander at random, every second one with pockets, one in five straight. */
function tangle(count: number, seed: string): Channel[] {
  const random = createStream('dust-plate', seed);
  const between = (low: number, high: number): number => low + (high - low) * random.next();
  return Array.from({ length: count }, (_, i) => {
    const swing = i % 5 === 0 ? 0 : 4;
    const pockets = Array.from({ length: i % 2 === 0 ? 0 : 1 + (i % 3) }, (): Pocket => ({
      at: between(0.1, 0.9),
      length_mm: between(2, 7),
      depth_mm: between(0.3, 2),
      width_deg: between(40, 160),
      side_deg: between(-180, 180),
    }));
    return aChannel({
      points_mm: [
        [0, 0, 0],
        [between(-swing, swing), between(-swing, swing), 6],
        [between(-swing, swing), between(-swing, swing), 14],
        [0, 0, 20],
      ],
      bore_mm: i % 3 === 0 ? [4] : [between(2, 6), between(2, 6), between(2, 6)],
      pockets,
    });
  });
}

/** Everything that a march finds out, shape by shape. */
function resultsOf(setup: MarchSetup, march: PlateMarch): unknown[] {
  return Array.from({ length: setup.samples.shapeCount }, (_, shape) => {
    const ledger = march(shape);
    const pockets = setup.samples.pockets[shape].length;
    return {
      carried: [...ledger.carried],
      skimming: [...ledger.skimming],
      onWalls: [...ledger.onWalls],
      inPockets: [...ledger.inPockets.subarray(0, pockets * setup.dust.count)],
      turningBefore_rad: [...ledger.turningBefore_rad.subarray(0, pockets)],
      turning_rad: ledger.turning_rad,
    };
  });
}

describe('createPlateMarch()', () => {
  it('runs the compiled kernel in this engine', () => {
    expect(loadKernel(DUST_WASM)).not.toBeNull();
  });

  // From grains that no air can turn to dust that follows it, laminar to turbulent.
  const dusts = [FINE_TEST_DUST, joinClasses(FINE_TEST_DUST), [{ diameter_um: 300, massShare: 1 }]];
  const cases = dusts.flatMap((classes) =>
    [1, 2].flatMap((stride) => [1, 2, 9, 16].map((count) => ({ classes, stride, count }))),
  );
  it.each(cases)('gives the plain form to the last bit %#', ({ classes, stride, count }) => {
    const seed = `${classes.length}/${stride}/${count}`;
    const random = createStream('dust-plate/streams', seed);
    const samples = samplesOf(aDesign({ channels: tangle(count, seed) }), stride === 1 ? 63 : 32);
    const streams = Array.from({ length: samples.shapeCount }, () => ({
      flow_m3_per_s: 1e-5 + 2e-4 * random.next(),
      reynolds: 500 + 5000 * random.next(),
      friction: 0.02 + 0.05 * random.next(),
    }));
    const setup: MarchSetup = {
      samples,
      dust: dustConstants({ density_kg_per_m3: 2650, classes }, AIR),
      minimumFeature_mm: 0.8,
      stride,
      stream: (shape) => streams[shape],
    };
    const plain = resultsOf(setup, createPlainMarch(setup));
    expect(resultsOf(setup, createPlateMarch(setup))).toEqual(plain);
  });
});
