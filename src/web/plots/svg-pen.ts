/** A pen that writes SVG: the same drawing as on the page, sharp at any size. */
import { escapeXml } from '../../formats/index.ts';
import type { Ink } from '../style/ink-tones.ts';
import { markPath, round } from './marks.ts';
import { MARK_OPACITY } from './pen.ts';
import type { Lettering, MarkLook, Pen, Stroke } from './pen.ts';
import { mixTones } from './tones.ts';

interface SvgPen extends Pen {
  /** The picture as drawn so far. */
  finish(title: string): string;
}

/** @param ink tones as CSS colours; `paper` fills the ground. */
export function svgPen(width: number, height: number, ink: Ink): SvgPen {
  const parts: string[] = [];
  let clips = 0;
  const strokeOf = ({ tone, width: wide = 1, opacity = 1, dash }: Stroke): string =>
    `fill="none" stroke="${ink[tone]}" stroke-width="${wide === 0 ? 0.6 : wide}"` +
    (opacity < 1 ? ` stroke-opacity="${opacity}"` : '') +
    (dash === undefined ? '' : ` stroke-dasharray="${dash.join(' ')}"`);
  return {
    width,
    height,
    line(x1, y1, x2, y2, stroke) {
      const d = `M${round(x1)} ${round(y1)}L${round(x2)} ${round(y2)}`;
      parts.push(`<path d="${d}" ${strokeOf(stroke)}/>`);
    },
    polylines(lines, stroke) {
      const d = lines.map(pathOf).join('');
      if (d !== '') parts.push(`<path d="${d}" ${strokeOf(stroke)} stroke-linejoin="bevel"/>`);
    },
    box(x, y, wide, high, fill, edge) {
      const at = `x="${round(x)}" y="${round(y)}" width="${round(wide)}" height="${round(high)}"`;
      if (fill !== null) {
        parts.push(`<rect ${at} fill="${ink[fill.tone]}" fill-opacity="${fill.opacity ?? 1}"/>`);
      }
      if (edge !== undefined) parts.push(`<rect ${at} ${strokeOf(edge)}/>`);
    },
    patch(outline, tone) {
      parts.push(`<path d="${pathOf(outline)}Z" fill="${ink[tone]}"/>`);
    },
    text(x, y, words, lettering = {}) {
      parts.push(textOf(ink, x, y, words, lettering));
    },
    mark(x, y, { series, radius, shade, faint }: MarkLook) {
      const fill = shade === null ? ink.air : mixTones(ink.paper, ink.line, shade);
      const inside = shade === null ? ` fill-opacity="${MARK_OPACITY.inside}"` : '';
      parts.push(
        `<path d="${markPath(series, x, y, radius)}" fill="${fill}"${inside} ` +
          `stroke="${shade === null ? ink.air : ink.line}" stroke-width="1.2"` +
          `${faint ? ` opacity="${MARK_OPACITY.faint}"` : ''}/>`,
      );
    },
    ring(x, y, series, radius, stroke) {
      parts.push(`<path d="${markPath(series, x, y, radius)}" ${strokeOf(stroke)}/>`);
    },
    within(x, y, wide, high, draw) {
      const id = `clip${++clips}`;
      const at = `x="${round(x)}" y="${round(y)}" width="${round(wide)}" height="${round(high)}"`;
      parts.push(`<clipPath id="${id}"><rect ${at}/></clipPath><g clip-path="url(#${id})">`);
      draw();
      parts.push('</g>');
    },
    finish: (title) =>
      `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${round(width)} ${round(height)}" ` +
      `width="${round(width)}" height="${round(height)}" font-family="Helvetica, Arial, sans-serif">\n` +
      `<title>${escapeXml(title)}</title>\n` +
      `<rect width="100%" height="100%" fill="${ink.paper}"/>\n${parts.join('\n')}\n</svg>\n`,
  };
}

/** A gap (NaN) lifts the pen. */
function pathOf(line: ArrayLike<number>): string {
  let d = '';
  let down = false;
  for (let k = 0; k + 1 < line.length; k += 2) {
    if (Number.isNaN(line[k + 1])) down = false;
    else {
      d += `${down ? 'L' : 'M'}${round(line[k])} ${round(line[k + 1])}`;
      down = true;
    }
  }
  return d;
}

function textOf(ink: Ink, x: number, y: number, words: string, lettering: Lettering): string {
  const { tone = 'line', anchor = 'start', size = 12, bold = false, upwards = false } = lettering;
  const [a, b] = [round(x), round(y)];
  return (
    `<text x="${a}" y="${b}" font-size="${size}" fill="${ink[tone]}" text-anchor="${anchor}"` +
    `${bold ? ' font-weight="600"' : ''}${upwards ? ` transform="rotate(-90 ${a} ${b})"` : ''}>` +
    `${escapeXml(words)}</text>`
  );
}
