/** The arithmetic behind the plots. */
import { describe, expect, it } from 'vitest';
import { sortedRows, windowOf } from '../../../src/web/parts/table-window.ts';
import { columnsOf, keptMask, plottable } from '../../../src/web/plots/columns.ts';
import { cellAt, cellPoints, layMatrix } from '../../../src/web/plots/matrix-data.ts';
import {
  beginBrush,
  brushTo,
  heightAt,
  layAxes,
  linesOf,
  movedBy,
  nearestLine,
  stepEnd,
  valueAt,
  wrapped,
} from '../../../src/web/plots/parallel-data.ts';
import { collectPoints, fitView, panView, zoomView } from '../../../src/web/plots/scatter-data.ts';
import { svgPen } from '../../../src/web/plots/svg-pen.ts';
import { mixTones } from '../../../src/web/plots/tones.ts';
import { followIds } from '../../../src/web/state/follow.ts';
import { inventedFront } from '../../support/invented-front.ts';

const front = inventedFront(11);
const loaded = { id: 'f', name: 'f', front };

describe('columns', () => {
  it('leave out measures without a reading', () => {
    expect(plottable(front).map(({ id }) => id)).toEqual(front.objectives);
  });

  it('keep what lies within every range, and what has no reading', () => {
    // Pressure drops are 10, 19, ... 100 Pa.
    expect([...keptMask(front, { pressureDrop_Pa: [19, 37] })]).toEqual([
      0, 1, 1, 1, 0, 0, 0, 0, 0, 0, 0,
    ]);
    expect(keptMask(front, { openArea_mm2: [1, 2] }).every((one) => one === 1)).toBe(true);
  });
});

describe('the view of a scatter', () => {
  const data = collectPoints([loaded], 'pressureDrop_Pa', 'mass_g', 'finestFeature_mm');

  it('shows every point, and does not start below a zero that is not crossed', () => {
    const { x, y } = fitView(data);
    expect(x[0]).toBeLessThan(10);
    expect(x[1]).toBeGreaterThan(100);
    expect(y[0]).toBeGreaterThanOrEqual(0);
    expect(fitView({ x: [5], y: [5] }).x).toEqual([4.5, 5.5]);
  });

  it('scales about a place that stays, and moves by shares', () => {
    const view = { x: [0, 10], y: [0, 20] } as const;
    expect(zoomView(view, 0.5, 0, 1)).toEqual({ x: [0, 5], y: [10, 20] });
    expect(panView(view, 0.1, -0.5)).toEqual({ x: [1, 11], y: [-10, 10] });
  });

  it('scales the third measure to the plot', () => {
    expect(Math.min(...data.third)).toBe(0);
    expect(Math.max(...data.third)).toBe(1);
    expect(collectPoints([loaded], 'pressureDrop_Pa', 'openArea_mm2', null).keys).toEqual([]);
  });
});

describe('parallel coordinates', () => {
  const scene = layAxes(front, ['pressureDrop_Pa', 'mass_g'], 400, 400);
  const [drop] = scene.columns;

  it('put the greatest on top, and read a height back', () => {
    expect(heightAt(scene, drop, 100)).toBe(scene.top);
    expect(heightAt(scene, drop, 10)).toBe(scene.foot);
    expect(valueAt(scene, drop, heightAt(scene, drop, 42))).toBeCloseTo(42, 10);
    expect(valueAt(scene, drop, -50)).toBe(100);
  });

  it('begin a range, move an end, or move all of it', () => {
    const at = (value: number) => heightAt(scene, drop, value);
    const fresh = beginBrush(scene, drop, null, at(30));
    expect(brushTo(fresh, drop, 60).map(Math.round)).toEqual([30, 60]);
    expect(brushTo(fresh, drop, 20).map(Math.round)).toEqual([20, 30]);
    const end = beginBrush(scene, drop, [30, 60], at(60) + 2);
    expect(brushTo(end, drop, 80)).toEqual([30, 80]);
    const all = beginBrush(scene, drop, [30, 60], at(45));
    const [low, high] = brushTo(all, drop, 95);
    expect([low, high].map(Math.round)).toEqual([70, 100]);
  });

  it('step by hundredths without passing the other end', () => {
    expect(stepEnd(drop, [10, 100], 0, 10)).toEqual([19, 100]);
    expect(stepEnd(drop, [10, 20], 0, 100)).toEqual([20, 20]);
    expect(stepEnd(drop, [10, 20], 1, 1000)).toEqual([10, 100]);
  });

  it('find the line under the pointer', () => {
    const lines = linesOf(scene);
    const middle = (scene.x[0] + scene.x[1]) / 2;
    const y = (lines[0][1] + lines[0][3]) / 2;
    expect(nearestLine(lines, middle, y, 5, (row) => row === 0)).toBe(0);
    expect(nearestLine(lines, scene.x[0], lines[7][1], 5, () => true)).toBe(7);
    expect(nearestLine(lines, scene.x[0], lines[7][1] - 400, 5, () => true)).toBe(-1);
  });

  it('reorder and wrap', () => {
    expect(movedBy(['a', 'b', 'c'], 'a', 2)).toEqual(['b', 'c', 'a']);
    expect(movedBy(['a', 'b', 'c'], 'a', -1)).toEqual(['a', 'b', 'c']);
    expect(wrapped('tightest gap for small fingers', 12)).toEqual(['tightest gap', 'for small …']);
  });
});

describe('the scatter matrix', () => {
  it('has each pair once, with the designs inside their cells', () => {
    const scene = layMatrix(front, front.objectives, 600, 400);
    expect(scene.cells.map(({ across, up }) => `${across}${up}`)).toEqual(['01', '02', '12']);
    for (const cell of scene.cells) {
      const { x, y } = cellPoints(scene, cell);
      const place = scene.cells.indexOf(cell);
      for (let i = 0; i < x.length; i++) expect(cellAt(scene, x[i], y[i])).toBe(place);
    }
  });
});

describe('the table', () => {
  it('keeps few rows in the document, among them all in sight', () => {
    const { from, to } = windowOf(5000, 30, 90_000, 480);
    expect(from).toBeLessThanOrEqual(3000);
    expect(to).toBeGreaterThanOrEqual(3016);
    expect(to - from).toBeLessThan(60);
    expect(windowOf(10, 30, 0, 480)).toEqual({ from: 0, to: 10 });
  });

  it('sorts with those without a reading last, either way', () => {
    const values = [2, Number.NaN, 1, 2];
    const all = Uint8Array.of(1, 1, 1, 1);
    expect(sortedRows(values, all, false)).toEqual([2, 0, 3, 1]);
    expect(sortedRows(values, all, true)).toEqual([0, 3, 2, 1]);
    expect(sortedRows(values, Uint8Array.of(0, 1, 1, 1), false)).toEqual([2, 3, 1]);
  });
});

describe('what goes into files and lasts through a run', () => {
  const ink = {
    paper: 'rgb(255, 255, 255)',
    grid: 'rgb(200, 200, 200)',
    line: 'rgb(0, 0, 0)',
    soft: 'rgb(90, 90, 90)',
    hair: 'rgb(180, 180, 180)',
    accent: 'rgb(150, 60, 40)',
    air: 'rgb(40, 100, 130)',
    font: 'serif',
  };

  it('writes hostile names as text only', () => {
    const pen = svgPen(100, 50, ink);
    pen.text(1, 2, '</text><script>1</script>');
    pen.polylines([[0, 0, 1, Number.NaN, 2, 2, 3, 3]], { tone: 'line' });
    const svg = pen.finish('a "b" & <c>');
    expect(svg).not.toContain('<script');
    expect(svg).toContain('&lt;/text&gt;&lt;script&gt;');
    expect(svg).toContain('<title>a &quot;b&quot; &amp; &lt;c&gt;</title>');
    // A gap lifts the pen.
    expect(svg).toContain('d="M0 0M2 2L3 3"');
  });

  it('mixes tones from a tenth on', () => {
    expect(mixTones('rgb(0, 0, 0)', 'rgb(100, 100, 100)', 0)).toBe('rgb(10, 10, 10)');
  });

  it('follows designs by their genes when ids are given out anew', () => {
    const old = inventedFront(5);
    const renewed = {
      ...old,
      designs: old.designs
        .filter(({ id }) => id !== 'd0001')
        .map((design, i) => ({ ...design, id: `d000${i + 1}` })),
    };
    expect(followIds(['d0001', 'd0003', 'd0005'], old, renewed)).toEqual(['d0002', 'd0004']);
    expect(columnsOf(old).get('mass_g')?.values.length).toBe(5);
  });
});
