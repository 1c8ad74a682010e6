/** Tables, times and long sentences as a terminal shows them. */

/**
 * Columns lined up under their headings; numbers to the right, words to the left.
 *
 * @param rows cells as text, one array per row, each as long as the headings.
 */
export function table(headings: readonly string[], rows: readonly (readonly string[])[]): string {
  const widths = headings.map((heading, j) =>
    Math.max(heading.length, ...rows.map((row) => row[j].length)),
  );
  const numeric = headings.map(
    (_, j) => rows.length > 0 && rows.every((row) => /^(-|[-+]?[\d.]+(e[-+]?\d+)?)$/.test(row[j])),
  );
  const line = (cells: readonly string[]): string =>
    cells
      .map((cell, j) => (numeric[j] ? cell.padStart(widths[j]) : cell.padEnd(widths[j])))
      .join('  ')
      .trimEnd();
  const rule = widths.map((width) => '-'.repeat(width)).join('  ');
  return [line(headings), rule, ...rows.map(line)].join('\n');
}

/**
 * A duration in the largest two units that matter.
 *
 * @example duration(75) // '1 min 15 s'
 * @example duration(8.2) // '8 s'
 */
export function duration(seconds: number): string {
  const whole = Math.round(seconds);
  if (whole < 60) return `${whole} s`;
  if (whole < 3600) return `${Math.floor(whole / 60)} min ${whole % 60} s`;
  return `${Math.floor(whole / 3600)} h ${Math.floor((whole % 3600) / 60)} min`;
}

/** Breaks a text into lines of at most `width` characters, each begun with `indent`. */
export function wrap(text: string, indent: string, width = 92): string {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/\s+/)) {
    if (line !== '' && indent.length + line.length + 1 + word.length > width) {
      lines.push(indent + line);
      line = word;
    } else {
      line = line === '' ? word : `${line} ${word}`;
    }
  }
  return [...lines, indent + line].join('\n');
}
