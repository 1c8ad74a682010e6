import { describe, expect, it } from 'vitest';
import { cutAway, drawLines, isometric, meshVolume } from '../../../src/solids/index.ts';
import { boxes } from './boxes.ts';

/** Total length of stretches on the sheet [mm]. */
function lengthOf(segments: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < segments.length; k += 4) {
    const dx = segments[k + 2] - segments[k];
    const dy = segments[k + 3] - segments[k + 1];
    sum += Math.sqrt(dx * dx + dy * dy);
  }
  return sum;
}

/** An edge along an axis is foreshortened by sqrt(2/3) in isometric projection (ISO 5456-3). */
const SHORT = Math.sqrt(2 / 3);

describe('isometric()', () => {
  it('shows the three axes equally long and 120 degrees apart', () => {
    const axes = [isometric(1, 0, 0), isometric(0, 1, 0), isometric(0, 0, 1)];
    for (const [x, y] of axes) expect(Math.sqrt(x * x + y * y)).toBeCloseTo(SHORT, 12);
    for (const k of [0, 1]) {
      const [a, b] = [axes[k], axes[2]];
      expect(Math.abs((a[0] * b[0] + a[1] * b[1]) / (SHORT * SHORT))).toBeCloseTo(0.5, 12);
    }
  });
});

describe('drawLines()', () => {
  it('draws the nine visible edges of a box and none of the three hidden ones', () => {
    const { creases, outlines } = drawLines(boxes([0, 0, 0, 10, 10, 10]));
    expect(outlines).toHaveLength(0);
    expect(lengthOf(creases)).toBeCloseTo(9 * 10 * SHORT, 0);
  });

  it('hides what stands behind', () => {
    // The eye is at +x -y +z: a small box straight behind a large one is not seen at all.
    const large = [0, 0, 0, 10, 10, 10];
    const behind = [-6, 14, -4, -4, 16, -2];
    const alone = lengthOf(drawLines(boxes(large)).creases);
    expect(lengthOf(drawLines(boxes(large, behind)).creases)).toBeCloseTo(alone, 0);
  });
});

describe('cutAway()', () => {
  it('leaves the part behind the plane, closed', async () => {
    const half = await cutAway(boxes([0, 0, 0, 10, 10, 10]), 4);
    expect(half === null ? 0 : meshVolume(half)).toBeCloseTo(600, 3);
  });

  it('says so when nothing is left', async () => {
    expect(await cutAway(boxes([0, 0, 0, 10, 10, 10]), 11)).toBeNull();
  });
});
