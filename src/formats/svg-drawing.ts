/** Drawing of a plate: plan with ports, and a hatched section through its channels. */
import type { Design } from '../design/index.ts';
import type { Loops, PlateViews } from '../solids/index.ts';
import { INK, dimension, lettering, num, rule, sheet, strokeOf } from './svg-sheet.ts';

const MARGIN = 60;
const PLAN_WIDTH = 560;
const SIDE_WIDTH = 230;
/** Room between the plan and the section: dimension line, section letters. */
const GAP = 76;
/** Tallest plan; wide plates are drawn smaller. */
const PLAN_HEIGHT = 560;

export interface DrawingText {
  readonly title: string;
  /** Lines for the title block, such as measures with their units. */
  readonly notes: readonly string[];
}

/** Maps plate millimetres to the sheet. */
interface Frame {
  readonly scale: number;
  readonly x: (x_mm: number) => number;
  readonly y: (y_mm: number) => number;
}

/**
 * SVG drawing of a design: plan seen against the air stream (from the outlet side, +z), and the
 * section along the views' y, in the same scale and below it.
 *
 * Outlet ports are on the near face and drawn solid, inlet ports behind it dashed, the rim as a
 * chain line. Solid is hatched where it is cut.
 *
 * @param views the design's cuts, see `plateViews` of the solids room.
 */
export function drawDesign(design: Design, views: PlateViews, text: DrawingText): string {
  const { thickness_mm: thickness } = design.plate;
  const box = boundsOf(views.inlet);
  const wide = box.maxX - box.minX;
  const high = box.maxY - box.minY;
  const scale = Math.min(PLAN_WIDTH / wide, PLAN_HEIGHT / high);
  const x = (x_mm: number): number => MARGIN + (x_mm - box.minX) * scale;
  const plan: Frame = { scale, x, y: (y_mm) => MARGIN + 20 + (box.maxY - y_mm) * scale };
  const sectionTop = plan.y(box.minY) + GAP;
  const section: Frame = { scale, x, y: (z_mm) => sectionTop + (thickness - z_mm) * scale };
  const right = x(box.maxX);
  const width = right + MARGIN + SIDE_WIDTH;
  const height = Math.max(section.y(0) + MARGIN, 264 + 15 * text.notes.length);
  return sheet({
    width,
    height,
    title: text.title,
    description: describe(design, views),
    defs: hatching(),
    body: [
      ...planBody(design, views, plan, box),
      ...sectionBody(design, views, section, box),
      ...titleBlock(design, views, text, right + MARGIN, scale),
    ],
  });
}

/** Figure of a length: two decimals at most [mm]. */
function figure(length_mm: number): string {
  return num(Math.round(100 * length_mm) / 100);
}

interface Box {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

function boundsOf(loops: Loops): Box {
  let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const loop of loops) {
    for (let k = 0; k < loop.length; k += 2) {
      minX = Math.min(minX, loop[k]);
      maxX = Math.max(maxX, loop[k]);
      minY = Math.min(minY, loop[k + 1]);
      maxY = Math.max(maxY, loop[k + 1]);
    }
  }
  return { minX, minY, maxX, maxY };
}

function describe(design: Design, views: PlateViews): string {
  return (
    `Plan and section along y = ${figure(views.sectionY_mm)} mm of a plate ` +
    `${figure(design.plate.thickness_mm)} mm thick with ${counted(portCount(design), 'channel')} and ` +
    `${counted(design.plate.holes.length, 'mounting hole')}.`
  );
}

function counted(count: number, noun: string): string {
  return `${count} ${noun}${count === 1 ? '' : 's'}`;
}

function portCount(design: Design): number {
  return design.channels.reduce((sum, channel) => sum + channel.placements.length, 0);
}

function hatching(): string {
  return (
    '<pattern id="hatch" width="5" height="5" patternUnits="userSpaceOnUse" ' +
    'patternTransform="rotate(45)">' +
    `<rect width="5" height="5" fill="${INK.paper}"/>` +
    `<line x1="0" y1="0" x2="0" y2="5" ${strokeOf({ tone: INK.line, width: 0.7 })}/></pattern>`
  );
}

function pathOf(loops: Loops, frame: Frame): string {
  const parts: string[] = [];
  for (const loop of loops) {
    for (let k = 0; k < loop.length; k += 2) {
      parts.push(`${k === 0 ? 'M' : 'L'}${num(frame.x(loop[k]))} ${num(frame.y(loop[k + 1]))}`);
    }
    parts.push('Z');
  }
  return parts.join('');
}

/** Loops other than the outline, which is the longest way around. */
function innerLoops(loops: Loops): Loops {
  const box = boundsOf(loops);
  return loops.filter((loop) => {
    const own = boundsOf([loop]);
    return own.minX > box.minX + 1e-6 || own.maxX < box.maxX - 1e-6;
  });
}

function planBody(design: Design, views: PlateViews, frame: Frame, box: Box): string[] {
  const inner = innerLoops(views.outlet);
  const outline = views.outlet.filter((loop) => !inner.includes(loop));
  const yCut = frame.y(views.sectionY_mm);
  const [left, right] = [frame.x(box.minX), frame.x(box.maxX)];
  return [
    `<path d="${pathOf(outline, frame)}" fill="${INK.paper}" ${strokeOf({ width: 1.4 })}/>`,
    rimLine(design, frame),
    `<path d="${pathOf(innerLoops(views.inlet), frame)}" fill="none" ` +
      `${strokeOf({ tone: INK.air, width: 0.7, dash: '3 2' })}/>`,
    `<path d="${pathOf(inner, frame)}" fill="none" ${strokeOf({ width: 0.9 })}/>`,
    ...insidePath(views, frame),
    ...design.plate.holes.map((hole) => crosshair(frame.x(hole.x_mm), frame.y(hole.y_mm))),
    crosshair(frame.x(0), frame.y(0)),
    rule(left - 34, yCut, right + 34, yCut, { tone: INK.accent, width: 0.7, dash: '12 3 2 3' }),
    lettering(left - 38, yCut + 4, 'A', { anchor: 'end', weight: 'bold', tone: INK.accent }),
    lettering(right + 38, yCut + 4, 'A', { weight: 'bold', tone: INK.accent }),
    ...planDimensions(design, frame, box, views.sectionY_mm),
  ];
}

/** Where the cut through the side exits is void: channels and plenum inside the plate, dotted. */
function insidePath(views: PlateViews, frame: Frame): string[] {
  if (views.inside.length === 0) return [];
  const style = strokeOf({ tone: INK.air, width: 0.9, dash: '1 2' });
  return [`<path d="${pathOf(views.inside, frame)}" fill="none" ${style}/>`];
}

/** Rim as a chain line; polygons have none drawn, since their inset may fall apart. */
function rimLine(design: Design, frame: Frame): string {
  const { outline, rim_mm } = design.plate;
  if (rim_mm <= 0 || outline.kind === 'polygon') return '';
  const style = `fill="none" ${strokeOf({ tone: INK.soft, width: 0.5, dash: '10 3 2 3' })}`;
  if (outline.kind === 'round') {
    const r = Math.max(0, outline.diameter_mm / 2 - rim_mm) * frame.scale;
    return `<circle cx="${num(frame.x(0))}" cy="${num(frame.y(0))}" r="${num(r)}" ${style}/>`;
  }
  const w = Math.max(0, outline.width_mm - 2 * rim_mm);
  const h = Math.max(0, outline.height_mm - 2 * rim_mm);
  const r = Math.max(0, outline.cornerRadius_mm - rim_mm) * frame.scale;
  return (
    `<rect x="${num(frame.x(-w / 2))}" y="${num(frame.y(h / 2))}" width="${num(w * frame.scale)}" ` +
    `height="${num(h * frame.scale)}" rx="${num(r)}" ${style}/>`
  );
}

function crosshair(x: number, y: number): string {
  const style = { tone: INK.soft, width: 0.4 };
  return rule(x - 9, y, x + 9, y, style) + rule(x, y - 9, x, y + 9, style);
}

function planDimensions(design: Design, frame: Frame, box: Box, cut_mm: number): string[] {
  const { outline } = design.plate;
  const top = frame.y(box.maxY);
  const [left, right] = [frame.x(box.minX), frame.x(box.maxX)];
  const sign = outline.kind === 'round' ? '\u2300 ' : '';
  const wide = outline.kind === 'round' ? outline.diameter_mm : box.maxX - box.minX;
  const level = top - 22;
  const thin = { tone: INK.soft, width: 0.4 };
  const parts = [
    rule(left, frame.y(outline.kind === 'round' ? 0 : box.maxY) - 4, left, level - 6, thin),
    rule(right, frame.y(outline.kind === 'round' ? 0 : box.maxY) - 4, right, level - 6, thin),
    dimension(left, level, right, level, sign + figure(wide)),
  ];
  if (outline.kind !== 'round') {
    const at = left - 18;
    const ends = [frame.y(box.minY), frame.y(box.maxY)];
    // The figure stands near the first end: away from the letter of the cut.
    const [y1, y2] = cut_mm < (box.minY + box.maxY) / 2 ? ends.toReversed() : ends;
    parts.push(
      rule(left - 4, y1, at - 6, y1, thin),
      rule(left - 4, y2, at - 6, y2, thin),
      dimension(at, y1, at, y2, figure(box.maxY - box.minY)),
    );
  }
  return parts;
}

function sectionBody(design: Design, views: PlateViews, frame: Frame, box: Box): string[] {
  const t = design.plate.thickness_mm;
  const right = frame.x(box.maxX);
  const [top, bottom] = [frame.y(t), frame.y(0)];
  const thin = { tone: INK.soft, width: 0.4 };
  const middle = (frame.x(box.minX) + right) / 2;
  return [
    `<path d="${pathOf(views.section, frame)}" fill="url(#hatch)" fill-rule="evenodd" ` +
      `${strokeOf({ width: 1.1 })}/>`,
    rule(right + 4, top, right + 26, top, thin),
    rule(right + 4, bottom, right + 26, bottom, thin),
    dimension(right + 20, bottom, right + 20, top, figure(t)),
    lettering(middle, top - 14, `A \u2013 A   (y = ${figure(views.sectionY_mm)})`, {
      anchor: 'middle',
      size: 12,
      tone: INK.accent,
    }),
    airArrow(frame.x(box.minX) - 22, bottom, top),
  ];
}

/** Which way the air goes: from the inlet face upwards to the outlet face. */
function airArrow(x: number, bottom: number, top: number): string {
  const tip = Math.min(top, bottom - 24);
  return (
    rule(x, bottom, x, tip, { tone: INK.air, width: 1 }) +
    `<path d="M${num(x - 3)} ${num(tip + 7)}L${num(x)} ${num(tip)}L${num(x + 3)} ${num(tip + 7)}" ` +
    `fill="none" ${strokeOf({ tone: INK.air, width: 1 })}/>` +
    lettering(x - 6, (bottom + tip) / 2, 'air', { anchor: 'middle', tone: INK.air, turn_deg: -90 })
  );
}

function titleBlock(
  design: Design,
  views: PlateViews,
  text: DrawingText,
  x: number,
  scale: number,
): string[] {
  const kinds = [...new Set(design.channels.map((channel) => channel.section.kind))].join(', ');
  const bores = design.channels.flatMap((channel) => channel.bore_mm);
  const least = Math.min(...bores);
  const most = Math.max(...bores);
  const bore =
    figure(least) === figure(most) ? figure(least) : `${figure(least)} \u2013 ${figure(most)}`;
  const holes = [...new Set(design.plate.holes.map((hole) => hole.diameter_mm))]
    .map(figure)
    .join(', ');
  const lines = [
    ...(bores.length > 0
      ? [`${counted(portCount(design), 'channel')}: ${kinds}`, `bore \u2300 ${bore}`]
      : []),
    ...(holes === '' ? [] : [`${counted(design.plate.holes.length, 'hole')} \u2300 ${holes}`]),
    `rim ${figure(design.plate.rim_mm)}`,
    ...sideLines(design, views),
    `built ${design.plate.build === 'flat' ? 'flat, inlet face down' : 'on edge, -y down'}`,
    'all lengths in mm',
  ];
  const keyY = 120 + 15 * lines.length;
  return [
    lettering(x, 74, text.title, { size: 15, weight: 'bold' }),
    rule(x, 82, x + SIDE_WIDTH - 20, 82),
    ...lines.map((line, k) => lettering(x, 102 + 15 * k, line)),
    rule(x, keyY - 4, x + 26, keyY - 4, { width: 0.9 }),
    lettering(x + 34, keyY, 'outlet port (near face)', { tone: INK.soft }),
    rule(x, keyY + 11, x + 26, keyY + 11, { tone: INK.air, width: 0.7, dash: '3 2' }),
    lettering(x + 34, keyY + 15, 'inlet port (far face)', { tone: INK.soft }),
    rule(x, keyY + 26, x + 26, keyY + 26, { tone: INK.soft, width: 0.5, dash: '10 3 2 3' }),
    lettering(x + 34, keyY + 30, 'rim', { tone: INK.soft }),
    ...scaleBar(x, keyY + 50, scale),
    ...text.notes.map((note, k) => lettering(x, keyY + 82 + 15 * k, note)),
  ];
}

/** What a plate has beyond channels from face to face. */
function sideLines({ plenum }: Design, views: PlateViews): string[] {
  const lines: string[] = [];
  if (views.inside.length > 0) lines.push(`dotted: cut at z = ${figure(views.insideZ_mm)}`);
  if (plenum) {
    const [inner, outer] = [2 * plenum.innerRadius_mm, 2 * plenum.outerRadius_mm];
    const across = inner > 0 ? `${figure(inner)} \u2013 ${figure(outer)}` : figure(outer);
    lines.push(
      `plenum \u2300 ${across}, z ${figure(plenum.floor_mm)} \u2013 ${figure(plenum.top_mm)}`,
    );
  }
  return lines;
}

/** Ten millimetres at the drawing's scale. */
function scaleBar(x: number, y: number, scale: number): string[] {
  const end = x + 10 * scale;
  return [
    rule(x, y, end, y, { width: 0.9 }),
    rule(x, y - 3, x, y + 3, { width: 0.9 }),
    rule(end, y - 3, end, y + 3, { width: 0.9 }),
    lettering(end + 8, y + 4, '10 mm', { tone: INK.soft }),
  ];
}
