import { describe, expect, it } from 'vitest';
import type { Channel, Design } from '../../../src/design/index.ts';
import { aChannel, aDesign, clearance } from '../../support/clearance-plates.ts';
import type { Point } from '../../support/clearance-plates.ts';

/** Half torus in the plane x z: down a leg, round a half circle, up again. */
function uTurn(radius: number): Point[] {
  const points: Point[] = [
    [-radius, 0, 0],
    [-radius, 0, 4],
  ];
  for (let i = 1; i < 8; i++) {
    const a = (Math.PI * i) / 8;
    points.push([-radius * Math.cos(a), 0, 8 + radius * Math.sin(a)]);
  }
  points.splice(2, 0, [-radius, 0, 8]);
  points.push([radius, 0, 8]);
  return points;
}

/** Up, over, one and a half turns of a helix of the given radius and rise per turn, and out. */
function helix(radius: number, rise: number): Point[] {
  const quarter = (sign: number, z: number): Point[] =>
    [0, 30, 60].map((deg) => {
      const a = (deg * Math.PI) / 180;
      return [sign * radius, -14 - 5 * Math.cos(a), z + 5 * Math.sin(a)];
    });
  const points: Point[] = [[radius, -19, 0], ...quarter(1, 1.5), [radius, -14, 6.5]];
  for (let i = -4; i <= 28; i++) {
    const a = (2 * Math.PI * i) / 16;
    const onArc = i >= 0 && i <= 24;
    const beyond = i < 0 ? i : i - 24;
    const x = onArc ? radius * Math.cos(a) : i < 0 ? radius : -radius;
    const y = onArc ? radius * Math.sin(a) : (i < 0 ? 1 : -1) * 2 * beyond;
    points.push([x, y, 8 + (rise * i) / 16]);
  }
  const top = 8 + (rise * 28) / 16;
  for (const deg of [60, 30, 0]) {
    const a = (deg * Math.PI) / 180;
    points.push([-radius, -12 - 6 * Math.cos(a), top + 7 - 6 * Math.sin(a)]);
  }
  points.push([-radius, -18, top + 12]);
  return points;
}

// From the turn the channel comes back down, then crosses under to the outlet far away.
function hairpin(radius: number, bore: number): Channel {
  const tail: Point[] = [
    [radius + 1, 0, 4.5],
    [radius + 8, 0, 4],
    [radius + 14, 0, 10],
    [radius + 14, 0, 20],
  ];
  return aChannel([...uTurn(radius), ...tail], { bore_mm: [bore] });
}

function helixPlate(rise: number): Design {
  const points = helix(6, rise);
  const thickness_mm = points[points.length - 1][2];
  return aDesign([aChannel(points, { bore_mm: [3] })], { thickness_mm });
}

describe('a channel against itself', () => {
  it('a half torus leaves a pin of twice its inner radius', () => {
    const result = clearance(aDesign([hairpin(4, 3)]), 96);
    // Curvature of the fitted spline ripples by some per cent about 1 / radius.
    expect(result.overlapDepth_mm).toBe(0);
    expect(result.thinnestWall_mm).toBeLessThan(2 * (4 - 1.5) + 0.1);
  });

  it('a torus arc tighter than its section overlaps', () => {
    const result = clearance(aDesign([hairpin(1.6, 4)]), 64);
    expect(result.overlaps_mm.bend + result.overlaps_mm.self).toBeGreaterThan(0.5);
    expect(result.thinnestWall_mm).toBeLessThan(0);
  });

  it('two legs of a wide loop are not skipped as near neighbours', () => {
    // Legs 4.6 mm apart, bore 4: 0.6 mm between them; the turn itself is wider than that.
    const points: Point[] = [
      [0, 0, 0],
      [0, 0, 8],
      [0, 0, 12],
      [-4, 0, 17],
      [-9, 0, 12],
      [-9, 0, 8],
      [-4.4, 0, 3.9],
      [-4.6, 0, 10],
      [-4.6, 6, 14],
      [-4.6, 12, 20],
    ];
    const result = clearance(aDesign([aChannel(points, { bore_mm: [4] })]), 96);
    expect(result.thinnestWall_mm).toBeLessThan(0.75);
  });

  it('neighbouring turns of a helix keep their rise less the bore', () => {
    const result = clearance(helixPlate(5), 160);
    // Distance of neighbouring turns, p cos(slope) up to the curvature of the helix.
    const slope = Math.atan(5 / (2 * Math.PI * 6));
    expect(result.thinnestWall_mm).toBeGreaterThan(5 * Math.cos(slope) - 3 - 0.15);
    expect(result.thinnestWall_mm).toBeLessThan(5 * Math.cos(slope) - 3 + 0.05);
    expect(result.kind).toBe('self');
    expect(result.overlapDepth_mm).toBe(0);
  });

  it('turns of a helix closer than the bore overlap', () => {
    const result = clearance(helixPlate(2.6), 96);
    expect(result.overlaps_mm.self).toBeGreaterThan(0.3);
  });

  it('a figure of eight that crosses itself overlaps by its bore', () => {
    const points: Point[] = [
      [0, 0, 0],
      [0, 0, 6],
      [6, 0, 12],
      [12, 0, 6],
      [6, 0, 3.5],
      [0, 0, 9],
      [-4, 0, 14],
      [-4, 0, 20],
    ];
    const result = clearance(aDesign([aChannel(points, { bore_mm: [2.4] })]), 64);
    expect(result.overlaps_mm.self).toBeGreaterThan(2);
    expect(result.overlaps_mm.self).toBeLessThan(2.6);
  });

  it('a gentle S-bend has no wall with itself below the cap of its bends', () => {
    const points: Point[] = [
      [0, 0, 0],
      [1, 0, 7],
      [3, 0, 13],
      [4, 0, 20],
    ];
    const result = clearance(aDesign([aChannel(points, { bore_mm: [4] })]));
    expect(result.thinnestWall_mm).toBe(8);
  });

  it('a loop between two stations shows', () => {
    // A spike of 3 mm back and forth within 0.8 mm of height: seven points in one step or two.
    const points: Point[] = [
      [0, 0, 0],
      [0, 0, 10],
      [0.4, 0, 10.3],
      [0.4, 0.4, 10.5],
      [0, 0.4, 10.3],
      [0, 0, 10.6],
      [0, 0, 20],
    ];
    const result = clearance(aDesign([aChannel(points, { bore_mm: [2] })]));
    expect(result.overlapDepth_mm).toBeGreaterThan(0);
  });

  it('a bend sharpest between two stations is not gentler for it', () => {
    const points: Point[] = [
      [0, 0, 0],
      [0.5, 0, 6.1],
      [5.5, 0, 10.2],
      [6, 0, 20],
    ];
    const design = aDesign([aChannel(points, { bore_mm: [3] })]);
    const walls = [24, 29, 32, 37, 48, 64].map((n) => clearance(design, n).thinnestWall_mm);
    const fine = clearance(design, 400).thinnestWall_mm;
    for (const wall of walls) {
      expect(wall - fine).toBeLessThan(0.1);
      expect(wall - fine).toBeGreaterThan(-0.3);
    }
  });
});
