/** Ribs in words: when a brief lets them be set by themselves. */
import { ribWidth } from '../engine/index.ts';
import type { Brief } from '../engine/index.ts';
import { figure } from '../formats/index.ts';

/** What the ribs of a brief do, or null when it asks for none. */
export function ribWords({ routes, process }: Brief): string | null {
  if (routes.ribs === 'none' || !routes.sections.includes('slot')) return null;
  const slats =
    routes.longestSlat_mm === undefined
      ? ''
      : ` or they are longer than ${routes.longestSlat_mm} mm`;
  return (
    `Ribs: full-depth webs of ${figure(ribWidth(process))} mm break slots where a hanging ceiling would bridge ` +
    `more than ${process.bridgeLimit_mm} mm (half of that where the slot lies level)${slats}. ` +
    'They stand in every measure as drawn.'
  );
}
