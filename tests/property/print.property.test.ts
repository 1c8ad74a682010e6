/** Bit-parallel raster steps against plain per-pixel ones on small random bitmaps. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

import { createBridgeMemory, judgeSpans } from '../../src/print/bridges.ts';
import { clearBits, countOnes, setBits } from '../../src/print/grid.ts';
import type { Grid } from '../../src/print/grid.ts';
import { createRuns, findRuns, joinRuns } from '../../src/print/runs.ts';
import { createSupportNeeds, dropSupport, noteNeeds } from '../../src/print/support.ts';
import { coveringDisc, findUnsupported } from '../../src/print/unsupported.ts';

const SEED = { seed: 7, numRuns: 150 };

type Layers = boolean[][][];

/** Solid patches rather than noise: a few rectangles set and cleared, then some single pixels. */
const layersOf = (count: number): fc.Arbitrary<{ columns: number; rows: number; layers: Layers }> =>
  fc
    .record({
      columns: fc.integer({ min: 1, max: 70 }),
      rows: fc.integer({ min: 1, max: 12 }),
      patches: fc.array(
        fc.record({
          k: fc.nat(count - 1),
          x: fc.nat(69),
          y: fc.nat(11),
          w: fc.integer({ min: 1, max: 40 }),
          h: fc.integer({ min: 1, max: 8 }),
          on: fc.boolean(),
        }),
        { minLength: 1, maxLength: 24 },
      ),
    })
    .map(({ columns, rows, patches }) => {
      const layers = Array.from({ length: count }, () =>
        Array.from({ length: rows }, () => Array.from({ length: columns }, () => false)),
      );
      for (const { k, x, y, w, h, on } of patches) {
        for (let j = y; j < Math.min(rows, y + h); j++) {
          for (let i = x; i < Math.min(columns, x + w); i++) layers[k][j][i] = on;
        }
      }
      return { columns, rows, layers };
    });

function gridOf(columns: number, rows: number, layers: number): Grid {
  const words = (columns + 31) >> 5;
  return {
    edge: false,
    pixel_mm: 1,
    layer_mm: 1,
    columns,
    rows,
    layers,
    words,
    layerWords: words * rows,
    u0_mm: 0,
    v0_mm: 0,
    a0_mm: 0,
    step_px: 1,
  };
}

function pack(grid: Grid, layers: Layers): Int32Array {
  const bits = new Int32Array(grid.layerWords * layers.length);
  layers.forEach((layer, k) =>
    layer.forEach((line, j) =>
      line.forEach((on, i) => {
        if (on) bits[k * grid.layerWords + j * grid.words + (i >> 5)] |= 1 << (i & 31);
      }),
    ),
  );
  return bits;
}

function bitAt(grid: Grid, bits: Int32Array, k: number, i: number, j: number): boolean {
  return ((bits[k * grid.layerWords + j * grid.words + (i >> 5)] >>> (i & 31)) & 1) === 1;
}

/** Number of connected pieces of equal pixels, by flood fill. */
function pieces(layer: boolean[][], value: boolean, corners: boolean): number {
  const seen = layer.map((line) => line.map(() => false));
  let count = 0;
  for (let j = 0; j < layer.length; j++) {
    for (let i = 0; i < layer[j].length; i++) {
      if (seen[j][i] || layer[j][i] !== value) continue;
      count++;
      const stack: [number, number][] = [[i, j]];
      seen[j][i] = true;
      for (let top = stack.pop(); top; top = stack.pop()) {
        for (let dj = -1; dj <= 1; dj++) {
          for (let di = -1; di <= 1; di++) {
            if (!corners && di !== 0 && dj !== 0) continue;
            const [x, y] = [top[0] + di, top[1] + dj];
            if (layer[y]?.[x] !== value || seen[y][x]) continue;
            seen[y][x] = true;
            stack.push([x, y]);
          }
        }
      }
    }
  }
  return count;
}

describe('bit rows', () => {
  it('set, clear and count the same pixels as one at a time', () => {
    fc.assert(
      fc.property(fc.nat(130), fc.nat(130), fc.nat(130), fc.nat(130), (a, b, c, d) => {
        const bits = new Int32Array(5);
        setBits(bits, 0, Math.min(a, b), Math.max(a, b));
        clearBits(bits, 0, Math.min(c, d), Math.max(c, d));
        let ones = 0;
        for (let i = 0; i < 160; i++) {
          const on =
            i >= Math.min(a, b) &&
            i < Math.max(a, b) &&
            !(i >= Math.min(c, d) && i < Math.max(c, d));
          expect(((bits[i >> 5] >>> (i & 31)) & 1) === 1).toBe(on);
          if (on) ones++;
        }
        expect(bits.reduce((sum, word) => sum + countOnes(word), 0)).toBe(ones);
      }),
      SEED,
    );
  });
});

describe('findRuns() and joinRuns()', () => {
  it('find the pieces and holes that a flood fill finds', () => {
    fc.assert(
      fc.property(layersOf(1), ({ columns, rows, layers }) => {
        const grid = gridOf(columns, rows, 1);
        const runs = createRuns();
        findRuns(pack(grid, layers), 0, rows, grid.words, runs);
        joinRuns(runs, rows, 0);
        expect(runs.pieces).toBe(pieces(layers[0], true, false));
        // Holes: empty pieces, joined over corners, that do not reach the frame laid around.
        const wide = Array.from({ length: columns + 2 }, () => false);
        const framed = [wide, ...layers[0].map((line) => [false, ...line, false]), wide];
        expect(runs.pieces - runs.count + runs.touches).toBe(pieces(framed, false, true) - 1);
        joinRuns(runs, rows, 1);
        expect(runs.pieces).toBe(pieces(layers[0], true, true));
      }),
      SEED,
    );
  });
});

describe('coveringDisc()', () => {
  it('covers a half plane moved by the radius in every direction, and little more', () => {
    for (const radius of [0.3, 0.7, 1, 1.4, 2, 2.5, 3.7]) {
      const disc = coveringDisc(radius);
      const n = (disc.length - 1) / 2;
      for (let turn = 0; turn < 360; turn++) {
        const [c, s] = [Math.cos((turn * Math.PI) / 180), Math.sin((turn * Math.PI) / 180)];
        let reach = 0;
        disc.forEach((half, i) => {
          reach = Math.max(reach, Math.abs(c) * half + s * (i - n));
        });
        expect(reach).toBeGreaterThanOrEqual(radius - 1e-9);
        expect(reach).toBeLessThanOrEqual(radius + Math.SQRT1_2);
      }
    }
  });
});

describe('findUnsupported()', () => {
  it('marks what per-pixel dilation of the two layers below leaves', () => {
    fc.assert(
      fc.property(
        layersOf(3),
        fc.constantFrom(0, 0.5, 1, 1.4, 2, 3.3),
        ({ columns, rows, layers }, radius) => {
          const grid = gridOf(columns, rows, 3);
          const discs = { one: coveringDisc(radius), two: coveringDisc(2 * radius) };
          const out = new Int32Array(grid.layerWords);
          const bits = pack(grid, layers);
          const covered = (k: number, i: number, j: number, disc: Int32Array): boolean => {
            const n = (disc.length - 1) / 2;
            return disc.some((half, d) => {
              for (let x = i - half; x <= i + half; x++) {
                if (layers[k][j + d - n]?.[x]) return true;
              }
              return false;
            });
          };
          for (const layer of [1, 2]) {
            const touched = { firstRow: 0, lastRow: 0 };
            findUnsupported(grid, bits, layer, discs, out, touched);
            for (let j = 0; j < rows; j++) {
              for (let i = 0; i < columns; i++) {
                const fresh = layers[layer][j][i] && !layers[layer - 1][j][i];
                const held =
                  covered(layer - 1, i, j, discs.one) &&
                  (layer < 2 || covered(layer - 2, i, j, discs.two));
                expect(bitAt(grid, out, 0, i, j)).toBe(fresh && !held);
                if (fresh && !held) {
                  expect(j).toBeGreaterThanOrEqual(touched.firstRow);
                  expect(j).toBeLessThanOrEqual(touched.lastRow);
                }
              }
            }
          }
        },
      ),
      SEED,
    );
  });
});

describe('dropSupport()', () => {
  it('fills the same pixels as walking down from each one', () => {
    fc.assert(
      fc.property(layersOf(5), layersOf(5), (plate, wanted) => {
        const { columns, rows, layers } = plate;
        const grid = gridOf(columns, rows, 5);
        const needs = createSupportNeeds();
        const marks = layers.map((layer, k) =>
          layer.map((line, j) => line.map((on, i) => on && (wanted.layers[k][j]?.[i] ?? false))),
        );
        marks.forEach((mark, k) => {
          if (k > 0) noteNeeds(needs, pack(grid, [mark]), 0, grid.layerWords, k);
        });
        const filled = new Set<string>();
        for (let k = 1; k < 5; k++) {
          for (let j = 0; j < rows; j++) {
            for (let i = 0; i < columns; i++) {
              if (!marks[k][j][i]) continue;
              for (let b = k - 1; b >= 0 && !layers[b][j][i]; b--) filled.add(`${b} ${i} ${j}`);
            }
          }
        }
        const perLayer = new Float64Array(5);
        const columnsOf = new Int32Array(grid.layerWords);
        const total = dropSupport(grid, pack(grid, layers), needs, columnsOf, perLayer);
        expect(total).toBe(filled.size);
        expect(perLayer.reduce((sum, n) => sum + n, 0)).toBe(filled.size);
      }),
      SEED,
    );
  });
});

describe('judgeSpans()', () => {
  it('bridges a rectangular opening over its shorter side, as counting pixels says', () => {
    // A frame of solid, its opening w x h ceiled at once: every line across the shorter side is
    // held at both ends; the opening's outermost ring is carried by the wall below.
    fc.assert(
      fc.property(
        fc.integer({ min: 3, max: 30 }),
        fc.integer({ min: 3, max: 30 }),
        fc.integer({ min: 1, max: 30 }),
        (w, h, limit) => {
          const grid = gridOf(w + 6, h + 6, 2);
          const frame = Array.from({ length: h + 6 }, (_, j) =>
            Array.from({ length: w + 6 }, (_x, i) => i < 3 || j < 3 || i >= w + 3 || j >= h + 3),
          );
          const bits = pack(grid, [frame, frame.map((line) => line.map(() => true))]);
          const discs = { one: coveringDisc(1), two: coveringDisc(2) };
          const unsupported = new Int32Array(grid.layerWords);
          const needs = new Int32Array(grid.layerWords);
          const touched = { firstRow: 0, lastRow: -1 };
          const out = { bridge_px: 0, support: 0 };
          findUnsupported(grid, bits, 1, discs, unsupported, touched);
          const limits = { bridge_px: limit, closing_px: limit / 2, spare: 0, hem_px: 0 };
          const memory = createBridgeMemory();
          judgeSpans(grid, bits, 1, unsupported, touched, limits, memory, needs, out);
          const span = Math.min(w, h) - 2;
          if (span <= limit) {
            expect(out.support).toBe(0);
            expect(out.bridge_px).toBeLessThanOrEqual(Math.max(span, 1));
          } else {
            // Diagonals over the corners may carry a little of it.
            expect(out.support).toBeGreaterThan(0);
            expect(out.support).toBeLessThanOrEqual((w - 2) * (h - 2));
          }
        },
      ),
      SEED,
    );
  });

  it('asks for support under all of a ledge held on one side only', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 3, max: 20 }),
        fc.integer({ min: 4, max: 20 }),
        (depth, height) => {
          const grid = gridOf(40, height, 2);
          const line = (solid: number): boolean[] =>
            Array.from({ length: 40 }, (_, i) => i < solid);
          const below = Array.from({ length: height }, () => line(10));
          const above = Array.from({ length: height }, () => line(10 + depth));
          const bits = pack(grid, [below, above]);
          const discs = { one: coveringDisc(1), two: coveringDisc(2) };
          const unsupported = new Int32Array(grid.layerWords);
          const needs = new Int32Array(grid.layerWords);
          const touched = { firstRow: 0, lastRow: -1 };
          const out = { bridge_px: 0, support: 0 };
          findUnsupported(grid, bits, 1, discs, unsupported, touched);
          const limits = { bridge_px: 50, closing_px: 25, spare: 0, hem_px: 4 };
          const memory = createBridgeMemory();
          judgeSpans(grid, bits, 1, unsupported, touched, limits, memory, needs, out);
          expect(out.support).toBe((depth - 1) * height);
        },
      ),
      SEED,
    );
  });
});
