/** The nearest valid name to a mistyped one. */

/**
 * Damerau-Levenshtein distance, optimal string alignment: the least number of letters put in,
 * left out, replaced, or swapped with their neighbour.
 *
 * Source: Damerau 1964, Commun. ACM 7:171; Levenshtein 1966 (from memory).
 * @example editDistance('thikcness', 'thickness') // 1
 * @example editDistance('kitten', 'sitting') // 3
 */
export function editDistance(a: string, b: string): number {
  const width = b.length + 1;
  const rows = new Uint16Array((a.length + 1) * width);
  for (let i = 0; i <= a.length; i++) rows[i * width] = i;
  for (let j = 0; j <= b.length; j++) rows[j] = j;
  for (let i = 1; i <= a.length; i++) {
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1];
      let best = Math.min(
        rows[(i - 1) * width + j] + 1,
        rows[i * width + j - 1] + 1,
        rows[(i - 1) * width + j - 1] + (same ? 0 : 1),
      );
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) {
        best = Math.min(best, rows[(i - 2) * width + j - 2] + 1);
      }
      rows[i * width + j] = best;
    }
  }
  return rows[rows.length - 1];
}

/** A name without its unit: `flow_m3_per_h` is `flow`. */
function stem(name: string): string {
  const cut = name.indexOf('_');
  return cut > 0 ? name.slice(0, cut) : name;
}

/** How unlike two names are; a missing or wrong unit counts half a letter. */
function unlikeness(name: string, candidate: string): number {
  const a = name.toLowerCase();
  const b = candidate.toLowerCase();
  if (a === b) return 0.25;
  return Math.min(
    editDistance(a, b),
    0.5 + editDistance(stem(a), stem(b)),
    0.5 + editDistance(a, stem(b)),
  );
}

/**
 * The valid name that the writer most likely meant, or null when none is near: at most one letter
 * in three may differ. The unit may be missing or another one.
 *
 * @param name what was written; only its first 100 letters count.
 * @param candidates valid names; the first of equally near ones is taken.
 * @example nearestName('thickness', ['rim_mm', 'thickness_mm']) // 'thickness_mm'
 * @example nearestName('qwerty', ['rim_mm', 'thickness_mm']) // null
 */
export function nearestName(name: string, candidates: readonly string[]): string | null {
  const written = name.slice(0, 100);
  let best: string | null = null;
  let least = Infinity;
  for (const candidate of candidates) {
    const distance = unlikeness(written, candidate);
    const reach = Math.max(1, Math.floor(Math.min(written.length, candidate.length) / 3));
    if (distance <= reach + 0.5 && distance < least) {
      least = distance;
      best = candidate;
    }
  }
  return best;
}
