/** The sheet all still pictures are drawn on: graph paper, ink, lettering. */
import { escapeXml } from './xml.ts';

/** Few named tones, as on tracing paper. */
export const INK = {
  paper: '#fbfaf6',
  grid: '#e3e7e4',
  gridBold: '#cfd6d3',
  line: '#22303c',
  soft: '#6b7882',
  accent: '#a4442c',
  air: '#3f7d93',
} as const;

/** Number for SVG: three decimals at most, never -0. */
export function num(value: number): string {
  const rounded = Math.round(value * 1000) / 1000;
  return String(rounded === 0 ? 0 : rounded);
}

interface LetteringOptions {
  readonly size?: number;
  readonly anchor?: 'start' | 'middle' | 'end';
  readonly tone?: string;
  readonly turn_deg?: number;
  readonly weight?: 'normal' | 'bold';
}

/** A line of lettering with its baseline at (x, y). */
export function lettering(
  x: number,
  y: number,
  text: string,
  options: LetteringOptions = {},
): string {
  const { size = 11, anchor = 'start', tone = INK.line, turn_deg = 0, weight = 'normal' } = options;
  const turn = turn_deg === 0 ? '' : ` transform="rotate(${num(turn_deg)} ${num(x)} ${num(y)})"`;
  const bold = weight === 'bold' ? ' font-weight="bold"' : '';
  return (
    `<text x="${num(x)}" y="${num(y)}" font-size="${num(size)}" text-anchor="${anchor}" ` +
    `fill="${tone}"${bold}${turn}>${escapeXml(text)}</text>`
  );
}

interface StrokeOptions {
  readonly tone?: string;
  readonly width?: number;
  readonly dash?: string;
}

export function rule(
  x1: number,
  y1: number,
  x2: number,
  y2: number,
  options: StrokeOptions = {},
): string {
  return (
    `<line x1="${num(x1)}" y1="${num(y1)}" x2="${num(x2)}" y2="${num(y2)}" ` +
    `${strokeOf(options)}/>`
  );
}

export function strokeOf({ tone = INK.line, width = 0.6, dash }: StrokeOptions): string {
  const dashes = dash === undefined ? '' : ` stroke-dasharray="${dash}"`;
  return `stroke="${tone}" stroke-width="${num(width)}"${dashes}`;
}

/** Dimension line between two points, with ticks and its figure: above the middle, or
 * a quarter along where it stands upright, clear of the section line. */
export function dimension(x1: number, y1: number, x2: number, y2: number, figure: string): string {
  const length = Math.sqrt((x2 - x1) * (x2 - x1) + (y2 - y1) * (y2 - y1));
  const [ux, uy] = length > 0 ? [(x2 - x1) / length, (y2 - y1) / length] : [1, 0];
  const tick = (x: number, y: number): string =>
    rule(x - 3 * (ux - uy), y - 3 * (uy + ux), x + 3 * (ux - uy), y + 3 * (uy + ux), {
      width: 0.9,
    });
  const isUpright = Math.abs(uy) > 0.5;
  const [mx, my] = [(x1 + x2) / 2, (y1 + y2) / 2];
  const text = isUpright
    ? lettering(mx - 4, (y1 + my) / 2, figure, { anchor: 'middle', turn_deg: -90 })
    : lettering(mx, my - 4, figure, { anchor: 'middle' });
  return rule(x1, y1, x2, y2, { width: 0.5 }) + tick(x1, y1) + tick(x2, y2) + text;
}

export interface Sheet {
  readonly width: number;
  readonly height: number;
  readonly title: string;
  readonly description: string;
  readonly body: readonly string[];
  /** Extra definitions: patterns, clip paths. */
  readonly defs?: string;
}

/**
 * A whole SVG 1.1 document with title and description for readers that do not see, on graph paper.
 * The same content gives the same bytes.
 */
export function sheet({ width, height, title, description, body, defs = '' }: Sheet): string {
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<svg xmlns="http://www.w3.org/2000/svg" version="1.1" width="${num(width)}" ` +
      `height="${num(height)}" viewBox="0 0 ${num(width)} ${num(height)}" role="img" ` +
      'aria-labelledby="sheet-title sheet-desc" font-family="Helvetica, Arial, sans-serif">',
    `<title id="sheet-title">${escapeXml(title)}</title>`,
    `<desc id="sheet-desc">${escapeXml(description)}</desc>`,
    '<defs>' +
      '<pattern id="paper" width="50" height="50" patternUnits="userSpaceOnUse">' +
      `<path d="M10 0V50M20 0V50M30 0V50M40 0V50M0 10H50M0 20H50M0 30H50M0 40H50" ` +
      `fill="none" ${strokeOf({ tone: INK.grid, width: 0.4 })}/>` +
      `<path d="M0 0V50M0 0H50" fill="none" ${strokeOf({ tone: INK.gridBold, width: 0.5 })}/>` +
      `</pattern>${defs}</defs>`,
    `<rect width="100%" height="100%" fill="${INK.paper}"/>`,
    '<rect width="100%" height="100%" fill="url(#paper)"/>',
    ...body,
    '</svg>',
    '',
  ].join('\n');
}
