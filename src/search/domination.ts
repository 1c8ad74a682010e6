/** Which vectors of one set those of another dominate. */

/** Whether row i of `a` is no worse than row j of `b` everywhere, and better somewhere. */
function beats(a: Float64Array, i: number, b: Float64Array, j: number, m: number): boolean {
  let better = false;
  for (let k = 0; k < m; k++) {
    const difference = a[i * m + k] - b[j * m + k];
    if (difference > 0) return false;
    if (difference < 0) better = true;
  }
  return better;
}

/**
 * Marks the vectors of `b` that some vector of `a` dominates: no worse everywhere, better somewhere.
 *
 * @param a, b minimised objective vectors, row-major [n x m].
 * @returns 1 per dominated row of `b`.
 * @example markDominated(Float64Array.of(1, 1), Float64Array.of(1, 2, 1, 1, 0, 3), 2) // Uint8Array.of(1, 0, 0)
 */
export function markDominated(a: Float64Array, b: Float64Array, m: number): Uint8Array {
  const marks = new Uint8Array(b.length / m);
  const n = a.length / m;
  // The row that beat the last one often beats the next one too: it is asked first.
  let likely = 0;
  for (let j = 0; j < marks.length; j++) {
    if (n === 0) break;
    if (beats(a, likely, b, j, m)) {
      marks[j] = 1;
      continue;
    }
    for (let i = 0; i < n; i++) {
      if (!beats(a, i, b, j, m)) continue;
      marks[j] = 1;
      likely = i;
      break;
    }
  }
  return marks;
}
