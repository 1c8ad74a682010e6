/** Tones between two of the page's. */

/**
 * A tone on the way from one to another: grey steps of a measure shown as shade. It starts a tenth
 * on the way, so that the lightest still differs from the paper.
 *
 * @param from, to as computed styles give them: `rgb(r, g, b)`.
 * @example mixTones('rgb(0, 0, 0)', 'rgb(100, 200, 50)', 1) // 'rgb(100, 200, 50)'
 */
export function mixTones(from: string, to: string, share: number): string {
  const [a, b] = [channels(from), channels(to)];
  const way = 0.1 + 0.9 * share;
  return `rgb(${a.map((value, k) => Math.round(value + way * (b[k] - value))).join(', ')})`;
}

function channels(tone: string): readonly number[] {
  const found =
    tone
      .match(/[\d.]+/gu)
      ?.slice(0, 3)
      .map(Number) ?? [];
  return found.length === 3 ? found : [128, 128, 128];
}
