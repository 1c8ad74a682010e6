/** The brief being written, kept in the browser's own storage from one visit to the next. */
const PLACE = 'anfract/draft';

/** Keeps a draft; a browser that forbids storage, or has no room left, keeps none. */
export function keepDraft(draft: Readonly<Record<string, unknown>>): void {
  try {
    localStorage.setItem(PLACE, JSON.stringify(draft));
  } catch {
    // The draft is still on the page, and saving it as a file works everywhere.
  }
}

/** The draft kept last, or null. */
export function findDraft(): Readonly<Record<string, unknown>> | null {
  try {
    const value: unknown = JSON.parse(localStorage.getItem(PLACE) ?? 'null');
    return typeof value === 'object' && value !== null && !Array.isArray(value)
      ? { ...value }
      : null;
  } catch {
    return null;
  }
}
