import { describe, expect, it } from 'vitest';

import { sampleDesign } from '../../../src/design/index.ts';
import type { Design, PlateSamples } from '../../../src/design/index.ts';
import { createGenome } from '../../../src/genome/index.ts';
import { createStream } from '../../../src/numeric/index.ts';
import { openCanvas } from '../../../src/print/canvas-kernel.ts';
import { plainCanvas } from '../../../src/print/canvas.ts';
import { drawPlate, layGrid } from '../../../src/print/grid.ts';
import { createLayerTable, rasterPrint } from '../../../src/print/index.ts';
import { createRings, writeRings } from '../../../src/print/rings.ts';
import { aBrief } from '../../support/briefs.ts';
import { PROCESS, aChannelOf, aPlateFor, samplesOf } from '../../support/printed-plate.ts';

/** Report and layer table of a plate, on either canvas. */
function printed(samples: PlateSamples, open: typeof openCanvas) {
  const table = createLayerTable(samples, PROCESS);
  return { report: rasterPrint(samples, PROCESS, table, open), table };
}

/** Designs of random genes, standing as asked. */
function designs(seed: string, count: number, build: 'flat' | 'edge'): Design[] {
  const genome = createGenome(aBrief());
  const stream = createStream('canvas', seed);
  const d = genome.genes.length;
  const row = new Float64Array(d);
  const found: Design[] = [];
  while (found.length < count) {
    for (const [i, { kind, min, max }] of genome.genes.entries()) {
      const value = min + stream.next() * (max - min);
      row[i] = kind === 'real' ? value : Math.round(value);
    }
    const decoded = genome.decode(row, 0);
    if (!decoded.ok) continue;
    const { design } = decoded;
    found.push({ ...design, plate: { ...design.plate, build } });
  }
  return found;
}

describe('the compiled canvas', () => {
  it.each(['flat', 'edge'] as const)('comes to the plain report of every plate, %s', (build) => {
    for (const design of designs(build, 12, build)) {
      const samples = sampleDesign(design, 48);
      expect(printed(samples, openCanvas)).toEqual(printed(samples, plainCanvas));
    }
  });

  it('draws the same pixels where a tube lies in the layers and doubles back', () => {
    const channel = aChannelOf(
      [
        [-12, -3, 0],
        [-6, 4, 9],
        [8, 6, 4],
        [6, -6, 10],
        [12, 3, 20],
      ],
      4,
    );
    const samples = samplesOf(aPlateFor(), [channel]);
    const grid = layGrid(samples.plate, PROCESS);
    // The kernel is at work in this engine: else both would be the plain form.
    expect(openCanvas(grid, samples.stations, 5).row.buffer.byteLength).toBeGreaterThan(65_536);
    expect(printed(samples, openCanvas)).toEqual(printed(samples, plainCanvas));
  });

  it('carves a wall that it has no room for in plain form', () => {
    const channel = aChannelOf(
      [
        [-3, 0, 0],
        [2, 1, 8],
        [3, -1, 20],
      ],
      5,
    );
    const samples = samplesOf(aPlateFor(), [channel]);
    const grid = layGrid(samples.plate, PROCESS);
    const rings = createRings();
    writeRings(samples, 0, rings);
    const pixels = [openCanvas(grid, 0, 5), plainCanvas(grid)].map((canvas) => {
      drawPlate(samples.plate, grid, canvas.solid);
      const full = canvas.solid.slice(0, grid.layerWords * grid.layers);
      canvas.setWall(rings);
      canvas.carve(1.3, -0.7);
      const carved = canvas.solid.slice(0, grid.layerWords * grid.layers);
      expect(carved).not.toEqual(full);
      return carved;
    });
    expect(pixels[0]).toEqual(pixels[1]);
  });
});
