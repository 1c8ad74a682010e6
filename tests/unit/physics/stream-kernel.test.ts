/** The compiled kernel against the plain forms it stands for. */
import { describe, expect, it } from 'vitest';
import type { Channel, Section } from '../../../src/design/index.ts';
import { createStream, loadKernel } from '../../../src/numeric/index.ts';
import {
  channelPressure,
  createDigests,
  createFlowSplit,
  digestChannels,
  faceInlet,
  openStream,
  splitFlow,
} from '../../../src/physics/index.ts';
import type { DuctFamily, PlateChannels } from '../../../src/physics/index.ts';
import { STREAM_WASM } from '../../../src/physics/stream-wasm.ts';
import { ROOM_AIR, aRoute, arraysOf, familyOf, samplesOf } from '../../support/flow-channels.ts';

/** Channels that wander, some with more bends than have places of their own, some straight. */
function tangle(count: number, section: Section, seed: string): Channel[] {
  const random = createStream('stream-kernel', seed);
  const between = (low: number, high: number): number => low + (high - low) * random.next();
  return Array.from({ length: count }, (_, i) => {
    const swing = [0, 2, 4, 8][i % 4];
    const points = Array.from({ length: 4 + 5 * (i % 3) }, (__, k, n = 3 + 5 * (i % 3)) => {
      const free = k > 0 && k < n ? swing : 0;
      return [between(-free, free), between(-free, free), (30 * k) / n] as const;
    });
    const bore_mm = i % 3 === 0 ? [4] : [between(2, 6), between(2, 6), between(2, 6)];
    return aRoute(points, { section, bore_mm });
  });
}

function plateOf(channels: readonly Channel[], stations: number): PlateChannels {
  const samples = samplesOf(channels, stations);
  const around = {
    air: ROOM_AIR,
    shrinkage: 0.2,
    layer: 0.2,
    buildAxis: 2,
    ...faceInlet(0.3),
  } as const;
  return {
    arrays: arraysOf(samples),
    shapes: samples.shapeCount,
    families: channels.map((channel): DuctFamily => familyOf(channel)),
    pockets: channels.map((__, i) => 0.001 * (i % 3)),
    conditions: channels.map(() => around),
  };
}

const SECTIONS: readonly Section[] = [
  { kind: 'round' },
  { kind: 'teardrop' },
  { kind: 'slot', aspect: 2.5 },
  { kind: 'polygon', sides: 4 },
];

describe('openStream()', () => {
  it('runs the compiled kernel in this engine', () => {
    expect(loadKernel(STREAM_WASM)).not.toBeNull();
  });

  const cases = SECTIONS.flatMap((section) =>
    [
      [1, 32],
      [2, 64],
      [13, 33],
      [24, 32],
    ].map(([count, stations]) => ({ section, count, stations })),
  );
  it.each(cases)(
    'gives plain digests and splits to the last bit: $section.kind, $count of $stations stations',
    ({ section, count, stations }) => {
      const plate = plateOf(tangle(count, section, `${section.kind}/${count}`), stations);
      expect(plate.shapes).toBe(count);
      const plain = createDigests(count, stations);
      digestChannels(plain, plate);
      const stream = openStream(plate);
      if (stream === null) throw new Error('the kernel does not serve');
      for (const part of ['shape', 'panel'] as const) {
        const size = plain[part].length;
        expect([...stream.digests[part].subarray(0, size)], part).toEqual([...plain[part]]);
      }
      // Each shape twice (but for the last), with and without a loss of its own, from creeping to
      // turbulent flow; the split starts where the one before it ended.
      const shapeOf = Array.from({ length: 2 * count - 1 }, (_, i) => i >> 1);
      const loss = shapeOf.map((_, i) => (i % 2) * 1e8);
      const joint = stream.pressures(shapeOf, loss);
      const one = (branch: number, flow: number, told: Float64Array): void => {
        channelPressure(plain, shapeOf[branch], flow, told);
        const lost = loss[branch] * flow * flow;
        told[0] += lost;
        told[1] += 2 * lost;
      };
      const counts = Float64Array.from(shapeOf, (_, i) => 1 + (i % 3));
      const share = Float64Array.from(shapeOf, (_, i) => 1 + 0.1 * (i % 5));
      const [expected, found] = [createFlowSplit(counts, share), createFlowSplit(counts, share)];
      for (const flow of [1e-8, 1e-6, 1e-5, 1e-4, 1.1e-4, 1e-3]) {
        for (const tolerance of [0.03, 1e-4]) {
          const total = flow * shapeOf.length;
          const common = splitFlow(found, total, joint, tolerance);
          expect(common, `${flow} m3/s`).toBe(splitFlow(expected, total, one, tolerance));
          expect(found, `${flow} m3/s`).toEqual(expected);
        }
      }
    },
  );

  it('does not serve plates with teeth, or of slots and other sections', () => {
    const slot: Section = { kind: 'slot', aspect: 2 };
    const plate = plateOf([...tangle(1, { kind: 'round' }, 'a'), ...tangle(1, slot, 'b')], 32);
    expect(openStream(plate)).toBeNull();
    const toothed = plateOf(tangle(1, { kind: 'round' }, 'a'), 32);
    const teeth = { height: new Float64Array(32), pitch: new Float64Array(1) };
    expect(openStream({ ...toothed, arrays: { ...toothed.arrays, teeth } })).toBeNull();
  });
});
