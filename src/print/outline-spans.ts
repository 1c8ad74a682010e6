/** What a scan line cuts from the outline. */
import type { Outline } from '../brief/index.ts';

/** Corner radius of a rectangle, no larger than half its short side [mm]. */
function cornerRadius(outline: Extract<Outline, { kind: 'rectangle' }>): number {
  return Math.min(outline.cornerRadius_mm, outline.width_mm / 2, outline.height_mm / 2);
}

/**
 * Where the line y = const runs inside an outline.
 *
 * @param out receives [from, to] pairs of x in rising order [mm].
 * @returns number of pairs.
 */
export function outlineSpans(outline: Outline, y_mm: number, out: number[]): number {
  switch (outline.kind) {
    case 'round': {
      const r = outline.diameter_mm / 2;
      return symmetricSpan(r * r - y_mm * y_mm, 0, out);
    }
    case 'rectangle': {
      const r = cornerRadius(outline);
      const beyond = Math.abs(y_mm) - (outline.height_mm / 2 - r);
      const flat = outline.width_mm / 2 - r;
      return symmetricSpan(beyond <= 0 ? r * r : r * r - beyond * beyond, flat, out);
    }
    case 'polygon': {
      const points = outline.points_mm;
      let count = 0;
      for (let i = 0, j = points.length - 1; i < points.length; j = i++) {
        const a = points[j];
        const b = points[i];
        if (a[1] > y_mm === b[1] > y_mm) continue;
        const x = a[0] + ((y_mm - a[1]) * (b[0] - a[0])) / (b[1] - a[1]);
        let at = count++;
        for (; at > 0 && out[at - 1] > x; at--) out[at] = out[at - 1];
        out[at] = x;
      }
      return count >> 1;
    }
    default:
      return unknownOutline(outline);
  }
}

function symmetricSpan(square: number, flat: number, out: number[]): number {
  if (square < 0 || (square === 0 && flat <= 0)) return 0;
  const half = flat + Math.sqrt(square);
  out[0] = -half;
  out[1] = half;
  return 1;
}

function unknownOutline(outline: never): never {
  throw new Error(`Unknown outline ${JSON.stringify(outline)}.`);
}
